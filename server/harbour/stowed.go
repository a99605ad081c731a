package main

import (
	"io"
	"strings"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/postgres"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

// What counts of a boat is known by these names: the kind, and what it is.
const (
	ofPhotos = "photos/"
	ofTraces = "traces/"
)

// stowed is a boat's shelf of photos that takes no more than the boat may have.
type stowed struct {
	photos.Shelf
	store  interface{ WholePhotos() ([]entry.Photo, error) }
	ledger *postgres.Ledger
}

// Add lets a photo count from its first byte on.
func (s *stowed) Add(p store.Part, from, total int64, content io.Reader, begun func() (bool, error)) (have int64, whole bool, err error) {
	if err := s.ledger.Stow(ofPhotos+p.Photo.String(), total); err != nil {
		have, _ := s.Have(p)
		return have, false, err
	}
	return s.Shelf.Add(p, from, total, content, begun)
}

// Drop lets what is given up count no more, unless it came whole by another phone. Of one that another still brings the next part has it
// count again.
func (s *stowed) Drop(p store.Part) error {
	if err := s.Shelf.Drop(p); err != nil {
		return err
	}
	if _, whole := s.Whole(p.Photo); whole {
		return nil
	}
	return s.ledger.Free(ofPhotos + p.Photo.String())
}

// weigh counts what is there.
func (s *stowed) weigh() error {
	all, err := s.store.WholePhotos()
	if err != nil {
		return err
	}
	there := make([]string, len(all))
	for i, photo := range all {
		there[i] = ofPhotos + photo.String()
	}
	return s.ledger.Weigh(ofPhotos, there, func(name string) (int64, bool) {
		photo, _ := entry.ParsePhoto(strings.TrimPrefix(name, ofPhotos))
		return s.Whole(photo)
	})
}

// recorded are a boat's traces, of which it has no more than it may.
type recorded struct {
	traces.Whole
	ledger *postgres.Ledger
}

func named(t traces.Trace) string { return ofTraces + t.Trip.String() + "/" + t.SHA256 }

// Put says that a trace is kept only while the boat is served: whoever takes the boat away after that has it. One that is there takes
// up nothing more, and what is none nothing at all.
func (r *recorded) Put(trip uuid.UUID, sum string, content []byte) error {
	one := traces.Trace{Trip: trip, SHA256: sum}
	if err := traces.Judge(one, content); err != nil {
		return err
	}
	if _, err := r.Get(trip, sum); err == nil {
		return r.ledger.Served()
	}
	if err := r.ledger.Stow(named(one), int64(len(content))); err != nil {
		return err
	}
	if err := r.Whole.Put(trip, sum, content); err != nil {
		return err
	}
	return r.ledger.Served()
}

// weigh counts what is there.
func (r *recorded) weigh() error {
	all, err := r.All()
	if err != nil {
		return err
	}
	there, sizes := make([]string, len(all)), map[string]int64{}
	for i, t := range all {
		there[i] = named(t)
		sizes[there[i]] = t.Bytes
	}
	return r.ledger.Weigh(ofTraces, there, func(name string) (int64, bool) { return sizes[name], true })
}
