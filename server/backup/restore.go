package backup

import (
	"archive/tar"
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/owner"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

// Restored is what was put back.
type Restored struct {
	Content
	// Aside is the database that was there before, under its new name; "" if there was none.
	Aside string
	// Readmitted says that it could not be read which phones were revoked since the backup: they are aboard again.
	Readmitted bool
	// Unsummed says that the backup does not hold its database's sum, as those of older programs do not.
	Unsummed bool
}

const scratchName = "restore-"

// Restore puts a backup in the place of what is in the data directory. Everything is unpacked and verified
// first, so that a backup that is not good changes nothing; what was there is set aside, and photos that
// were there stay. It refuses while a server is running.
func Restore(ctx context.Context, dir, file string, now time.Time) (r Restored, err error) {
	opened, err := os.Open(file)
	if err != nil {
		return r, fmt.Errorf("the backup cannot be read: %w", err)
	}
	defer opened.Close()
	release, err := folder.Seize(dir)
	if err != nil {
		return r, err
	}
	defer func() { err = errors.Join(err, release()) }()
	// What a restore that was cut off left behind.
	left, _ := filepath.Glob(filepath.Join(dir, scratchName+"*"))
	for _, path := range left {
		if err := os.RemoveAll(path); err != nil {
			return r, err
		}
	}
	scratch, err := os.MkdirTemp(dir, scratchName)
	if err != nil {
		return r, blame(err, file, dir)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(scratch)) }()
	unpacked, sum, err := unpack(opened, scratch)
	if err != nil {
		return r, blame(err, file, dir)
	}
	// Before it is opened, which may change it; told after what else is wrong, which says more.
	is, sumErr := sumOf(filepath.Join(scratch, folder.FileName))
	if r, err = prepare(ctx, dir, scratch, unpacked.photos); err != nil {
		return r, blame(err, file, dir)
	}
	if r.Unsummed = sum == ""; !r.Unsummed && (sumErr != nil || sumName+is != sum) {
		return r, blame(errSum, file, dir)
	}
	defer func() {
		for _, kept := range []string{photos.NewFolder(dir).Dir(), traces.NewShelf(dir).Dir()} {
			if exists(kept) {
				err = errors.Join(err, owner.Keep(dir, kept))
			}
		}
	}()
	if err := owner.Keep(dir, scratch); err != nil {
		return r, err
	}
	shelf, packed := photos.NewFolder(dir), photos.NewFolder(scratch)
	for photo := range unpacked.photos {
		if _, whole := shelf.Whole(photo); whole {
			continue
		}
		if err := shelf.Put(photo, packed.File(photo)); err != nil {
			return r, blame(err, file, dir)
		}
	}
	for _, t := range unpacked.traces {
		content, err := os.ReadFile(filepath.Join(scratch, filepath.FromSlash(t.Path())))
		if err != nil {
			return r, err
		}
		switch err := traces.NewShelf(dir).Put(t.Trip, t.SHA256, content); {
		case errors.Is(err, traces.ErrEnough): // the trip has as many as it may
		case err != nil:
			return r, blame(err, file, dir)
		default:
			r.Traces++
		}
	}
	r.Aside, err = folder.Replace(dir, filepath.Join(scratch, folder.FileName), now)
	return r, err
}

var errSum = errors.New(folder.FileName + " in it is not as it was written (its SHA-256 is another); take another backup, or get out " +
	"what is in this one with tar -xif")

var (
	errOther = errors.New("this program did not make it: it is no tar archive with a " + folder.FileName + " in it")
	errShort = errors.New("it is cut short; copy it here once more, or take another")
)

// blame says whose fault it is that a backup cannot be put back: its own, or that of the disk it is unpacked on.
func blame(err error, file, dir string) error {
	var ill *store.Error
	var failed *fs.PathError
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.As(err, &ill) && ill.Full:
		return fmt.Errorf("the disk that holds %s is full; make room on it: a restore needs that of the backup besides what is there", dir)
	case errors.As(err, &ill) && ill.Damaged:
		return fmt.Errorf("%s is not a good backup: the %s in it is damaged; take another", file, folder.FileName)
	case errors.As(err, &failed) && strings.HasPrefix(failed.Path, filepath.Clean(dir)+string(filepath.Separator)):
		return fmt.Errorf("the backup cannot be unpacked in %s: %w", dir, err)
	}
	return fmt.Errorf("%s is not a good backup: %w", file, err)
}

// contents are the photos and the traces of a backup.
type contents struct {
	photos map[entry.Photo]bool
	traces []traces.Trace
}

// unpack unpacks a backup, and verifies that each photo and trace is what its name says. sum is what it holds of its database's
// sum, "" if nothing.
func unpack(file io.Reader, scratch string) (unpacked contents, sum string, err error) {
	unpacked.photos = map[entry.Photo]bool{}
	end := &ending{from: file}
	from := bufio.NewReader(end)
	in, more, archives := tar.NewReader(from), false, 1
	for first, found := true, false; ; first = false {
		header, err := in.Next()
		_, ended := from.Peek(1)
		switch {
		case errors.Is(err, io.EOF) && found && ended == nil:
			// Another archive, or what fills up the last block of a tape.
			in = tar.NewReader(from)
			archives++
			continue
		case errors.Is(err, io.EOF) && found && more && (archives == 1 || end.zeros < endOfArchive):
			// What the instruments said nobody else knows of: it would not be missed.
			return unpacked, "", errShort
		case errors.Is(err, io.EOF) && found:
			return unpacked, sum, nil
		case errors.Is(err, io.EOF), errors.Is(err, tar.ErrHeader) && first:
			return unpacked, "", errOther
		case errors.Is(err, io.ErrUnexpectedEOF):
			return unpacked, "", errShort
		case err != nil:
			return unpacked, "", err
		}
		photo, isPhoto := entry.ParsePhoto(header.Name[strings.LastIndex(header.Name, "/")+1:])
		isPhoto = isPhoto && header.Name == nameOf(photo)
		trace, isTrace := traces.ParsePath(header.Name)
		if header.Typeflag != tar.TypeReg || !isPhoto && !isTrace && header.Name != folder.FileName {
			return unpacked, "", fmt.Errorf("this program did not make it, or a newer one did, with which to put it back: there is %q in it", header.Name)
		}
		to := filepath.Join(scratch, filepath.FromSlash(header.Name))
		if err := unpackOne(in, to); errors.Is(err, io.ErrUnexpectedEOF) {
			return unpacked, "", errShort
		} else if err != nil {
			return unpacked, "", err
		}
		if isTrace {
			if err := traces.Verify(to, trace); err != nil {
				return unpacked, "", err
			}
			unpacked.traces = append(unpacked.traces, trace)
			continue
		}
		if !isPhoto {
			found = true
			sum, more = header.PAXRecords[comment], header.PAXRecords[follows] != ""
			continue
		}
		if err := photos.Verify(to, photo); err != nil {
			return unpacked, "", err
		}
		unpacked.photos[photo] = true
	}
}

// endOfArchive is how many bytes of zeros end an archive at least (POSIX.1-2001).
const endOfArchive = 1024

// ending reads, and knows with how many zeros ends what it has read.
type ending struct {
	from  io.Reader
	zeros int
}

func (e *ending) Read(p []byte) (int, error) {
	n, err := e.from.Read(p)
	some := len(bytes.TrimRight(p[:n], "\x00"))
	if some > 0 {
		e.zeros = 0
	}
	e.zeros += n - some
	return n, err
}

func unpackOne(from io.Reader, to string) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o700); err != nil {
		return err
	}
	file, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(file, from)
	return errors.Join(err, file.Close())
}

// prepare verifies the database in scratch and makes it ready to take the place of the one in dir.
func prepare(ctx context.Context, dir, scratch string, unpacked map[entry.Photo]bool) (r Restored, err error) {
	s, err := sqlite.OpenThere(ctx, scratch)
	if err != nil {
		return r, err
	}
	defer func() {
		err = errors.Join(err, s.Close())
		if err == nil {
			err = store.Flush(filepath.Join(scratch, folder.FileName))
		}
	}()
	var wrong []string
	state, err := s.Verify(func(w string) { wrong = append(wrong, w) })
	if err != nil {
		return r, err
	}
	if len(wrong) > 0 {
		return r, errors.New(strings.Join(wrong, " "))
	}
	r.Entries, r.Photos = state.Entries, len(unpacked)
	if err := s.NewEpoch(); err != nil {
		return r, err
	}
	all, err := s.WholePhotos()
	if err != nil {
		return r, err
	}
	shelf := photos.NewFolder(dir)
	for _, photo := range all {
		if _, whole := shelf.Whole(photo); whole || unpacked[photo] {
			continue
		}
		// The phones are asked for it.
		r.Missing++
		if err := s.SetWhole(photo, false); err != nil {
			return r, err
		}
	}
	if former := filepath.Join(dir, folder.FileName); exists(former) {
		r.Readmitted = s.RevokeAsIn(former) != nil
	}
	return r, nil
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}
