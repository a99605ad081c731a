package traces

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/google/uuid"

	"wirewake/server/store"
)

// dirName is the directory of the traces in the data directory.
const dirName = "traces"

// came begins the name of a file while it comes from elsewhere.
const came = "came-"

// MostOfTrip is how many files a trip may have.
const MostOfTrip = 50

// What may be wrong with what comes.
var (
	ErrHash   = errors.New("the trace is not what its name says")
	ErrTrace  = errors.New("this is no whole trace of that trip")
	ErrEnough = errors.New("the trip has its traces")
)

// Whole are the traces that are whole, wherever they lie.
type Whole interface {
	// All are all of them, by trip.
	All() ([]Trace, error)
	// Get is the content of one: [ErrHash] if it is spoilt, [io/fs.ErrNotExist] if it is not there.
	Get(trip uuid.UUID, sum string) ([]byte, error)
	// Put takes one from elsewhere: what [Judge] says if it is none, [ErrEnough] if the trip has as many as it may.
	Put(trip uuid.UUID, sum string, content []byte) error
}

// Shelf is the traces on the disk: whole ones in a directory for each trip, those being written in parts.
type Shelf struct {
	dir string
	// coming is held while one comes from elsewhere.
	coming sync.Mutex
}

// NewShelf is the shelf in a data directory. Its directories are made when the first trace comes.
func NewShelf(data string) *Shelf { return &Shelf{dir: filepath.Join(data, dirName)} }

// Trace names a whole one.
type Trace struct {
	Trip   uuid.UUID `json:"trip"`
	SHA256 string    `json:"sha256"`
	Bytes  int64     `json:"bytes"`
}

// Part is where the trace of a trip is written.
func (s *Shelf) Part(trip uuid.UUID) (path string, err error) {
	parts := filepath.Join(s.dir, "parts")
	return filepath.Join(parts, trip.String()), store.MakeDir(parts)
}

// Parts are the trips of which a trace is being written, or was when the server stopped.
func (s *Shelf) Parts() (trips []uuid.UUID) {
	all, _ := os.ReadDir(filepath.Join(s.dir, "parts")) // without any there are none
	for _, one := range all {
		if trip, err := uuid.Parse(one.Name()); err == nil {
			trips = append(trips, trip)
		}
	}
	return trips
}

// Seal puts what was written of a trip in its place as a whole trace. One without a record is thrown away.
func (s *Shelf) Seal(trip uuid.UUID) error {
	part, err := s.Part(trip)
	if err != nil {
		return err
	}
	content, err := os.ReadFile(part)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	_, rows, whole, err := Read(content)
	if err != nil || len(rows) == 0 {
		return os.Remove(part)
	}
	if err := os.Truncate(part, int64(whole)); err != nil {
		return err
	}
	return s.place(trip, part, content[:whole])
}

// place moves a file for good: content and name are on the disk when it returns.
func (s *Shelf) place(trip uuid.UUID, from string, content []byte) error {
	to := s.file(trip, sumOf(content))
	if err := store.Flush(from); err != nil {
		return err
	}
	if err := store.MakeDir(filepath.Dir(to)); err != nil {
		return err
	}
	return errors.Join(os.Rename(from, to), store.Flush(filepath.Dir(to)))
}

func sumOf(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

func (s *Shelf) file(trip uuid.UUID, sum string) string {
	return filepath.Join(s.dir, trip.String(), sum)
}

// Any says whether there is one, whole or being written.
func (s *Shelf) Any() (bool, error) {
	all, err := s.All()
	return len(all)+len(s.Parts()) > 0, err
}

// Each gives every whole one to see, and of one that is being written what is whole of it so far, by the name that this has. What
// the disk has spoilt is passed over.
func (s *Shelf) Each(see func(t Trace, content []byte) error) error {
	seen := map[Trace]bool{}
	once := func(t Trace, content []byte) error {
		if seen[t] {
			return nil
		}
		seen[t] = true
		return see(t, content)
	}
	// First those being written: one that is finished meanwhile is among the whole ones then.
	for _, trip := range s.Parts() {
		if err := s.begun(trip, once); err != nil {
			return err
		}
	}
	all, err := s.All()
	if err != nil {
		return err
	}
	for _, t := range all {
		content, err := s.Get(t.Trip, t.SHA256)
		if errors.Is(err, ErrHash) || errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err == nil {
			err = once(t, content)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// begun gives what is whole so far of the trace of a trip that is being written.
func (s *Shelf) begun(trip uuid.UUID, see func(t Trace, content []byte) error) error {
	path, err := s.Part(trip)
	if err != nil {
		return err
	}
	content, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil // whole meanwhile
	}
	if err != nil {
		return err
	}
	_, rows, whole, err := Read(content)
	if err != nil || len(rows) == 0 {
		return nil // there is nothing of it yet
	}
	content = content[:whole]
	return see(Trace{trip, sumOf(content), int64(whole)}, content)
}

// Path is where a trace is in a backup and in what a phone saved, below what they are in.
func (t Trace) Path() string { return dirName + "/" + t.Trip.String() + "/" + t.SHA256 }

// ParsePath reads such a path; ok is false for another.
func ParsePath(path string) (t Trace, ok bool) {
	parts := strings.Split(path, "/")
	if len(parts) != 3 || parts[0] != dirName || !IsSum(parts[2]) {
		return t, false
	}
	trip, err := uuid.Parse(parts[1])
	t = Trace{Trip: trip, SHA256: parts[2]}
	return t, err == nil && t.Path() == path
}

// Dir is the directory of all of them.
func (s *Shelf) Dir() string { return s.dir }

// Verify says what is wrong with a whole one in a file: ErrHash or ErrTrace.
func Verify(path string, t Trace) error {
	content, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	return Judge(t, content)
}

// Judge says what is wrong with a whole one: ErrHash or ErrTrace.
func Judge(t Trace, content []byte) error {
	of, rows, whole, err := Read(content)
	switch {
	case sumOf(content) != t.SHA256:
		return ErrHash
	case err != nil || of != t.Trip || whole != len(content) || len(rows) == 0 || len(content) > MaxSize:
		return ErrTrace
	}
	return nil
}

// Put takes a whole trace from elsewhere. One that is there and spoilt gives way to it.
func (s *Shelf) Put(trip uuid.UUID, sum string, content []byte) error {
	s.coming.Lock()
	defer s.coming.Unlock()
	_, there := s.Get(trip, sum)
	if there == nil {
		return nil
	}
	if err := Judge(Trace{Trip: trip, SHA256: sum}, content); err != nil {
		return err
	}
	if files, _ := os.ReadDir(filepath.Join(s.dir, trip.String())); len(files) >= MostOfTrip && errors.Is(there, fs.ErrNotExist) {
		return ErrEnough
	}
	if err := store.MakeDir(s.dir); err != nil {
		return err
	}
	// What a kill left in the midst of coming.
	left, _ := os.ReadDir(s.dir)
	for _, file := range left {
		if strings.HasPrefix(file.Name(), came) {
			_ = os.Remove(filepath.Join(s.dir, file.Name()))
		}
	}
	file, err := os.CreateTemp(s.dir, came)
	if err != nil {
		return err
	}
	_, err = file.Write(content)
	if err = errors.Join(err, file.Close()); err == nil {
		err = s.place(trip, file.Name(), content)
	}
	if err != nil {
		_ = os.Remove(file.Name())
	}
	return err
}

// Get is the content of a whole one; ErrHash if the disk has spoilt it.
func (s *Shelf) Get(trip uuid.UUID, sum string) ([]byte, error) {
	content, err := os.ReadFile(s.file(trip, sum))
	if err == nil && sumOf(content) != sum {
		return nil, ErrHash
	}
	return content, err
}

// All are the whole ones.
func (s *Shelf) All() (all []Trace, err error) {
	trips, err := os.ReadDir(s.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	for _, dir := range trips {
		trip, bad := uuid.Parse(dir.Name())
		if bad != nil {
			continue
		}
		files, err := os.ReadDir(filepath.Join(s.dir, dir.Name()))
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			if info, err := file.Info(); err == nil && IsSum(file.Name()) {
				all = append(all, Trace{trip, file.Name(), info.Size()})
			}
		}
	}
	slices.SortFunc(all, func(a, b Trace) int { return strings.Compare(a.Trip.String()+a.SHA256, b.Trip.String()+b.SHA256) })
	return all, err
}

// IsSum says whether the text is the name of a whole one.
func IsSum(text string) bool {
	content, err := hex.DecodeString(text)
	return err == nil && len(content) == sha256.Size && strings.ToLower(text) == text
}
