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
)

const importHelp = `usage: wirewake import [--data DIR] FILE

Takes notes and photos into the boat's log from what a phone saved: a ZIP of everything, or a file of notes
(….wirewake.json). What is there already stays as it is. The server may be running; phones get what came with
their next exchange.

` + dataHelp

// The most that is read of one file of a ZIP: more than a season of notes.
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
	s, err := openThere(ctx, dir)
	if err != nil {
		return fail(err)
	}
	defer s.Close()
	shelf := photos.NewShelf(dir)
	in := importer{store: s, keeper: &photos.Keeper{Shelf: shelf, Store: s}, now: time.Now()}
	if err := in.take(brought); err != nil {
		return fail(err)
	}
	fmt.Fprintf(io.out, "%s and %s came in; %d were there already.\n",
		count(in.entries, "note", "notes"), count(in.photos, "photo", "photos"), in.known)
	for _, why := range in.refused {
		fmt.Fprintf(io.out, "not taken: %s\n", why)
	}
	if len(in.refused) > 0 {
		return failed
	}
	return done
}

// brought is what a file holds.
type brought struct {
	entries []json.RawMessage
	photos  map[entry.Photo][]byte
}

// readBrought reads a ZIP of everything or a file of notes.
func readBrought(name string) (b brought, err error) {
	archive, err := zip.OpenReader(name)
	if errors.Is(err, zip.ErrFormat) {
		text, err := limited(func() (io.ReadCloser, error) { return os.Open(name) })
		if err != nil {
			return b, err
		}
		b.entries, err = notesIn(text)
		return b, err
	}
	if err != nil {
		return b, err
	}
	defer archive.Close()
	b.photos = map[entry.Photo][]byte{}
	noted := false
	for _, f := range archive.File {
		isPhoto := path.Dir(f.Name) == "photos"
		if f.Name != "notes.wirewake.json" && !isPhoto {
			continue
		}
		content, err := limited(f.Open)
		if err != nil {
			return b, fmt.Errorf("%s: %w", f.Name, err)
		}
		if isPhoto {
			if photo, ok := entry.ParsePhoto(strings.TrimSuffix(path.Base(f.Name), path.Ext(f.Name))); ok {
				b.photos[photo] = content
			}
			continue
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

func limited(open func() (io.ReadCloser, error)) ([]byte, error) {
	r, err := open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	content, err := io.ReadAll(io.LimitReader(r, importLimit+1))
	if err == nil && len(content) > importLimit {
		err = errors.New("is far larger than notes are")
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
	now                    time.Time
	entries, known, photos int64
	refused                []string
}

func (in *importer) take(b brought) (err error) {
	d, err := in.comeAboard()
	if err != nil {
		return err
	}
	// It has no token that anybody knows; in the list of phones it stands as one that left.
	defer func() {
		_, _, failed := in.store.Revoke(d.ID, in.now)
		err = errors.Join(err, failed)
	}()
	before, err := in.store.Last()
	if err != nil {
		return err
	}
	for start := 0; start < len(b.entries); start += batch {
		if err := in.takeSome(d, b.entries[start:min(start+batch, len(b.entries))]); err != nil {
			return err
		}
	}
	last, err := in.store.Last()
	if err != nil {
		return err
	}
	in.known = in.entries - (last - before)
	in.entries = last - before
	for photo, content := range b.photos {
		if err := in.takePhoto(d, photo, content); err != nil {
			return fmt.Errorf("photo %v: %w", photo, err)
		}
	}
	return nil
}

// comeAboard enrols this import by an invitation of its own.
func (in *importer) comeAboard() (store.Device, error) {
	// Hashes of nothing: nobody can come by them.
	var hash, code, token store.Hash
	for _, h := range []*store.Hash{&hash, &code, &token} {
		rand.Read(h[:])
	}
	ok, err := in.store.Invite(store.Invitation{
		Hash: hash, Code: code, CodeEnds: in.now, Role: "mate", Ends: in.now.Add(time.Minute), Uses: 1,
	}, in.now)
	if err != nil || !ok {
		return store.Device{}, errors.Join(err, errors.New("too many invitations are open: end one"))
	}
	d, ok, err := in.store.Enrol(store.Newcomer{Invitation: &hash, ID: uuid.New(), Token: token, Name: "File"}, in.now)
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
	outcomes, stands, err := in.store.Take(d, some, in.now)
	if err != nil {
		return err
	}
	if !stands.Aboard || stands.Wait > 0 {
		return fmt.Errorf("that is more than a minute takes: %d were taken; try again in a minute", in.entries)
	}
	for i, o := range outcomes {
		if o.Refusal != nil {
			in.refused = append(in.refused, fmt.Sprintf("%v: %s", some[i].ID, o.Refusal.Why))
			continue
		}
		in.entries++
	}
	return nil
}

func (in *importer) takePhoto(d store.Device, photo entry.Photo, content []byte) error {
	if _, whole := in.keeper.Shelf.Whole(photo); whole {
		return nil
	}
	place, err := in.keeper.Begin(photo, d, in.now)
	if err != nil {
		return err
	}
	if place != store.Roomy {
		in.refused = append(in.refused, fmt.Sprintf("photo %v: no note of it is here, or its trip has as many as it may", photo))
		return nil
	}
	on := store.PartOf(photo, d)
	_, whole, err := in.keeper.Add(on, 0, int64(len(content)), bytes.NewReader(content))
	if errors.Is(err, photos.ErrHash) || errors.Is(err, photos.ErrKind) || err == nil && !whole {
		in.refused = append(in.refused, fmt.Sprintf("photo %v: it is not what its name says", photo))
		return nil
	}
	if err != nil {
		return err
	}
	in.photos++
	return in.keeper.Came(photo, d)
}
