package sqlite

import (
	"path/filepath"
	"testing"

	"wirewake/server/store"
	"wirewake/server/store/conformance"
	"wirewake/server/store/sqlite/folder"
)

// A copy that is put back knows nothing of who was shut out since: that is taken over from the database that it replaces.
func TestWhoWasShutOutSinceTheCopyStaysOut(t *testing.T) {
	now, copied := t.TempDir(), t.TempDir()
	s := open(t, now)
	out := conformance.Enrol(t, s.kept(), "out", store.Mate, nil)
	conformance.Enrol(t, s.kept(), "in", store.Mate, nil)
	if err := s.Copy(filepath.Join(copied, folder.FileName)); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := s.Revoke(out.ID, conformance.Noon); err != nil || !ok {
		t.Fatal(ok, err)
	}
	back := open(t, copied)
	if err := back.RevokeAsIn(filepath.Join(now, folder.FileName)); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"out": false, "in": true} {
		if _, ok, err := back.DeviceOf(conformance.SHA(name+" token"), conformance.Noon); err != nil || ok != want {
			t.Errorf("%s is aboard: %v, %v", name, ok, err)
		}
	}
	if err := back.RevokeAsIn(filepath.Join(t.TempDir(), "none")); err == nil {
		t.Error("who was shut out is read from a file that is not there")
	}
}
