package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/postgres"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/store/tables"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

// move brings a boat in from the data directory of a boat's own server, or out into one.
func (f *boatFlags) move(ctx context.Context, io console, h *postgres.Harbour, way, name, dir string) error {
	_, err := os.Stat(filepath.Join(dir, folder.FileName))
	switch there := err == nil; {
	case way == "import" && !there:
		return fmt.Errorf("%s is no data directory of a boat's own server that this user may read: there is no %s in it", dir, folder.FileName)
	case way == "export" && there:
		return fmt.Errorf("there is a boat's %s in %s already: name another directory", folder.FileName, dir)
	}
	shelves, err := f.shelves(ctx)
	if err != nil {
		return err
	}
	shelf, whole := shelves(name)
	here, traced := photos.Shelf(photos.NewFolder(dir)), traces.Whole(traces.NewShelf(dir))
	if way == "export" {
		return export(ctx, io, h, name, dir, goods{shelf, whole}, goods{here, traced})
	}
	// A boat that is there already is given nothing of another's.
	if _, there, err := h.Boat(ctx, name); err != nil || there {
		return cmp.Or(err, taken(name))
	}
	// First the photos: nobody asks for them before the boat is there.
	s, err := sqlite.OpenThere(ctx, dir)
	if err != nil {
		return fmt.Errorf("%s cannot be taken in as it is; put it right by the boat's own program, wirewake, then import it: %w", dir, err)
	}
	gone, err := carry(s.Store, goods{here, traced}, goods{shelf, whole})
	if err := errors.Join(err, s.Close()); err != nil {
		return err
	}
	ok, err := h.Import(ctx, name, dir, time.Now())
	switch {
	case err != nil:
		return err
	case !ok:
		return taken(name)
	}
	if err := miss(ctx, h, name, gone.photos); err != nil {
		return err
	}
	fmt.Fprintf(io.out, "%s is here with all that was in %s%s.\n", name, dir, gone.but())
	return nil
}

// miss has phones asked for photos that are lacking: a boat's own server does that when it starts, the harbour's only for a
// photo that somebody looks at.
func miss(ctx context.Context, h *postgres.Harbour, name string, gone []entry.Photo) error {
	s, _, err := h.Boat(ctx, name)
	for _, photo := range gone {
		if err == nil {
			err = s.SetWhole(photo, false)
		}
	}
	return err
}

func export(ctx context.Context, io console, h *postgres.Harbour, name, dir string, from, to goods) error {
	ok, err := h.Export(ctx, name, dir)
	switch {
	case err != nil:
		return err
	case !ok:
		return none(name)
	}
	s, err := sqlite.OpenThere(ctx, dir)
	if err != nil {
		return err
	}
	defer s.Close()
	gone, err := carry(s.Store, from, to)
	if err == nil {
		fmt.Fprintf(io.out, "All of %s is in %s%s. It stays here, suspended.\n", name, dir, gone.but())
	}
	return err
}

// lacking is what is not there, or spoilt, of what was to be carried.
type lacking struct {
	photos []entry.Photo
	traces int
}

func (l lacking) but() string {
	all := len(l.photos) + l.traces
	if all == 0 {
		return ""
	}
	return fmt.Sprintf(", but for %d photos or traces that are lacking or spoilt; phones are asked for photos", all)
}

// goods are a boat's photos and traces.
type goods struct {
	photos photos.Shelf
	traces traces.Whole
}

// carry brings the photos and traces of a boat from one place to another, and says which are lacking there. One that is there
// already is left.
func carry(s *tables.Store, from, to goods) (gone lacking, err error) {
	all, err := s.WholePhotos()
	if err != nil {
		return gone, err
	}
	for _, photo := range all {
		switch err := carryPhoto(photo, from.photos, to.photos); {
		case errors.Is(err, fs.ErrNotExist), errors.Is(err, photos.ErrHash):
			gone.photos = append(gone.photos, photo)
		case err != nil:
			return gone, fmt.Errorf("photo %v: %w", photo, err)
		}
	}
	recorded, err := from.traces.All()
	for _, t := range recorded {
		content, err := from.traces.Get(t.Trip, t.SHA256)
		if err == nil {
			err = to.traces.Put(t.Trip, t.SHA256, content)
		}
		switch {
		case errors.Is(err, fs.ErrNotExist), errors.Is(err, traces.ErrHash), errors.Is(err, traces.ErrTrace):
			gone.traces++
		case err != nil:
			return gone, fmt.Errorf("trace %s: %w", t.SHA256, err)
		}
	}
	return gone, err
}

func carryPhoto(photo entry.Photo, from, to photos.Shelf) error {
	if to.Verify(photo) == nil {
		return nil
	}
	opened, _, err := from.Open(photo)
	if err != nil {
		return err
	}
	defer opened.Close()
	total, err := opened.Seek(0, io.SeekEnd)
	if err == nil {
		_, err = opened.Seek(0, io.SeekStart)
	}
	if err != nil {
		return err
	}
	_, whole, err := to.Add(store.Part{Photo: photo}, 0, total, opened, func() (bool, error) { return true, nil })
	if err == nil && !whole {
		err = io.ErrUnexpectedEOF
	}
	return err
}
