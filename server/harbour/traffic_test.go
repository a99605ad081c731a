package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/sync/exchange"
)

// traffic are phones of many boats that bring something without end.
type traffic struct {
	*fleet
	t  *testing.T
	by *server

	over  atomic.Bool
	taken atomic.Int64
	// coming counts photos that are being sent, waits how often one was not taken.
	coming, waits atomic.Int64
	all           sync.WaitGroup
	mutex         sync.Mutex
	boats         []*sailing
}

// sailing is a boat with its phones.
type sailing struct {
	name   string
	trip   uuid.UUID
	phones []*aboard
	// told is under which number each entry was told to be taken, shown are the pictures that were told to be there.
	told  map[uuid.UUID]int64
	sent  map[uuid.UUID]string
	shown map[string][]byte
}

// aboard is a phone of one, with what it does by its seed.
type aboard struct {
	*harness.Phone
	who    *harness.Asker
	chance *rand.Rand
}

// embark adds a boat with so many phones, which begin at once.
func (w *traffic) embark(name string, phones int) {
	w.t.Helper()
	b := &sailing{name: name, told: map[uuid.UUID]int64{}, sent: map[uuid.UUID]string{}, shown: map[string][]byte{}}
	skipper := phone(w.by, name)
	skipper.Come(w.t, w.by.add(w.t, name), "S")
	b.trip = skipper.Trip(w.t)
	w.boats = append(w.boats, b)
	front := w.balancer()
	for n := range phones {
		var ticket struct{ Invitation string }
		skipper.Ask("POST", "/api/invitations", map[string]any{"role": "mate", "hours": 1, "uses": 1}).Read(w.t, &ticket)
		who := phone(w.by, name)
		who.Come(w.t, ticket.Invitation, fmt.Sprint("Phone ", n))
		who.Handler = front
		p := &aboard{harness.NewPhone(), who, rand.New(rand.NewPCG(uint64(len(w.boats)), uint64(n)))}
		b.phones = append(b.phones, p)
		w.all.Go(func() {
			for !w.over.Load() {
				if err := w.round(b, p); err != nil {
					w.t.Error(name, err)
					return
				}
			}
		})
	}
}

// round is one exchange of a phone, with what it has noted since; sometimes with a photo.
func (w *traffic) round(b *sailing, p *aboard) error {
	var record uuid.UUID
	for range 1 + p.chance.IntN(4) {
		e := p.Write("note", b.trip, record, map[string]any{"text": fmt.Sprint(b.name, " ", p.chance.Uint32())}, false, 0)
		if record = e.Record; p.chance.IntN(2) == 0 {
			record = uuid.Nil
		}
	}
	var picture []byte
	if p.chance.IntN(8) == 0 {
		picture = fmt.Appendf(harness.HeadOfJPEG(1600, 1200), "%s %d", b.name, p.chance.Uint64())
		p.Write("photo", b.trip, uuid.Nil, map[string]any{"sha256": hashOf(picture)}, false, 0)
	}
	// A photo comes once its note is there: after an epoch has ended a phone first hears what is.
	for over := false; !over; {
		var err error
		if over, err = w.exchange(b, p); err != nil || picture == nil {
			return err
		}
	}
	w.coming.Add(1)
	r, err := asked(func() harness.Reply {
		r := p.who.Ask("PUT", "/api/photos/"+hashOf(picture), picture)
		if r.Status >= http.StatusInternalServerError {
			w.waits.Add(1)
		}
		// A try before this one was given up meanwhile, or not all of this one came: from its beginning again.
		if r.Code() == "offset" || r.Status == http.StatusAccepted {
			r.Status = http.StatusServiceUnavailable
		}
		return r
	})
	w.coming.Add(-1)
	if err == nil && r.Status != http.StatusCreated && r.Status != http.StatusOK && r.Code() != "enough" {
		err = fmt.Errorf("a photo: %d %s", r.Status, r.Body)
	}
	if err == nil && r.Code() != "enough" {
		w.mutex.Lock()
		b.shown[hashOf(picture)] = picture
		w.mutex.Unlock()
	}
	return err
}

func hashOf(picture []byte) string {
	sum := sha256.Sum256(picture)
	return hex.EncodeToString(sum[:])
}

// exchange has a phone exchange once, and remembers what it was told.
func (w *traffic) exchange(b *sailing, p *aboard) (over bool, err error) {
	request := p.Request()
	r, err := asked(func() harness.Reply { return p.who.Ask("POST", "/api/exchange", request) })
	if err != nil {
		return false, err
	}
	if r.Status != http.StatusOK {
		return false, fmt.Errorf("%d %s", r.Status, r.Body)
	}
	var answer exchange.Answer
	if err := json.Unmarshal(r.Body, &answer); err != nil {
		return false, err
	}
	if len(answer.Refused) > 0 {
		return false, fmt.Errorf("%+v", answer.Refused)
	}
	if over, err = p.Store(request, answer); err != nil {
		return false, err
	}
	w.mutex.Lock()
	defer w.mutex.Unlock()
	for _, one := range answer.Taken {
		if was := b.told[one.ID]; was != 0 && was != one.No {
			return false, fmt.Errorf("%v was told under %d and %d", one.ID, was, one.No)
		}
		b.told[one.ID] = one.No
		b.sent[one.ID] = string(p.Entries[one.ID].Content())
	}
	w.taken.Add(int64(len(answer.Taken)))
	return over, nil
}

// asked asks until it is answered, as a phone does: it waits, and notices nothing else.
func asked(ask func() harness.Reply) (r harness.Reply, err error) {
	for range 1200 {
		if r = ask(); r.Status < http.StatusInternalServerError && r.Status != http.StatusTooManyRequests {
			return r, nil
		}
		time.Sleep(50 * time.Millisecond)
	}
	return r, errors.New("not answered for long")
}

// more waits until phones have brought some more.
func (w *traffic) more() {
	for before := w.taken.Load(); w.taken.Load() < before+int64(15*len(w.boats)) && !w.t.Failed(); {
		time.Sleep(time.Millisecond)
	}
}

// untilOneComes waits until a phone is sending a photo.
func (w *traffic) untilOneComes() {
	for w.coming.Load() == 0 && !w.t.Failed() {
		time.Sleep(time.Millisecond / 10)
	}
}

// untilOneWaits waits until a photo was not taken. Where nobody sends any more there will be none, and it says so.
func (w *traffic) untilOneWaits() {
	begun := time.Now()
	for before := w.waits.Load(); w.waits.Load() == before && !w.t.Failed(); {
		if time.Since(begun) > 3*time.Minute {
			w.t.Error("the object store is away, and no phone was told to wait")
		}
		time.Sleep(time.Millisecond)
	}
}

// end has phones come to an end, and looks what is there.
func (w *traffic) end() {
	w.over.Store(true)
	w.all.Wait()
	entries, photos := 0, 0
	for _, b := range w.boats {
		w.settle(b)
		s, _, err := w.by.harbour.Boat(w.t.Context(), b.name)
		if err != nil {
			w.t.Fatal(err)
		}
		there := map[uuid.UUID]entry.Numbered{}
		for _, kind := range []string{"trip", "note", "photo"} {
			some, err := s.EntriesOf(kind)
			if err != nil {
				w.t.Fatal(err)
			}
			for _, e := range some {
				if _, twice := there[e.ID]; twice || kind == "note" && !strings.HasPrefix(string(e.Set), `{"text":"`+b.name+" ") {
					w.t.Errorf("%s has %v: twice, or of another boat: %s", b.name, e.ID, e.Set)
				}
				there[e.ID] = e
			}
		}
		for id, no := range b.told {
			if e := there[id]; e.No != no || string(e.Content()) != b.sent[id] {
				w.t.Errorf("%s: %v was told under %d, is under %d: %s, was %s", b.name, id, no, e.No, e.Content(), b.sent[id])
			}
		}
		if state, err := s.Verify(func(wrong string) { w.t.Error(b.name, wrong) }); err != nil || state.Entries != int64(len(there)) {
			w.t.Errorf("%s: %d entries, %d by kind, %v", b.name, state.Entries, len(there), err)
		}
		for _, p := range b.phones {
			if held := len(p.Entries); held != len(there) {
				w.t.Errorf("a phone of %s has %d entries of %d", b.name, held, len(there))
			}
		}
		for name, picture := range b.shown {
			if r, err := asked(func() harness.Reply { return b.phones[0].who.Ask("GET", "/api/photos/"+name, nil) }); err != nil || string(r.Body) != string(picture) {
				w.t.Errorf("%s: a photo that was told to be there: %d, %v", b.name, r.Status, err)
			}
		}
		entries, photos = entries+len(b.told), photos+len(b.shown)
	}
	w.t.Logf("%d boats: told of %d entries and %d photos", len(w.boats), entries, photos)
	if photos == 0 {
		w.t.Error("no photo was taken")
	}
}

// settle has the phones of a boat exchange until each has what all of them have.
func (w *traffic) settle(b *sailing) {
	for range 2 {
		for _, p := range b.phones {
			for over := false; !over; {
				var err error
				if over, err = w.exchange(b, p); err != nil {
					w.t.Fatal(b.name, err)
				}
			}
		}
	}
}
