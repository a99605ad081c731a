package postgres

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness/cluster"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/tables/db"
)

// told is all that a boat tells a phone that asks for everything, and of whom it knows.
func told(t testing.TB, k conformance.Kept, d store.Device) string {
	t.Helper()
	held, cursor, _ := conformance.Pull(t, k, d)
	devices, err := k.Devices()
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, l := range devices {
		names[fmt.Sprint(l.ID, l.Name, l.Role, l.Enrolled, l.Revoked)] = true
	}
	open, err := k.Invitations(conformance.Noon)
	if err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprintf("%+v %v %d open\n", cursor, slices.Sorted(maps.Keys(names)), len(open))
	for _, e := range held {
		text += fmt.Sprintf("%d %v %v %v %s %v\n", e.No, e.ID, e.Record, e.By, e.Set, e.Mark)
	}
	return text
}

// A boat's file moves into the harbour and out again, and into another: everything of it is as it was, the epoch among it, so
// that a phone goes on by the cursor that it has; and each goes on taking.
func TestABoatMovesInAndOut(t *testing.T) {
	h := open(t, cluster.Fresh(t))
	dir := t.TempDir()
	file, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	k := conformance.Kept{Store: file.Store}
	mate, _, sent := conformance.Written(t, k, 700)
	conformance.Enrol(t, k, "shut out", store.Mate, nil)
	trip := sent[0].Trip
	guest := conformance.Enrol(t, k, "guest", store.Guest, &trip)
	conformance.WantNumbers(t, conformance.Take(t, k, guest, conformance.Note(trip, 1, "a guest's")), 701)
	if _, err := k.Invite(store.Invitation{Hash: conformance.SHA("open"), Code: conformance.SHA("code"), CodeEnds: conformance.Noon, Role: store.Mate,
		Ends: conformance.Noon.Add(1e12), Uses: 1}, conformance.Noon); err != nil {
		t.Fatal(err)
	}
	before, seen := told(t, k, mate), told(t, k, guest)
	if _, err := h.Import(t.Context(), "early", dir+"/none", conformance.Noon); err == nil {
		t.Error("taken from nowhere")
	}
	file.Close()

	if ok, err := h.Import(t.Context(), "tern", dir, conformance.Noon); err != nil || !ok {
		t.Fatal(ok, err)
	}
	if ok, err := h.Import(t.Context(), "tern", dir, conformance.Noon); err != nil || ok {
		t.Errorf("twice: %v, %v", ok, err)
	}
	in := kept(t, h, "tern")
	if got := told(t, in, mate); got != before {
		t.Errorf("in the harbour a mate sees\n%s\nin the file\n%s", got, before)
	}
	if got := told(t, in, guest); got != seen {
		t.Errorf("in the harbour a guest sees\n%s\nin the file\n%s", got, seen)
	}
	if state, err := in.Verify(func(wrong string) { t.Error(wrong) }); err != nil || state.Entries != 701 {
		t.Errorf("%+v, %v", state, err)
	}
	conformance.WantNumbers(t, conformance.Take(t, in, mate, conformance.Note(uuid.New(), 9999, "in the harbour")), 702)
	before = told(t, in, mate)

	out := t.TempDir() + "/out"
	if _, err := h.Export(t.Context(), "tern", out); err == nil || !strings.Contains(err.Error(), "suspend") {
		t.Errorf("while it is served: %v", err)
	}
	if _, err := h.Suspend(t.Context(), "tern", conformance.Noon); err != nil {
		t.Fatal(err)
	}
	if ok, err := h.Export(t.Context(), "gull", out); err != nil || ok {
		t.Errorf("one that is not there: %v, %v", ok, err)
	}
	if ok, err := h.Export(t.Context(), "tern", out); err != nil || !ok {
		t.Fatal(ok, err)
	}
	if _, err := h.Export(t.Context(), "tern", out); err == nil || !strings.Contains(err.Error(), "already") {
		t.Errorf("over another: %v", err)
	}
	again, err := sqlite.Open(t.Context(), out)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	k = conformance.Kept{Store: again.Store}
	if got := told(t, k, mate); got != before {
		t.Errorf("in the file a mate sees\n%s\nin the harbour\n%s", got, before)
	}
	if state, err := again.Verify(func(wrong string) { t.Error(wrong) }); err != nil || state.Entries != 702 {
		t.Errorf("%+v, %v", state, err)
	}
	conformance.WantNumbers(t, conformance.Take(t, k, mate, conformance.Note(uuid.New(), 9998, "on the boat again")), 703)
}

// Whoever suspends a boat waits for what is being taken: what comes after is not, so that what moves out is all there is.
func TestNothingIsTakenAfterABoatWasSuspended(t *testing.T) {
	url := cluster.Fresh(t)
	h, other := open(t, url), open(t, url)
	name := fresh(t, h)
	s := kept(t, h, name)
	begun, goOn, suspended := make(chan bool), make(chan bool), make(chan error, 1)
	go func() {
		_ = s.DB.Write(func(tx *db.Tx) error {
			if err := tx.Exec(`UPDATE log SET address = 'before'`); err != nil {
				return err
			}
			if _, err := tx.Read(`SELECT 1 FROM log`, nil, new(int)); err != nil { // it waits no more
				return err
			}
			close(begun)
			<-goOn
			return nil
		})
	}()
	<-begun
	go func() { _, err := other.Suspend(t.Context(), name, conformance.Noon); suspended <- err }()
	for waits := 0; waits == 0; {
		select {
		case err := <-suspended:
			t.Fatal("suspended while something is being taken", err)
		default:
		}
		if err := h.pool.QueryRow(t.Context(), `SELECT count(*) FROM pg_locks WHERE NOT granted`).Scan(&waits); err != nil {
			t.Fatal(err)
		}
	}
	close(goOn)
	if err := <-suspended; err != nil {
		t.Fatal(err)
	}
	if err := s.SetAddress("after", ""); err == nil || !strings.Contains(err.Error(), "suspended") {
		t.Errorf("taken after: %v", err)
	}
	if address, err := s.Address(); err != nil || address != "before" {
		t.Errorf("%q, %v", address, err)
	}
}
