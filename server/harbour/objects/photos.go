package objects

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strconv"
	"strings"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/photos"
)

// Photos are those of one boat: whole ones under their hash, those on their way in pieces as they came, each under where it
// begins. A piece is far smaller than S3's own parts may be (5 MiB), and another server may bring the next.
type Photos struct {
	bucket *Bucket
	boat   string
}

// Photos are those of a boat.
func (b *Bucket) Photos(boat string) *Photos { return &Photos{b, boat} }

func (s *Photos) whole(photo entry.Photo) string { return s.boat + "/photos/" + photo.String() }

func (s *Photos) parts() string { return s.boat + "/parts/" }

// part begins the names of the pieces of one on its way.
func (s *Photos) part(p store.Part) string {
	return s.parts() + p.Photo.String() + "." + p.By.String() + "/"
}

// Whole says whether a photo is there, and its bytes.
func (s *Photos) Whole(photo entry.Photo) (bytes int64, ok bool) {
	bytes, err := s.bucket.size(s.whole(photo))
	return bytes, err == nil
}

// piece is what came at once of a photo on its way.
type piece struct {
	key      string
	from, to int64
}

// pieces are those that are there, as far as one goes on where another ends.
func (s *Photos) pieces(p store.Part) (all []piece, have int64, err error) {
	prefix := s.part(p)
	found, err := s.bucket.list(prefix)
	for _, o := range found {
		begin, err := strconv.ParseInt(o.name, 10, 64)
		if err != nil || begin > have {
			break
		}
		all = append(all, piece{prefix + o.name, begin, begin + o.bytes})
		have = max(have, begin+o.bytes)
	}
	return all, have, err
}

// Have says how much of a photo on its way is there.
func (s *Photos) Have(p store.Part) (bytes int64, err error) {
	_, have, err := s.pieces(p)
	return have, err
}

// Add keeps what comes of a photo as one piece, as far as it comes.
func (s *Photos) Add(p store.Part, from, total int64, content io.Reader, begun func() (bool, error)) (have int64, whole bool, err error) {
	// What comes before the connection is lost stays.
	came, _ := io.ReadAll(io.LimitReader(content, total-from))
	if len(came) > 0 {
		if have, err = s.add(p, from, came, begun); err != nil {
			return have, false, err
		}
	}
	return s.Finish(p, total)
}

func (s *Photos) add(p store.Part, from int64, came []byte, begun func() (bool, error)) (have int64, err error) {
	if have, err = s.Have(p); err != nil {
		return 0, err
	}
	counts, err := begun()
	switch {
	case err != nil:
		return have, err
	case !counts:
		return have, photos.ErrGiven
	case from > have:
		return have, photos.ErrOffset
	case from == 0 && photos.Kind(came) == "":
		return have, photos.ErrKind
	}
	// By the length of its name it stands where it begins.
	return have, s.bucket.put(s.part(p)+fmt.Sprintf("%09d", from), came)
}

// Finish puts a photo in its place of which all has come, and reads it back before it says so.
func (s *Photos) Finish(p store.Part, total int64) (have int64, whole bool, err error) {
	all, have, err := s.pieces(p)
	if err != nil || have < total {
		return have, false, err
	}
	content, err := s.join(all)
	if errors.Is(err, fs.ErrNotExist) {
		// Another server has finished it meanwhile, or it was given up. Whoever asks again hears it; that it is here does not say
		// that this phone has shown it.
		return 0, false, nil
	}
	if err != nil {
		return 0, false, err
	}
	if have = int64(len(content)); have < total {
		// A request that was cut off and came late has left less where a piece was.
		return have, false, nil
	}
	content = content[:total]
	if err = right(content, p.Photo); err == nil {
		err = photos.Judge(bytes.NewReader(content))
	}
	if err != nil {
		return 0, false, errors.Join(err, s.Drop(p))
	}
	if err := s.bucket.put(s.whole(p.Photo), content); err != nil {
		return 0, false, err
	}
	if err := s.Verify(p.Photo); err != nil {
		return 0, false, fmt.Errorf("what was put in the object store does not come back: %w", err)
	}
	return total, true, s.Drop(p)
}

// join is what the pieces are together, as far as one goes on where another ends.
func (s *Photos) join(all []piece) (content []byte, err error) {
	for _, one := range all {
		came, err := s.bucket.get(one.key, photos.MaxSize)
		if err != nil {
			return nil, err
		}
		begun := int64(len(content)) - one.from
		if begun < 0 {
			// The one before has less than it had: what there is ends there.
			break
		}
		if begun < int64(len(came)) {
			content = append(content, came[begun:]...)
		}
	}
	return content, nil
}

func right(content []byte, photo entry.Photo) error {
	if sha256.Sum256(content) != photo {
		return photos.ErrHash
	}
	return nil
}

// Drop takes away what is there of a photo on its way.
func (s *Photos) Drop(p store.Part) error { return s.drop(s.part(p)) }

func (s *Photos) drop(prefix string) error {
	all, err := s.bucket.list(prefix)
	for _, o := range all {
		err = errors.Join(err, s.bucket.remove(prefix+o.name))
	}
	return err
}

// Tidy throws away what is there of those on their way that are not alive.
func (s *Photos) Tidy(alive func() (map[store.Part]bool, error)) error {
	found, err := s.bucket.list(s.parts())
	if err != nil {
		return err
	}
	all, err := alive()
	if err != nil {
		return err
	}
	for _, o := range found {
		if p, ok := partOf(o.name); !ok || !all[p] {
			err = errors.Join(err, s.bucket.remove(s.parts()+o.name))
		}
	}
	return err
}

// partOf is of which photo on its way a piece is.
func partOf(name string) (p store.Part, ok bool) {
	of, _, _ := strings.Cut(name, "/")
	photo, by, _ := strings.Cut(of, ".")
	if p.Photo, ok = entry.ParsePhoto(photo); !ok {
		return p, false
	}
	id, err := uuid.Parse(by)
	p.By = id
	return p, err == nil
}

// opened is a photo as it was read.
type opened struct{ *bytes.Reader }

func (opened) Close() error { return nil }

// Open opens a whole photo, once it is known to be what its name says.
func (s *Photos) Open(photo entry.Photo) (io.ReadSeekCloser, string, error) {
	content, err := s.read(photo)
	if err != nil {
		return nil, "", err
	}
	return opened{bytes.NewReader(content)}, photos.Kind(content), nil
}

func (s *Photos) read(photo entry.Photo) ([]byte, error) {
	content, err := s.bucket.get(s.whole(photo), photos.MaxSize)
	if err == nil {
		err = right(content, photo)
	}
	return content, err
}

// Verify says whether a whole photo is what its name says.
func (s *Photos) Verify(photo entry.Photo) error {
	_, err := s.read(photo)
	return err
}

// Missing are those of some photos that are gone.
func (s *Photos) Missing(all []entry.Photo) (missing []entry.Photo) {
	for _, photo := range all {
		if _, err := s.bucket.size(s.whole(photo)); errors.Is(err, fs.ErrNotExist) {
			missing = append(missing, photo)
		}
	}
	return missing
}

// SetAside takes a photo that is spoilt or gone out of its place, and keeps what there is of it.
func (s *Photos) SetAside(photo entry.Photo) (lost bool, err error) {
	content, err := s.bucket.get(s.whole(photo), photos.MaxSize)
	if errors.Is(err, fs.ErrNotExist) {
		return true, nil
	}
	if err != nil || right(content, photo) == nil {
		return false, err
	}
	if err := s.bucket.put(s.boat+"/spoilt/"+photo.String(), content); err != nil {
		return false, err
	}
	return true, s.bucket.remove(s.whole(photo))
}

// MayGrow is never in the way: how much room there is nobody here knows.
func (s *Photos) MayGrow() error { return nil }
