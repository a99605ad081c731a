package main

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"strings"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

const importHelp = `usage: wirewake import [--data DIR] FILE

Takes notes, photos and what the instruments said into the boat's log from what a phone saved: a ZIP of
everything, or a file of notes (….wirewake.json). What is there already stays as it is. The server may be running; phones get what came with
their next exchange.

` + dataHelp

// The most that is read of a file of notes: more than a season of them.
const importLimit = 256 << 20

// batch is how many entries are taken at once.
const batch = 200

func importFile(ctx context.Context, io console, args []string) int {
	dir, file, code, ok := readFile(io, "import", args)
	if !ok {
		return code
	}
	fail := func(err error) int {
		fmt.Fprintf(io.err, "wirewake import: %v\n", err)
		return failed
	}
	brought, err := readBrought(file)
	if err != nil {
		return fail(err)
	}
	defer brought.close()
	s, err := openThere(ctx, dir)
	if err != nil {
		return fail(err)
	}
	defer s.Close()
	shelf := photos.NewShelf(dir)
	in := importer{store: s, keeper: &photos.Keeper{Shelf: shelf, Store: s}, shelf: traces.NewShelf(dir), now: time.Now, wait: func(d time.Duration) error {
		fmt.Fprintf(io.err, "That is more than a minute takes; it goes on in %v.\n", d.Round(time.Second))
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(d):
			return nil
		}
	}}
	err = in.take(brought)
	fmt.Fprintf(io.out, "%s and %s came in; %d were there already.\n",
		count(in.entries, "note", "notes"), count(in.photos, "photo", "photos"), in.known)
	if in.traces > 0 {
		fmt.Fprintf(io.out, "And %s of the instruments.\n", count(in.traces, "trace", "traces"))
	}
	for _, why := range in.refused {
		fmt.Fprintf(io.out, "not taken: %s\n", why)
	}
	if err != nil {
		return fail(err)
	}
	if len(in.refused) > 0 {
		return failed
	}
	return done
}

// brought is what a file holds. It is open until it is closed.
type brought struct {
	entries []json.RawMessage
	photos  []packed
	traces  []packedTrace
	archive *zip.ReadCloser // nil of a file of notes
}

// packed is a photo in a ZIP, by the name that it has there.
type packed struct {
	entry.Photo
	file *zip.File
}

// packedTrace is a trace in a ZIP.
type packedTrace struct {
	traces.Trace
	file *zip.File
}

func (b brought) close() {
	if b.archive != nil {
		b.archive.Close()
	}
}

// readBrought reads a ZIP of everything or a file of notes.
func readBrought(name string) (b brought, err error) {
	archive, err := zip.OpenReader(name)
	if errors.Is(err, zip.ErrFormat) {
		text, err := limited(func() (io.ReadCloser, error) { return os.Open(name) }, importLimit, "is far larger than notes are")
		if err != nil {
			return b, err
		}
		b.entries, err = notesIn(text)
		return b, err
	}
	if err != nil {
		return b, err
	}
	defer func() {
		if err != nil {
			archive.Close()
		}
	}()
	b.archive = archive
	noted := false
	for _, f := range archive.File {
		if path.Dir(f.Name) == "photos" {
			if photo, ok := entry.ParsePhoto(strings.TrimSuffix(path.Base(f.Name), path.Ext(f.Name))); ok {
				b.photos = append(b.photos, packed{photo, f})
			}
		}
		if trace, ok := traces.ParsePath(f.Name); ok {
			b.traces = append(b.traces, packedTrace{trace, f})
		}
		if f.Name != "notes.wirewake.json" {
			continue
		}
		content, err := limited(f.Open, importLimit, "is far larger than notes are")
		if err != nil {
			return b, fmt.Errorf("%s: %w", f.Name, err)
		}
		noted = true
		if b.entries, err = notesIn(content); err != nil {
			return b, err
		}
	}
	if !noted {
		return b, errors.New("there are no notes in this ZIP; it is none that the app saved")
	}
	return b, nil
}

// limited reads a file whole; it fails with tooLarge beyond most bytes, whatever the file says of its size.
func limited(open func() (io.ReadCloser, error), most int64, tooLarge string) ([]byte, error) {
	r, err := open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	content, err := io.ReadAll(io.LimitReader(r, most+1))
	if err == nil && int64(len(content)) > most {
		err = errors.New(tooLarge)
	}
	return content, err
}

func notesIn(text []byte) ([]json.RawMessage, error) {
	var file struct {
		Format  string
		Version int
		Entries []json.RawMessage
	}
	switch err := json.Unmarshal(text, &file); {
	case err != nil:
		return nil, fmt.Errorf("it cannot be read, and may be cut off: %w", err)
	case file.Format != "wirewake-notes":
		return nil, errors.New("it is not a file of notes saved by the app")
	case file.Version > 1:
		return nil, errors.New("it was saved by a newer version: install that first")
	}
	return file.Entries, nil
}

// importer brings what a file holds as a phone of the crew would.
type importer struct {
	store                  *sqlite.Store
	keeper                 *photos.Keeper
	shelf                  *traces.Shelf
	now                    func() time.Time
	wait                   func(time.Duration) error
	entries, known, photos int64
	traces                 int64
	refused                []string
}

func (in *importer) take(b brought) (err error) {
	d, err := in.comeAboard()
	if err != nil {
		return err
	}
	// It has no token that anybody knows; in the list of phones it stands as one that left.
	defer func() {
		_, _, failed := in.store.Revoke(d.ID, in.now())
		err = errors.Join(err, failed)
	}()
	for start := 0; start < len(b.entries); start += batch {
		if err := in.takeSome(d, b.entries[start:min(start+batch, len(b.entries))]); err != nil {
			return err
		}
	}
	for _, photo := range b.photos {
		// One that cannot be taken keeps no other out.
		if err := in.takePhoto(d, photo); err != nil {
			in.refused = append(in.refused, fmt.Sprintf("photo %v: %v", photo.Photo, err))
		}
	}
	for _, trace := range b.traces {
		if err := in.takeTrace(trace); err != nil {
			in.refused = append(in.refused, fmt.Sprintf("trace %s: %v", trace.SHA256, err))
		}
	}
	return nil
}

func (in *importer) takeTrace(t packedTrace) error {
	if _, err := in.shelf.Get(t.Trip, t.SHA256); err == nil {
		return nil
	}
	switch has, err := in.store.HasTrip(t.Trip); {
	case err != nil:
		return err
	case !has:
		return errors.New("the log knows no such trip")
	}
	content, err := limited(t.file.Open, traces.MaxSize, "it has more bytes than a trace may have")
	if err == nil {
		err = in.shelf.Put(t.Trip, t.SHA256, content)
	}
	if err == nil {
		in.traces++
	}
	return err
}

// comeAboard enrols this import by an invitation of its own.
func (in *importer) comeAboard() (store.Device, error) {
	now := in.now()
	// Hashes of nothing: nobody can come by them.
	var hash, code, token store.Hash
	for _, h := range []*store.Hash{&hash, &code, &token} {
		rand.Read(h[:])
	}
	ok, err := in.store.Invite(store.Invitation{
		Hash: hash, Code: code, CodeEnds: now, Role: "mate", Ends: now.Add(time.Minute), Uses: 1,
	}, now)
	if err != nil || !ok {
		return store.Device{}, errors.Join(err, errors.New("too many invitations are open: end one"))
	}
	d, ok, err := in.store.Enrol(store.Newcomer{Invitation: &hash, ID: uuid.New(), Token: token, Name: "File"}, now)
	if err == nil && !ok {
		err = errors.New("it could not come aboard")
	}
	return d, err
}

func (in *importer) takeSome(d store.Device, texts []json.RawMessage) error {
	var some []entry.Sent
	for _, text := range texts {
		var compact bytes.Buffer
		if err := json.Compact(&compact, text); err != nil {
			return err
		}
		e, refusal := entry.Read(compact.Bytes())
		if refusal != nil {
			in.refused = append(in.refused, fmt.Sprintf("%v: %s", e.ID, refusal.Why))
			continue
		}
		if e.Author == nil {
			// The phone that saved the file wrote it, and no server knew that one.
			e.Author = &entry.Author{By: uuid.NewSHA1(d.ID, []byte("writer")), ByName: "File"}
		}
		some = append(some, e)
	}
	outcomes, stands, err := in.store.Take(d, some, in.now())
	for err == nil && stands.Wait > 0 {
		if err := in.wait(stands.Wait); err != nil {
			return err
		}
		outcomes, stands, err = in.store.Take(d, some, in.now())
	}
	switch {
	case err != nil:
		return err
	case !stands.Aboard:
		return errors.New("somebody has taken this import off the list of phones; the rest was not taken")
	}
	for i, o := range outcomes {
		if o.Refusal != nil {
			in.refused = append(in.refused, fmt.Sprintf("%v: %s", some[i].ID, o.Refusal.Why))
			continue
		}
		if o.New {
			in.entries++
		} else {
			in.known++
		}
	}
	return nil
}

func (in *importer) takePhoto(d store.Device, p packed) error {
	photo := p.Photo
	if _, whole := in.keeper.Shelf.Whole(photo); whole {
		return nil
	}
	content, err := limited(p.file.Open, photos.MaxSize, "it has more bytes than a photo may have")
	if err != nil {
		return err
	}
	place, err := in.keeper.Begin(photo, d, in.now())
	if err != nil {
		return err
	}
	if place != store.Roomy {
		return errors.New("no note of it is here, or its trip has as many as it may")
	}
	_, whole, err := in.keeper.Add(store.PartOf(photo, d), 0, int64(len(content)), bytes.NewReader(content))
	switch {
	case errors.Is(err, photos.ErrHash), errors.Is(err, photos.ErrKind), err == nil && !whole:
		return errors.New("it is not what its name says")
	case errors.Is(err, photos.ErrSides):
		return fmt.Errorf("it has more than %d pixels a side", photos.MaxSide)
	case err != nil:
		return err
	}
	in.photos++
	return in.keeper.Came(photo, d)
}
