// Package photos keeps the photos of the trips, each under the SHA-256 of its content.
//
// On the boat they are files and not rows of the database: a photo never changes, so that a copy of the directory is
// always good; the log stays small to copy and check; and a photo on its way does not hold up the one
// writer that the log has. The protocol document is server/sync/README.md.
package photos

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/fault"
)

// DirName is the directory of the photos in the data directory.
const DirName = "photos"

// MaxSize is the most bytes a photo may have.
const MaxSize = 2_000_000

// What may be wrong with what a phone sends, or with what is there.
var (
	ErrOffset = errors.New("the part does not begin where the photo ends so far")
	ErrKind   = errors.New("neither JPEG nor WebP")
	ErrHash   = errors.New("the photo is not what its name says")
	ErrRoom   = errors.New("what room the disk has left is for the log")
	ErrGiven  = errors.New("another photo of the phone has taken this one's place")
)

// Folder is the photos on the disk. Whole ones lie in directories by their first two digits, those on
// their way in parts, those that the disk has spoilt in spoilt.
type Folder struct {
	dir string
	// Room is how much room the disk has left, and its size, in bytes. It may be set before use.
	Room func(dir string) (left, size uint64, err error)
	// locks guard the files of photos by the first byte of their names, while a piece of one is written.
	locks [256]sync.Mutex
}

// NewFolder is the shelf in a data directory. Its directories are made when the first photo comes.
func NewFolder(data string) *Folder { return &Folder{dir: filepath.Join(data, DirName), Room: room} }

// Path is where a whole photo lies, from the data directory.
func Path(photo entry.Photo) string {
	name := photo.String()
	return filepath.Join(DirName, name[:2], name)
}

// File is where a whole photo lies.
func (s *Folder) File(photo entry.Photo) string {
	return filepath.Join(filepath.Dir(s.dir), Path(photo))
}

func (s *Folder) parts() string { return filepath.Join(s.dir, "parts") }

func (s *Folder) part(p store.Part) string { return filepath.Join(s.parts(), partName(p)) }

func partName(p store.Part) string { return p.Photo.String() + "." + p.By.String() }

// Whole says whether a photo is there, and its bytes.
func (s *Folder) Whole(photo entry.Photo) (bytes int64, ok bool) {
	info, err := os.Stat(s.File(photo))
	if err != nil || !info.Mode().IsRegular() {
		return 0, false
	}
	return info.Size(), true
}

// Have says how much of a photo on its way is there.
func (s *Folder) Have(p store.Part) (bytes int64, err error) {
	info, err := os.Stat(s.part(p))
	if errors.Is(err, fs.ErrNotExist) {
		return 0, nil
	}
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

// Missing are those of the photos that are not on the shelf.
func (s *Folder) Missing(all []entry.Photo) []entry.Photo {
	var missing []entry.Photo
	for _, photo := range all {
		if _, err := os.Stat(s.File(photo)); errors.Is(err, fs.ErrNotExist) {
			missing = append(missing, photo)
		}
	}
	return missing
}

// Add writes what comes of a photo of total bytes, which begins at from, as far as it comes: what comes before
// the connection is lost stays. The photo is whole once all has come and the hash is right; with a wrong hash
// all of it is thrown away. begun says whether it still counts: what does not is not written.
func (s *Folder) Add(p store.Part, from, total int64, content io.Reader, begun func() (bool, error)) (have int64, whole bool, err error) {
	if err := s.mayGrow(); err != nil {
		return 0, false, err
	}
	if err := store.MakeDir(s.parts()); err != nil {
		return 0, false, err
	}
	piece := make([]byte, 32<<10)
	for at, more := from, true; more; {
		n, err := io.ReadFull(content, piece[:min(int64(len(piece)), total-at)])
		if more = err == nil && n > 0; n > 0 {
			if err := s.write(p, at, piece[:n], begun); err != nil {
				have, _ := s.Have(p)
				return have, false, err
			}
			at += int64(n)
		}
	}
	if err := fault.At(fault.PhotoCame); err != nil {
		return 0, false, err
	}
	return s.Finish(p, total)
}

// write writes a piece. The file is opened for each, so that a part that is finished by another request
// meanwhile is not written to.
func (s *Folder) write(p store.Part, at int64, piece []byte, begun func() (bool, error)) (err error) {
	lock := &s.locks[p.Photo[0]]
	lock.Lock()
	defer lock.Unlock()
	counts, err := begun()
	if err != nil {
		return err
	}
	have, err := s.Have(p)
	switch {
	case err != nil:
		return err
	case !counts:
		return ErrGiven
	case at > have:
		return ErrOffset
	case at == 0 && Kind(piece) == "":
		return ErrKind
	}
	file, err := os.OpenFile(s.part(p), os.O_WRONLY|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, file.Close()) }()
	_, err = file.WriteAt(piece, at)
	return err
}

// Finish puts a photo of which all has come in its place, where it is on the disk. Wherever it stops, it can be
// done again.
func (s *Folder) Finish(p store.Part, total int64) (have int64, whole bool, err error) {
	lock := &s.locks[p.Photo[0]]
	lock.Lock()
	defer lock.Unlock()
	if have, err = s.Have(p); err != nil || have < total {
		return have, false, err
	}
	if err := fault.At(fault.PhotoComplete); err != nil {
		return 0, false, err
	}
	part := s.part(p)
	// What came may be longer, if the phone once thought so.
	if err := os.Truncate(part, total); err != nil {
		return 0, false, err
	}
	if err := isPhoto(part, p.Photo); err != nil {
		if bad(err) {
			err = errors.Join(err, os.Remove(part))
		}
		return 0, false, err
	}
	if err := fault.At(fault.PhotoProved); err != nil {
		return 0, false, err
	}
	if err := place(part, s.File(p.Photo)); err != nil {
		return 0, false, err
	}
	return total, true, fault.At(fault.PhotoPlaced)
}

// Drop takes away what is there of a photo on its way.
func (s *Folder) Drop(p store.Part) error {
	lock := &s.locks[p.Photo[0]]
	lock.Lock()
	defer lock.Unlock()
	if err := os.Remove(s.part(p)); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// Tidy throws away what is there of those on their way that are not alive.
func (s *Folder) Tidy(alive func() (map[store.Part]bool, error)) error {
	// First the files, then what may be there: one that is begun meanwhile is in no danger.
	files, err := os.ReadDir(s.parts())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	all, err := alive()
	if err != nil {
		return err
	}
	names := map[string]bool{}
	for part := range all {
		names[partName(part)] = true
	}
	for _, file := range files {
		if !names[file.Name()] {
			err = errors.Join(err, os.RemoveAll(filepath.Join(s.parts(), file.Name())))
		}
	}
	return err
}

// Dir is the directory of all of it.
func (s *Folder) Dir() string { return s.dir }

// Put moves a file to the shelf as a whole photo. Whether it is that photo is for the caller to know.
func (s *Folder) Put(photo entry.Photo, file string) error { return place(file, s.File(photo)) }

// place moves a file for good: content and name are on the disk when it returns.
func place(from, to string) error {
	if err := store.Flush(from); err != nil {
		return err
	}
	if err := store.MakeDir(filepath.Dir(to)); err != nil {
		return err
	}
	if err := os.Rename(from, to); err != nil {
		return err
	}
	return store.Flush(filepath.Dir(to))
}

// Verify says whether a whole photo is what its name says.
func (s *Folder) Verify(photo entry.Photo) error { return Verify(s.File(photo), photo) }

// Verify reads a file and says whether it is the photo. The error is ErrHash if it is not.
func Verify(file string, photo entry.Photo) error {
	opened, err := os.Open(file)
	if err != nil {
		return err
	}
	defer opened.Close()
	return verify(opened, photo)
}

// isPhoto says whether a file is the photo, and one that phones can show.
func isPhoto(file string, photo entry.Photo) error {
	opened, err := os.Open(file)
	if err != nil {
		return err
	}
	defer opened.Close()
	if err := verify(opened, photo); err != nil {
		return err
	}
	return Judge(opened)
}

func verify(file io.Reader, photo entry.Photo) error {
	hash := sha256.New()
	if _, err := io.Copy(hash, file); err != nil {
		return err
	}
	if !bytes.Equal(hash.Sum(nil), photo[:]) {
		return ErrHash
	}
	return nil
}

// Open opens a whole photo and says of which media type it is. The error is ErrHash if the disk has spoilt it.
// The caller closes it.
func (s *Folder) Open(photo entry.Photo) (opened io.ReadSeekCloser, kind string, err error) {
	file, err := os.Open(s.File(photo))
	if err != nil {
		return nil, "", err
	}
	defer func() {
		if err != nil {
			file.Close()
		}
	}()
	if err := verify(file, photo); err != nil {
		return nil, "", err
	}
	head := make([]byte, 12)
	if _, err := file.ReadAt(head, 0); err != nil {
		return nil, "", err
	}
	_, err = file.Seek(0, io.SeekStart)
	return file, Kind(head), err
}

// SetAside takes a photo that the disk has spoilt, or that is gone, out of its place, and keeps what there is of it:
// perhaps no phone has it any more. lost is false if it is sound after all, because it was put back meanwhile.
func (s *Folder) SetAside(photo entry.Photo) (lost bool, err error) {
	lock := &s.locks[photo[0]]
	lock.Lock()
	defer lock.Unlock()
	switch err := Verify(s.File(photo), photo); {
	case err == nil:
		return false, nil
	case errors.Is(err, fs.ErrNotExist):
		return true, nil
	case !errors.Is(err, ErrHash):
		return false, err
	}
	return true, place(s.File(photo), filepath.Join(s.dir, "spoilt", photo.String()))
}

// Kind tells the media type by the first bytes (JPEG: ITU-T T.81, SOI and the marker after it; WebP:
// RFC 9649), or "" if it is another or there are too few.
func Kind(head []byte) string {
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
