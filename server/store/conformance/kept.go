package conformance

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

func originsAreKept(t *testing.T, e Engine) {
	s := e.Fresh(t)
	for _, v := range []struct {
		url string
		at  time.Time
	}{
		{"http://192.168.1.9:8610", Noon},
		{"https://boat.example", Noon.Add(time.Hour)},
		{"http://192.168.1.9:8610", Noon.Add(2 * time.Hour)},
		// A clock set back does not make the last visit earlier.
		{"http://192.168.1.9:8610", Noon.Add(-time.Hour)},
	} {
		if err := s.Served(v.url, v.at); err != nil {
			t.Fatal(err)
		}
	}
	want := []store.Origin{
		{URL: "http://192.168.1.9:8610", First: Noon, Last: Noon.Add(2 * time.Hour)},
		{URL: "https://boat.example", First: Noon.Add(time.Hour), Last: Noon.Add(time.Hour)},
	}
	for _, one := range []Kept{s, e.Beside(t, s)} {
		if got, err := one.Origins(); err != nil || fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("origins = %v, %v\nwant      %v", got, err, want)
		}
	}
}

func addressesAreKept(t *testing.T, e Engine) {
	s := e.Fresh(t)
	if url, err := s.Address(); err != nil || url != "" {
		t.Errorf("%q, %v", url, err)
	}
	if err := s.SetAddress("https://boat.example", "http://boat.example"); err != nil {
		t.Fatal(err)
	}
	url, err := s.Address()
	enter, failed := s.Enter()
	if err != nil || failed != nil || url != "https://boat.example" || enter != "http://boat.example" {
		t.Errorf("%q, %q, %v, %v", url, enter, err, failed)
	}
}

// A phone that asks is told what was said to it, comes aboard by a yes, once more where the answer was lost, and not after it
// was shut out; who was told no keeps the others of its network out for a while.
func whoAsksIsAnswered(t *testing.T, e Engine) {
	s := e.Fresh(t)
	words := 0
	word := func() string { words++; return fmt.Sprint("word ", words) }
	back := store.Hash(SHA("back"))
	asks := func(name, network string, back store.Hash) (store.Ask, bool, error) {
		return s.Ask(store.Ask{Device: uuid.New(), Name: name, Network: network, Asked: Noon, Ends: Noon.Add(time.Hour)}, back, word, Noon)
	}
	a, ok, err := asks("Ann", "192.0.2.0/24", back)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	b, ok, err := asks("Ben", "198.51.100.0/24", SHA("Ben's"))
	if err != nil || !ok || a.Word == b.Word {
		t.Fatal(a, b, ok, err)
	}
	if all, err := s.Asks(Noon); err != nil || len(all) != 2 {
		t.Errorf("%+v, %v", all, err)
	}
	if _, ok, err := s.Welcome(a.Device, "another word", store.Mate, nil, Noon.Add(time.Hour), Noon); err != nil || ok {
		t.Errorf("welcome under another word: %v, %v", ok, err)
	}
	if _, ok, err := s.Welcome(a.Device, a.Word, store.Mate, nil, Noon.Add(time.Hour), Noon); err != nil || !ok {
		t.Fatal(ok, err)
	}
	if said, ok, err := s.Answered(back, a.Device, Noon); err != nil || !ok || said.Said != store.Yes || said.Role != store.Mate {
		t.Errorf("%+v, %v, %v", said, ok, err)
	}
	for range 2 {
		d, ok, err := s.EnrolAsked(store.Newcomer{ID: a.Device, Token: SHA("Ann token"), Name: "Ann"}, back, Noon)
		if err != nil || !ok || d.Role != store.Mate {
			t.Errorf("%+v, %v, %v", d, ok, err)
		}
	}
	if _, _, err := s.Revoke(a.Device, Noon); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := s.EnrolAsked(store.Newcomer{ID: a.Device, Token: SHA("Ann token"), Name: "Ann"}, back, Noon); err != nil || ok {
		t.Errorf("after she was shut out: %v, %v", ok, err)
	}
	if _, ok, err := s.Decline(b.Device, b.Word, Noon.Add(time.Hour), Noon); err != nil || !ok {
		t.Fatal(ok, err)
	}
	if _, ok, err := asks("Ben again", "198.51.100.0/24", SHA("Ben's other")); err != nil || ok {
		t.Errorf("from a network that is blocked: %v, %v", ok, err)
	}
	if blocked, err := s.Blocked(Noon); err != nil || blocked != 1 {
		t.Errorf("%d blocked, %v", blocked, err)
	}
	if err := s.Unblock(); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := asks("Ben again", "198.51.100.0/24", SHA("Ben's other")); err != nil || !ok {
		t.Errorf("after that was taken back: %v, %v", ok, err)
	}
}

// A photo that was named is wanted until it came, is on its way from one phone, and is then there for all who may see it.
func photosOnTheirWay(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate, guest := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "guest", store.Guest, &trip)
	photo := entry.Photo(SHA("a picture"))
	take1(t, s, guest, Of("photo", trip, 1, fmt.Sprintf(`{"sha256":%q}`, photo)))
	wanted := func(want int) {
		t.Helper()
		for _, d := range []store.Device{mate, guest} {
			page, err := s.Page(d, nil, store.Cursor{}, 200, nil)
			if err != nil || len(page.Wanted) != want {
				t.Errorf("of %s wanted %v, %v; want %d", d.Name, page.Wanted, err, want)
			}
		}
		if all, err := s.Lacking(10); err != nil || len(all) != want {
			t.Errorf("lacking %v, %v", all, err)
		}
	}
	wanted(1)
	for range 2 {
		if place, given, err := s.BeginPhoto(photo, guest, Noon); err != nil || place != store.Roomy || len(given) > 0 {
			t.Errorf("%v, %v, %v", place, given, err)
		}
	}
	if begun, err := s.Begun(store.PartOf(photo, guest)); err != nil || !begun {
		t.Errorf("begun: %v, %v", begun, err)
	}
	if parts, err := s.Parts(Noon.Add(-store.PartLife)); err != nil || len(parts) != 1 || !parts[store.PartOf(photo, guest)] {
		t.Errorf("%v, %v", parts, err)
	}
	if err := s.PhotoCame(photo, guest); err != nil {
		t.Fatal(err)
	}
	wanted(0)
	if whole, err := s.WholePhotos(); err != nil || !slices.Equal(whole, []entry.Photo{photo}) {
		t.Errorf("%v, %v", whole, err)
	}
	if n, ok, err := s.Photo(photo, guest); err != nil || !ok || !n.Whole || !n.Room {
		t.Errorf("%+v, %v, %v", n, ok, err)
	}
	if _, ok, err := s.Photo(entry.Photo(SHA("another")), mate); err != nil || ok {
		t.Errorf("one that nobody named: %v, %v", ok, err)
	}
	if begun, err := s.Begun(store.PartOf(photo, guest)); err != nil || begun {
		t.Errorf("still begun: %v, %v", begun, err)
	}
	// Of many on their way the one that waited longest makes room.
	for i := range store.PartsPerPhone + 1 {
		one := entry.Photo(SHA(fmt.Sprint(i)))
		take1(t, s, mate, Of("photo", trip, int64(i+1), fmt.Sprintf(`{"sha256":%q}`, one)))
		_, given, err := s.BeginPhoto(one, mate, Noon.Add(time.Duration(i)*time.Minute))
		if want := i / store.PartsPerPhone; err != nil || len(given) != want {
			t.Errorf("%v made room, want %d, %v", given, want, err)
		}
	}
	if err := s.ForgetParts(Noon.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if parts, err := s.Parts(time.Time{}); err != nil || len(parts) > 0 {
		t.Errorf("%v, %v", parts, err)
	}
}

// This log and that of home are brought together, and in one order where a record would read otherwise.
func homeIsBroughtTogether(t *testing.T, e Engine) {
	s, there := e.Fresh(t), e.Fresh(t)
	const url = "https://home.example"
	trip := uuid.New()
	mate, atHome := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, there, "other", store.Mate, nil)
	first := Note(trip, 1, "first")
	here, other := first, first
	here.ID, here.Prev, here.N, here.Set = uuid.Must(uuid.NewV7()), []uuid.UUID{first.ID}, 2, []byte(`{"text":"here"}`)
	other.ID, other.Prev, other.Set = uuid.Must(uuid.NewV7()), []uuid.UUID{first.ID}, []byte(`{"text":"there"}`)
	WantNumbers(t, Take(t, s, mate, first, here), 1, 2)
	WantNumbers(t, Take(t, there, atHome, first, other, Note(trip, 2, "more")), 1, 2, 3)

	at, err := s.AtHome(url)
	if err != nil || at != (store.Cursor{}) {
		t.Fatal(at, err)
	}
	page, err := there.Page(atHome, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	added, odd, err := s.TakeHome(at, store.FromHome{At: page.Cursor, Entries: page.Numbered()}, Noon)
	if err != nil || added != 2 || len(odd) > 0 {
		t.Fatal(added, odd, err)
	}
	out, err := s.ForHome(10)
	if err != nil || len(out) != 1 || out[0].ID != here.ID {
		t.Fatalf("%+v, %v", out, err)
	}
	WantNumbers(t, Take(t, there, atHome, here), 4)
	if at, err = s.AtHome(url); err != nil || at != page.Cursor {
		t.Fatal(at, err)
	}
	next, err := there.Page(atHome, nil, page.Cursor, 200, map[uuid.UUID]bool{here.ID: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.TakeHome(at, store.FromHome{At: next.Cursor, Taken: map[uuid.UUID]int64{here.ID: 4}}, Noon); err != nil {
		t.Fatal(err)
	}
	before, _, err := s.Latest(mate)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []bool{true, false} {
		if changed, err := s.SameOrder(); err != nil || changed != want {
			t.Errorf("changed %v, %v; want %v", changed, err, want)
		}
	}
	if after, last, err := s.Latest(mate); err != nil || after == before || last != 4 {
		t.Errorf("epoch %s, then %s, up to %d, %v", before, after, last, err)
	}
	ours, _, _ := Pull(t, s, mate)
	theirs, _, _ := Pull(t, there, atHome)
	if !slices.EqualFunc(ours, theirs, func(a, b entry.Numbered) bool { return a.No == b.No && a.ID == b.ID }) {
		t.Errorf("%+v\nat home %+v", ours, theirs)
	}
	if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
		t.Error(err)
	}
	if err := s.HomeWell(url, Noon); err != nil {
		t.Fatal(err)
	}
	if h, ok, err := s.HomeStands(); err != nil || !ok || h.URL != url || h.Together == nil || h.Apart != nil || h.Waiting != 0 {
		t.Errorf("%+v, %v, %v", h, ok, err)
	}
	for _, now := range []time.Time{Noon, Noon.Add(time.Hour)} {
		if err := s.HomeApart(url, "", now); err != nil {
			t.Fatal(err)
		}
	}
	if h, _, err := s.HomeStands(); err != nil || h.Apart == nil || !h.Apart.Equal(Noon) || h.Why != "" {
		t.Errorf("apart since when that began: %+v, %v", h, err)
	}
	// Another home knows nothing of this one.
	if at, err := s.AtHome("https://other.example"); err != nil || at != (store.Cursor{}) {
		t.Errorf("%+v, %v", at, err)
	}
	if err := s.ForgetHome(); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := s.HomeStands(); err != nil || ok {
		t.Errorf("forgotten: %v, %v", ok, err)
	}
}

// After a copy was put back phones begin anew, nobody asks, and no invitation is open.
func whatWasPutBackHasAnotherEpoch(t *testing.T, e Engine) {
	s := e.Fresh(t)
	mate, _, _ := Written(t, s, 3)
	page, err := s.Page(mate, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Invite(store.Invitation{Hash: SHA("open"), Code: SHA("code"), CodeEnds: Noon, Role: store.Mate, Ends: Noon.Add(time.Hour), Uses: 1}, Noon); err != nil {
		t.Fatal(err)
	}
	if err := s.NewEpoch(); err != nil {
		t.Fatal(err)
	}
	again, err := s.Page(mate, nil, page.Cursor, 200, nil)
	if err != nil || again.Cursor.Epoch == page.Cursor.Epoch || len(again.Entries) != 3 {
		t.Errorf("%+v, %v", again, err)
	}
	if open, err := s.Invitations(Noon); err != nil || len(open) > 0 {
		t.Errorf("open: %+v, %v", open, err)
	}
}

// Whoever waits for news hears of an entry.
func changesAreTold(t *testing.T, e Engine) {
	s := e.Fresh(t)
	mate := Enrol(t, s, "mate", store.Mate, nil)
	changed := s.Changed()
	Take(t, s, mate, Note(uuid.New(), 1, "news"))
	select {
	case <-changed:
	default:
		t.Error("nothing is told")
	}
}
