package conformance

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// A phone may be shut out between the look at its token and the write: nothing that it brings is kept.
func whoIsShutOutBringsNothing(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	d := Enrol(t, s, "mate", store.Mate, nil)
	first, ok, err := s.Revoke(d.ID, Noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	_, stands, err := s.Take(d, []entry.Sent{Note(trip, 1, "too late")}, Noon)
	if err != nil || stands.Aboard {
		t.Errorf("%+v, %v", stands, err)
	}
	if last, err := s.Last(); err != nil || last != 0 {
		t.Errorf("%d entries, %v", last, err)
	}
	// Nor is it known any more; and shut out once more it was so from the first time on.
	if _, ok, err := s.DeviceOf(SHA("mate token"), Noon); err != nil || ok {
		t.Errorf("known: %v, %v", ok, err)
	}
	again, _, err := s.Revoke(d.ID, Noon.Add(time.Hour))
	if err != nil || !again.Revoked.Equal(*first.Revoked) {
		t.Errorf("shut out at %v, then at %v, %v", first.Revoked, again.Revoked, err)
	}
}

// What is the crew's a guest cannot write, whatever else may be written by all.
func whatIsTheCrewsNoGuestWrites(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate, guest := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "guest", store.Guest, &trip)
	for _, e := range []struct{ kind, set string }{{"list", `{"list":"out"}`}, {"boat", `{"name":"Petrel"}`}} {
		if o := Take(t, s, guest, Of(e.kind, trip, 1, e.set)); o[0].Refusal == nil || o[0].Refusal.Code != entry.Crews.Code {
			t.Errorf("a guest's %s: %+v", e.kind, o[0])
		}
		if o := Take(t, s, mate, Of(e.kind, trip, 1, e.set)); o[0].Refusal != nil {
			t.Errorf("a mate's %s: %+v", e.kind, o[0].Refusal)
		}
	}
	WantNumbers(t, Take(t, s, guest, Note(trip, 2, "anybody's")), 3)
	first := take1(t, s, mate, Note(trip, 3, "the mate's"))
	amended := Note(trip, 4, "said otherwise")
	amended.Record, amended.Prev = first.Record, []uuid.UUID{first.ID}
	if o := Take(t, s, guest, amended); o[0].Refusal == nil || o[0].Refusal.Code != entry.Others.Code {
		t.Errorf("a guest amends what a mate wrote: %+v", o[0])
	}
	ticked := Of("tick", trip, 5, `{"list":"out"}`)
	take1(t, s, mate, ticked)
	off := Of("tick", trip, 6, `{"list":"in"}`)
	off.Record, off.Prev = ticked.Record, []uuid.UUID{ticked.ID}
	take1(t, s, guest, off)
	for kind, fields := range contract.The.Guarded {
		for field := range fields {
			e := Of(kind, trip, 4, fmt.Sprintf(`{%q:1}`, field))
			if kind == "trip" {
				e.Record = trip
			}
			if o := Take(t, s, guest, e); o[0].Refusal == nil || o[0].Refusal.Code != entry.Ends.Code {
				t.Errorf("a guest's %s.%s: %+v", kind, field, o[0])
			}
			if o := Take(t, s, mate, e); o[0].Refusal != nil {
				t.Errorf("a mate's %s.%s: %+v", kind, field, o[0].Refusal)
			}
		}
	}
	if o := Take(t, s, guest, Note(uuid.New(), 3, "of another trip")); o[0].Refusal == nil {
		t.Error("a guest writes in another trip")
	}
}

// Whoever may see one trip sees a photo that only names of other trips brought there by having sent it; who may see all
// has seen it anyway.
func aNamedPhotoIsNotShownForItsName(t *testing.T, e Engine) {
	s := e.Fresh(t)
	mine, other := uuid.New(), uuid.New()
	mate, guest := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "guest", store.Guest, &mine)
	photo := entry.Photo(SHA("a picture"))
	named := func(trip uuid.UUID, n int64) entry.Sent {
		text, err := json.Marshal(map[string]string{"sha256": photo.String()})
		if err != nil {
			t.Fatal(err)
		}
		return Of("photo", trip, n, string(text))
	}
	Take(t, s, mate, named(other, 1))
	if err := s.SetWhole(photo, true); err != nil {
		t.Fatal(err)
	}
	Take(t, s, guest, named(mine, 1))
	if n, ok, err := s.Photo(photo, guest); err != nil || !ok || n.Whole {
		t.Errorf("the guest who named it: %+v %v %v", n, ok, err)
	}
	// A mate's word brings it to that trip.
	Take(t, s, mate, named(mine, 2))
	for _, d := range []store.Device{mate, guest} {
		if n, ok, err := s.Photo(photo, d); err != nil || !ok || !n.Whole {
			t.Errorf("%s, once a mate has named it there: %+v %v %v", d.Name, n, ok, err)
		}
	}
}

// What a guest proposes the record must be able to hold, in whatever order the proposal is told.
func aGuestProposesWhatCanBeHeld(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate, guest := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "guest", store.Guest, &trip)
	first := take1(t, s, mate, Note(trip, 1, "the mate's"))
	n := int64(1)
	propose := func(record uuid.UUID, set string) (uuid.UUID, string) {
		n++
		e := Of("proposal", trip, n, set)
		if record != uuid.Nil {
			e.Record = record
		}
		if o := Take(t, s, guest, e); o[0].Refusal != nil {
			return e.Record, o[0].Refusal.Code
		}
		return e.Record, ""
	}
	for says, want := range map[string]string{
		`{"text":"said otherwise"}`: "", `{"text":null}`: "", `{"struck":true}`: "", `{"newer":{"a":1}}`: "",
		`{"text":{"a":1}}`: "form", `{"text":5}`: "form", `{"struck":null}`: "form", `{"lat":91}`: "form",
	} {
		if _, got := propose(uuid.Nil, fmt.Sprintf(`{"of":%q,"says":%s}`, first.Record, says)); got != want {
			t.Errorf("%s: %q, want %q", says, got, want)
		}
		apart, got := propose(uuid.Nil, fmt.Sprintf(`{"of":%q}`, first.Record))
		if got != "" {
			t.Fatal(got)
		}
		if _, got := propose(apart, fmt.Sprintf(`{"says":%s}`, says)); got != want {
			t.Errorf("%s, told after what it is of: %q, want %q", says, got, want)
		}
		apart, got = propose(uuid.Nil, fmt.Sprintf(`{"says":%s}`, says))
		if got != "" {
			t.Fatal(got)
		}
		if _, got := propose(apart, fmt.Sprintf(`{"of":%q}`, first.Record)); got != want {
			t.Errorf("%s, told before what it is of: %q, want %q", says, got, want)
		}
	}
	if _, got := propose(uuid.Nil, fmt.Sprintf(`{"of":%q,"says":{"text":5}}`, uuid.New())); got != "" {
		t.Errorf("of a record that is not here: %q", got)
	}
}

// What only the crew says of a trip no guest brings in by a proposal: one tap of whoever takes it would close the trip, or
// make two one.
func aGuestProposesNothingThatIsTheCrewsToSay(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate, guest := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "guest", store.Guest, &trip)
	first := Of("trip", trip, 1, `{"ground":"ledge"}`)
	first.Record = trip
	take1(t, s, mate, first)
	n := int64(1)
	for says, want := range map[string]string{
		`{"ground":"the other ledge"}`: "", `{"ground":null,"wind":"west"}`: "",
		`{"closed":1893456000000}`: "form", `{"closed":null}`: "form", `{"opened":1893456000000}`: "form", `{"apart":true}`: "form", `{"struck":true}`: "form",
		fmt.Sprintf(`{"ground":"ledge","into":%q}`, uuid.New()): "form",
	} {
		n++
		e := Of("proposal", trip, n, fmt.Sprintf(`{"of":%q,"says":%s}`, trip, says))
		got := ""
		if o := Take(t, s, guest, e); o[0].Refusal != nil {
			got = o[0].Refusal.Code
		}
		if got != want {
			t.Errorf("%s: %q, want %q", says, got, want)
		}
		// Nor by telling what is proposed before which record it is proposed to, or by leading it to another one after.
		parts := Of("proposal", trip, n+100, fmt.Sprintf(`{"of":%q,"says":%s}`, uuid.New(), says))
		take1(t, s, guest, parts)
		led := Of("proposal", trip, n+200, fmt.Sprintf(`{"of":%q}`, trip))
		led.Record, led.Prev = parts.Record, []uuid.UUID{parts.ID}
		got = ""
		if o := Take(t, s, guest, led); o[0].Refusal != nil {
			got = o[0].Refusal.Code
		}
		if got != want {
			t.Errorf("%s, led there after: %q, want %q", says, got, want)
		}
		// What one of the crew brings is taken.
		e = Of("proposal", trip, n, fmt.Sprintf(`{"of":%q,"says":%s}`, trip, says))
		take1(t, s, mate, e)
	}
}
