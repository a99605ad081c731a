// Package photos keeps the photos of the trips, each as a file named by the SHA-256 of its content.
//
// They are files and not rows of the database: a photo never changes, so that a copy of the directory is
// always good; the log stays small to copy and check; and a photo on its way does not hold up the one
// writer that the log has. The protocol document is server/sync/README.md.
package photos

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"wirewake/server/store"
	"wirewake/server/sync/entry"
)

// DirName is the directory of the photos in the data directory.
const DirName = "photos"

// MaxSize is the most bytes a photo may have.
const MaxSize = 2_000_000

// What may be wrong with what a phone sends.
var (
	ErrOffset = errors.New("the part does not begin where the photo ends so far")
	ErrKind   = errors.New("neither JPEG nor WebP")
	ErrHash   = errors.New("the photo is not what its name says")
)

// Shelf is the photos on the disk. Whole ones lie in directories by their first two digits, those on
// their way in parts.
type Shelf struct {
	dir string
	// locks guard the files of photos by the first byte of their names, while a piece of one is written.
	locks [256]sync.Mutex
}

// NewShelf is the shelf in a data directory. Its directories are made when the first photo comes.
func NewShelf(data string) *Shelf { return &Shelf{dir: filepath.Join(data, DirName)} }

// Path is where a whole photo lies, from the data directory.
func Path(photo entry.Photo) string {
	name := photo.String()
	return filepath.Join(DirName, name[:2], name)
}

func (s *Shelf) whole(photo entry.Photo) string {
	return filepath.Join(filepath.Dir(s.dir), Path(photo))
}

func (s *Shelf) part(photo entry.Photo) string { return filepath.Join(s.dir, "parts", photo.String()) }

// Have says how much of a photo is there, and whether that is all.
func (s *Shelf) Have(photo entry.Photo) (bytes int64, whole bool, err error) {
	if info, err := os.Stat(s.whole(photo)); err == nil {
		return info.Size(), true, nil
	}
	info, err := os.Stat(s.part(photo))
	if errors.Is(err, fs.ErrNotExist) {
		return 0, false, nil
	}
	if err != nil {
		return 0, false, err
	}
	return info.Size(), false, nil
}

// Missing are those of the photos that are not on the shelf.
func (s *Shelf) Missing(all []entry.Photo) []entry.Photo {
	var missing []entry.Photo
	for _, photo := range all {
		if _, err := os.Stat(s.whole(photo)); errors.Is(err, fs.ErrNotExist) {
			missing = append(missing, photo)
		}
	}
	return missing
}

// Add writes a part that begins at from, of a photo of total bytes, as far as it comes: what comes before
// the connection is lost stays. The photo is whole once all has come and the hash is right; with a wrong
// hash all of it is thrown away.
func (s *Shelf) Add(photo entry.Photo, from, total int64, part io.Reader) (have int64, whole bool, err error) {
	if err := os.MkdirAll(filepath.Dir(s.part(photo)), 0o700); err != nil {
		return 0, false, err
	}
	piece := make([]byte, 32<<10)
	for at, more := from, true; more; {
		n, err := io.ReadFull(part, piece[:min(int64(len(piece)), total-at)])
		if more = err == nil && n > 0; n > 0 {
			if err := s.write(photo, at, piece[:n]); err != nil {
				have, _, _ := s.Have(photo)
				return have, false, err
			}
			at += int64(n)
		}
	}
	return s.finish(photo, total)
}

// write writes a piece. The file is opened for each, so that a part that is finished by another request
// meanwhile is not written to.
func (s *Shelf) write(photo entry.Photo, at int64, piece []byte) (err error) {
	lock := &s.locks[photo[0]]
	lock.Lock()
	defer lock.Unlock()
	have, whole, err := s.Have(photo)
	switch {
	case err != nil || whole:
		return err
	case at > have:
		return ErrOffset
	case at == 0 && kindOf(piece) == "":
		return ErrKind
	}
	file, err := os.OpenFile(s.part(photo), os.O_WRONLY|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, file.Close()) }()
	_, err = file.WriteAt(piece, at)
	return err
}

// finish puts a photo of which all has come in its place, where it is on the disk.
func (s *Shelf) finish(photo entry.Photo, total int64) (have int64, whole bool, err error) {
	lock := &s.locks[photo[0]]
	lock.Lock()
	defer lock.Unlock()
	have, whole, err = s.Have(photo)
	if err != nil || whole || have < total {
		return have, whole, err
	}
	part := s.part(photo)
	if err := Verify(part, photo); err != nil {
		return 0, false, errors.Join(err, os.Remove(part))
	}
	if err := place(part, s.whole(photo)); err != nil {
		return 0, false, err
	}
	return have, true, nil
}

// Put moves a file to the shelf as a whole photo. Whether it is that photo is for the caller to know.
func (s *Shelf) Put(photo entry.Photo, file string) error { return place(file, s.whole(photo)) }

// File is where a whole photo lies.
func (s *Shelf) File(photo entry.Photo) string { return s.whole(photo) }

// place moves a file for good: content and name are on the disk when it returns.
func place(from, to string) error {
	if err := store.Flush(from); err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o700); err != nil {
		return err
	}
	if err := os.Rename(from, to); err != nil {
		return err
	}
	return errors.Join(store.Flush(filepath.Dir(to)), store.Flush(filepath.Dir(filepath.Dir(to))))
}

// Verify reads a file and says whether it is the photo. The error is ErrHash if it is not.
func Verify(file string, photo entry.Photo) error {
	opened, err := os.Open(file)
	if err != nil {
		return err
	}
	defer opened.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, opened); err != nil {
		return err
	}
	if !bytes.Equal(hash.Sum(nil), photo[:]) {
		return fmt.Errorf("%s: %w", filepath.Base(file), ErrHash)
	}
	return nil
}

// Open opens a whole photo and says of which media type it is. The caller closes it.
func (s *Shelf) Open(photo entry.Photo) (file *os.File, kind string, err error) {
	if file, err = os.Open(s.whole(photo)); err != nil {
		return nil, "", err
	}
	head := make([]byte, 12)
	if _, err := file.ReadAt(head, 0); err != nil {
		file.Close()
		return nil, "", err
	}
	return file, kindOf(head), nil
}

// kindOf tells the media type by the first bytes (JPEG: ITU-T T.81, SOI and the marker after it; WebP:
// RFC 9649), or "" if it is another or there are too few.
func kindOf(head []byte) string {
	switch {
	case len(head) < 12:
		return ""
	case bytes.HasPrefix(head, []byte{0xff, 0xd8, 0xff}):
		return "image/jpeg"
	case string(head[:4]) == "RIFF" && string(head[8:12]) == "WEBP":
		return "image/webp"
	}
	return ""
}
