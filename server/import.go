package main

import (
	"bytes"
	"context"
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

const importHelp = `usage: wirewake import [--data DIR] FILE

Takes notes, photos and what the instruments said into the boat's log from what a phone saved: a ZIP of
everything, or a file of notes (….wirewake.json). What is there already stays as it is. The server may be running; phones get what came with
their next exchange. Ctrl-C stops it; what came in stays.

` + dataHelp

// batch is how many entries are taken at once.
const batch = 200

func importFile(ctx context.Context, io console, args []string) int {
	dir, file, code, ok := readFile(io, "import", args)
	if !ok {
		return code
	}
	fail := func(err error) int {
		if ctx.Err() != nil {
			err = errors.New("it was stopped; what came in stays, and the rest comes in when it is called again")
		}
		fmt.Fprintf(io.err, "wirewake import: %v\n", err)
		return failed
	}
	brought, err := readBrought(ctx, file)
	if err != nil {
		return fail(err)
	}
	defer brought.close()
	s, err := openThere(ctx, dir)
	if err != nil {
		return fail(err)
	}
	defer s.Close()
	shelf := photos.NewFolder(dir)
	in := importer{store: s, keeper: &photos.Keeper{Shelf: shelf, Store: s}, shelf: traces.NewShelf(dir), now: time.Now, wait: func(d time.Duration) error {
		fmt.Fprintf(io.err, "That is more than a minute takes; it goes on in %v.\n", d.Round(time.Second))
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(d):
			return nil
		}
	}}
	err = in.take(ctx, brought)
	fmt.Fprintf(io.out, "%s and %s came in; %d were there already.\n",
		count(in.entries, "note", "notes"), count(in.photos, "photo", "photos"), in.known)
	if in.traces > 0 {
		fmt.Fprintf(io.out, "And %s of the instruments.\n", count(in.traces, "trace", "traces"))
	}
	for _, why := range in.refused.first {
		fmt.Fprintf(io.out, "not taken: %s\n", why)
	}
	if more := in.refused.count - len(in.refused.first); more > 0 {
		fmt.Fprintf(io.out, "and %d more not taken.\n", more)
	}
	if err != nil {
		return fail(err)
	}
	if in.refused.count > 0 {
		return failed
	}
	return done
}

// importer brings what a file holds as a phone of the crew would.
type importer struct {
	store                  *tables.Store
	keeper                 *photos.Keeper
	shelf                  *traces.Shelf
	now                    func() time.Time
	wait                   func(time.Duration) error
	entries, known, photos int64
	traces                 int64
	refused                refusals
}

// refusals are why some were not taken: the first of them, and how many there were.
type refusals struct {
	first []string
	count int
}

// mostReasons are told; who reads them has seen by then what is wrong.
const mostReasons = 20

func (r *refusals) add(format string, what, why any) {
	if r.count++; r.count <= mostReasons {
		r.first = append(r.first, fmt.Sprintf(format, what, why))
	}
}

func (in *importer) take(ctx context.Context, b brought) (err error) {
	d, err := in.comeAboard()
	if err != nil {
		return err
	}
	// It has no token that anybody knows; in the list of phones it stands as one that left.
	defer func() {
		_, _, failed := in.store.Revoke(d.ID, in.now())
		err = errors.Join(err, failed)
	}()
	var some []json.RawMessage
	err = b.eachNote(ctx, func(one json.RawMessage) error {
		if some = append(some, one); len(some) < batch {
			return nil
		}
		defer func() { some = some[:0] }()
		return in.takeSome(d, some)
	})
	if err == nil {
		err = in.takeSome(d, some)
	}
	if err != nil {
		return err
	}
	for _, photo := range b.photos {
		if err := ctx.Err(); err != nil {
			return err
		}
		// One that cannot be taken keeps no other out.
		if err := in.takePhoto(d, photo); err != nil {
			in.refused.add("photo %v: %v", photo.Photo, err)
		}
	}
	for _, trace := range b.traces {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := in.takeTrace(trace); err != nil {
			in.refused.add("trace %s: %v", trace.SHA256, err)
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
		Hash: hash, Code: code, CodeEnds: now, Role: store.Mate, Ends: now.Add(time.Minute), Uses: 1,
	}, now)
	if err != nil || !ok {
		return store.Device{}, errors.Join(err, errors.New("too many invitations are open: end one"))
	}
	name := "File"
	for n := 2; ; n++ {
		d, ok, err := in.store.Enrol(store.Newcomer{Invitation: &hash, ID: uuid.New(), Token: token, Name: name}, now)
		if errors.Is(err, store.ErrAlike) && n < 1000 {
			// A phone may be called so, by chance or to be in the way.
			name = fmt.Sprintf("File %d", n)
			continue
		}
		if err == nil && !ok {
			err = errors.New("it could not come aboard")
		}
		return d, err
	}
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
			in.refused.add("%v: %s", e.ID, refusal.Why)
			continue
		}
		if e.Author == nil {
			// The phone that saved the file wrote it, and no server knew that one.
			e.Author = &entry.Author{By: uuid.NewSHA1(d.ID, []byte("writer")), ByName: "File"}
		}
		some = append(some, e)
	}
	if len(some) == 0 {
		return nil
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
			in.refused.add("%v: %s", some[i].ID, o.Refusal.Why)
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
