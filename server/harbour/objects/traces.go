package objects

import (
	"errors"
	"io/fs"
	"strings"

	"github.com/google/uuid"

	"wirewake/server/sync/traces"
)

// Traces are those of one boat.
type Traces struct {
	bucket *Bucket
	boat   string
}

// Traces are those of a boat.
func (b *Bucket) Traces(boat string) *Traces { return &Traces{b, boat} }

func (s *Traces) key(trip uuid.UUID, sum string) string {
	return s.boat + "/traces/" + trip.String() + "/" + sum
}

// All are all of them, by trip.
func (s *Traces) All() (all []traces.Trace, err error) {
	found, err := s.bucket.list(s.boat + "/traces/")
	for _, o := range found {
		of, sum, _ := strings.Cut(o.name, "/")
		if trip, bad := uuid.Parse(of); bad == nil && traces.IsSum(sum) {
			all = append(all, traces.Trace{Trip: trip, SHA256: sum, Bytes: o.bytes})
		}
	}
	return all, err
}

// Get is the content of one.
func (s *Traces) Get(trip uuid.UUID, sum string) ([]byte, error) {
	content, err := s.bucket.get(s.key(trip, sum), traces.MaxSize)
	if err == nil {
		err = traces.Judge(traces.Trace{Trip: trip, SHA256: sum}, content)
	}
	return content, err
}

// Put takes one from elsewhere. One that is there and spoilt gives way to it.
func (s *Traces) Put(trip uuid.UUID, sum string, content []byte) error {
	if err := traces.Judge(traces.Trace{Trip: trip, SHA256: sum}, content); err != nil {
		return err
	}
	switch _, err := s.Get(trip, sum); {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		of, err := s.bucket.list(s.boat + "/traces/" + trip.String() + "/")
		if err != nil {
			return err
		}
		if len(of) >= traces.MostOfTrip {
			return traces.ErrEnough
		}
	case !errors.Is(err, traces.ErrHash) && !errors.Is(err, traces.ErrTrace):
		return err
	}
	if err := s.bucket.put(s.key(trip, sum), content); err != nil {
		return err
	}
	_, err := s.Get(trip, sum)
	return err
}
