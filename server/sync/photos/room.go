package photos

import (
	"errors"
	"io/fs"
	"path/filepath"
)

// keptBack is how much room the disk keeps for the log before photos: a season of it. Of a small disk it is a
// tenth.
const keptBack = 64 << 20

// MayGrow says ErrRoom if what is left of the disk is for the log, to what else is kept beside the photos.
func (s *Folder) MayGrow() error { return s.mayGrow() }

// mayGrow says ErrRoom if what is left of the disk is for the log.
func (s *Folder) mayGrow() error {
	left, size, err := s.Room(filepath.Dir(s.dir))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case left < min(keptBack, size/10):
		return ErrRoom
	}
	return nil
}
