package store

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/sync/contract"
	"wirewake/server/sync/entry"
)

// of is an entry of a kind that begins a record.
func of(kind string, trip uuid.UUID, n int64, set string) entry.Sent {
	e := note(trip, n, "")
	e.Kind, e.Set = kind, json.RawMessage(set)
	return e
}

// take1 brings an entry that must be taken.
func take1(t *testing.T, s *Store, d Device, e entry.Sent) entry.Sent {
	t.Helper()
	if o := take(t, s, d, e); o[0].Refusal != nil {
		t.Fatalf("%s: %+v", e.Kind, o[0].Refusal)
	}
	return e
}

// A phone may be shut out between the look at its token and the write: nothing that it brings is kept.
func TestWhoIsShutOutBringsNothing(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	d := enrol(t, s, "mate", Mate, nil)
	first, ok, err := s.Revoke(d.ID, noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	_, stands, err := s.Take(d, []entry.Sent{note(trip, 1, "too late")}, noon)
	if err != nil || stands.Aboard {
		t.Errorf("%+v, %v", stands, err)
	}
	if last, err := s.Last(); err != nil || last != 0 {
		t.Errorf("%d entries, %v", last, err)
	}
	// Nor is it known any more; and shut out once more it was so from the first time on.
	if _, ok, err := s.DeviceOf(sha("mate token"), noon); err != nil || ok {
		t.Errorf("known: %v, %v", ok, err)
	}
	again, _, err := s.Revoke(d.ID, noon.Add(time.Hour))
	if err != nil || !again.Revoked.Equal(*first.Revoked) {
		t.Errorf("shut out at %v, then at %v, %v", first.Revoked, again.Revoked, err)
	}
}

// What is the crew's a guest cannot write, whatever else may be written by all.
func TestWhatIsTheCrewsNoGuestWrites(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	mate, guest := enrol(t, s, "mate", Mate, nil), enrol(t, s, "guest", Guest, &trip)
	for _, e := range []struct{ kind, set string }{{"list", `{"list":"out"}`}, {"boat", `{"name":"Petrel"}`}} {
		if o := take(t, s, guest, of(e.kind, trip, 1, e.set)); o[0].Refusal == nil || o[0].Refusal.Code != entry.Crews.Code {
			t.Errorf("a guest's %s: %+v", e.kind, o[0])
		}
		if o := take(t, s, mate, of(e.kind, trip, 1, e.set)); o[0].Refusal != nil {
			t.Errorf("a mate's %s: %+v", e.kind, o[0].Refusal)
		}
	}
	wantNumbers(t, take(t, s, guest, note(trip, 2, "anybody's")), 3)
	first := take1(t, s, mate, note(trip, 3, "the mate's"))
	amended := note(trip, 4, "said otherwise")
	amended.Record, amended.Prev = first.Record, []uuid.UUID{first.ID}
	if o := take(t, s, guest, amended); o[0].Refusal == nil || o[0].Refusal.Code != entry.Others.Code {
		t.Errorf("a guest amends what a mate wrote: %+v", o[0])
	}
	ticked := of("tick", trip, 5, `{"list":"out"}`)
	take1(t, s, mate, ticked)
	off := of("tick", trip, 6, `{"list":"in"}`)
	off.Record, off.Prev = ticked.Record, []uuid.UUID{ticked.ID}
	take1(t, s, guest, off)
	for kind, fields := range contract.The.Guarded {
		for field := range fields {
			e := of(kind, trip, 4, fmt.Sprintf(`{%q:1}`, field))
			if kind == "trip" {
				e.Record = trip
			}
			if o := take(t, s, guest, e); o[0].Refusal == nil || o[0].Refusal.Code != entry.Ends.Code {
				t.Errorf("a guest's %s.%s: %+v", kind, field, o[0])
			}
			if o := take(t, s, mate, e); o[0].Refusal != nil {
				t.Errorf("a mate's %s.%s: %+v", kind, field, o[0].Refusal)
			}
		}
	}
	if o := take(t, s, guest, note(uuid.New(), 3, "of another trip")); o[0].Refusal == nil {
		t.Error("a guest writes in another trip")
	}
}

// Whoever may see one trip sees a photo that only names of other trips brought there by having sent it; who may see all
// has seen it anyway.
func TestANamedPhotoIsNotShownForItsName(t *testing.T) {
	s := open(t, t.TempDir())
	mine, other := uuid.New(), uuid.New()
	mate, guest := enrol(t, s, "mate", Mate, nil), enrol(t, s, "guest", Guest, &mine)
	photo := entry.Photo(sha("a picture"))
	named := func(trip uuid.UUID, n int64) entry.Sent {
		text, err := json.Marshal(map[string]string{"sha256": photo.String()})
		if err != nil {
			t.Fatal(err)
		}
		return of("photo", trip, n, string(text))
	}
	take(t, s, mate, named(other, 1))
	if err := s.SetWhole(photo, true); err != nil {
		t.Fatal(err)
	}
	take(t, s, guest, named(mine, 1))
	if n, ok, err := s.Photo(photo, guest); err != nil || !ok || n.Whole {
		t.Errorf("the guest who named it: %+v %v %v", n, ok, err)
	}
	// A mate's word brings it to that trip.
	take(t, s, mate, named(mine, 2))
	if n, ok, err := s.Photo(photo, mate); err != nil || !ok || !n.Whole {
		t.Errorf("the mate: %+v %v %v", n, ok, err)
	}
}
