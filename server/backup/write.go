// Package backup puts everything the server keeps in one file, and back: a tar archive (POSIX.1-2001) with
// the database first, as wirewake.db, then the photos, each as photos/xx/SHA256. The database's own SHA-256 stands in
// a comment of its header, which every tar passes over. What the instruments said follows in a second archive behind it, as
// traces/TRIP/SHA256: a program that knows of none ends at the first, and puts back all the rest (GNU tar goes on with -i).
package backup

import (
	"archive/tar"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/fault"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

// Content is what is in a backup.
type Content struct {
	Entries int64
	Photos  int
	Traces  int
	// Missing are photos that should be there and are not.
	Missing int
}

// Write writes a backup of the data directory to a new file, while a server may go on using it. The file is
// on the disk when it returns; if it fails there is none.
func Write(ctx context.Context, dir, file string) (c Content, err error) {
	if _, err := os.Lstat(file); err == nil {
		return c, fmt.Errorf("%s is there already; choose another name, with the date in it for instance", file)
	}
	if _, err := os.Stat(filepath.Dir(file)); errors.Is(err, fs.ErrNotExist) {
		return c, fmt.Errorf("there is no folder %s; make it first, or choose another", filepath.Dir(file))
	}
	s, err := sqlite.OpenThere(ctx, dir)
	if err != nil {
		return c, err
	}
	defer s.Close()
	// Beside the file, so that it is on the disk with the room, and the finished one is only renamed.
	scratch, clear, err := openScratch(filepath.Dir(file))
	if err != nil {
		return c, fmt.Errorf("the backup cannot be written to %s: %w", filepath.Dir(file), err)
	}
	defer func() { err = errors.Join(err, clear()) }()
	if err := s.Copy(filepath.Join(scratch, folder.FileName)); err != nil {
		return c, err
	}
	part := filepath.Join(scratch, "backup.tar")
	if c, err = archive(ctx, dir, scratch, part); err != nil {
		return c, fmt.Errorf("the backup cannot be written: %w", err)
	}
	if err := fault.At(fault.BackupWritten); err != nil {
		return c, err
	}
	if err := os.Rename(part, file); err != nil {
		return c, err
	}
	return c, store.Flush(filepath.Dir(file))
}

const workName = ".wirewake-backup-"

// openScratch makes a directory to work in, and takes away those of backups that were killed.
func openScratch(dir string) (scratch string, clear func() error, err error) {
	left, _ := filepath.Glob(filepath.Join(dir, workName+"*"))
	for _, one := range left {
		lock := flock.New(one, flock.SetFlag(os.O_RDONLY))
		if alone, err := lock.TryLock(); err == nil && alone { // nobody works there any more
			_ = os.RemoveAll(one)
		}
		lock.Close()
	}
	if scratch, err = os.MkdirTemp(dir, workName); err != nil {
		return "", nil, err
	}
	lock := flock.New(scratch, flock.SetFlag(os.O_RDONLY))
	if _, err := lock.TryLock(); err != nil {
		return "", nil, errors.Join(err, os.RemoveAll(scratch))
	}
	return scratch, func() error { return errors.Join(os.RemoveAll(scratch), lock.Close()) }, nil
}

// archive packs the copy of the database in scratch, and the photos that this copy knows.
func archive(ctx context.Context, dir, scratch, part string) (c Content, err error) {
	copied, err := sqlite.Open(ctx, scratch)
	if err != nil {
		return c, err
	}
	all, err := copied.WholePhotos()
	for range 2 {
		// To the end, and all of it once more: what the disk has spoilt is known in the copy, which can be put back.
		if err == nil {
			_, err = copied.Look(math.MaxInt)
		}
	}
	if err == nil {
		c.Entries, err = copied.Last()
	}
	// Closed before it is read: then all of it is in its file.
	if err = errors.Join(err, copied.Close()); err != nil {
		return c, err
	}
	file, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return c, err
	}
	defer func() { err = errors.Join(err, file.Sync(), file.Close()) }()
	out := tar.NewWriter(file)
	sum, err := sumOf(filepath.Join(scratch, folder.FileName))
	if err != nil {
		return c, err
	}
	told := traces.NewShelf(dir)
	records := map[string]string{comment: sumName + sum}
	more, err := told.Any()
	if err != nil {
		return c, err
	}
	if more {
		records[follows] = "traces"
	}
	if err := add(out, folder.FileName, filepath.Join(scratch, folder.FileName), records); err != nil {
		return c, err
	}
	shelf := photos.NewFolder(dir)
	for _, photo := range all {
		err := add(out, nameOf(photo), shelf.File(photo), nil)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			c.Missing++
		case err != nil:
			return c, err
		default:
			c.Photos++
		}
	}
	if err := out.Close(); err != nil || !more {
		return c, err
	}
	out = tar.NewWriter(file)
	err = told.Each(func(t traces.Trace, content []byte) error {
		c.Traces++
		header := &tar.Header{Name: t.Path(), Mode: 0o600, Size: int64(len(content)), ModTime: time.Now(), Format: tar.FormatPAX}
		if err := out.WriteHeader(header); err != nil {
			return err
		}
		_, err := out.Write(content)
		return err
	})
	if err != nil {
		return c, err
	}
	return c, out.Close()
}

func nameOf(photo entry.Photo) string { return filepath.ToSlash(photos.Path(photo)) }

func add(out *tar.Writer, name, path string, records map[string]string) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return err
	}
	header := &tar.Header{Name: name, Mode: 0o600, Size: info.Size(), ModTime: info.ModTime(), Format: tar.FormatPAX, PAXRecords: records}
	if err := out.WriteHeader(header); err != nil {
		return err
	}
	_, err = io.Copy(out, file)
	return err
}
