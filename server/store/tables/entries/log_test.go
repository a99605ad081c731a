package entries

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite/engine"
	"wirewake/server/store/tables/aboard"
	"wirewake/server/store/tables/db"
)

var noon = time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)

// kept is a log with the roll of those that bring to it.
type kept struct {
	*Log
	roll *aboard.Roll
}

func open(t *testing.T) kept {
	t.Helper()
	file, err := engine.Open(t.Context(), t.TempDir(), engine.Large)
	if err != nil {
		t.Fatal(err)
	}
	d := db.Over(file)
	t.Cleanup(func() { d.Close() })
	return kept{In(d), aboard.In(d)}
}

func (k kept) enrol(t *testing.T, name string, role store.Role, trip *uuid.UUID) store.Device {
	t.Helper()
	secret, code := store.Hash(sha256.Sum256([]byte(name))), store.Hash(sha256.Sum256([]byte(name+" code")))
	if _, err := k.roll.Invite(store.Invitation{Hash: secret, Code: code, CodeEnds: noon, Role: role, Trip: trip, Ends: noon.Add(time.Hour), Uses: 1}, noon); err != nil {
		t.Fatal(err)
	}
	d, ok, err := k.roll.Enrol(store.Newcomer{ID: uuid.New(), Invitation: &secret, Token: sha256.Sum256([]byte(name + " token")), Name: name}, noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	return d
}

func (k kept) take(t *testing.T, d store.Device, e entry.Sent) {
	t.Helper()
	outcomes, stands, err := k.Take(d, []entry.Sent{e}, noon)
	if err != nil || !stands.Aboard || outcomes[0].Refusal != nil {
		t.Fatal(outcomes, stands, err)
	}
}

// spoil changes what is kept behind the back of the log.
func (k kept) spoil(t *testing.T, statement string) {
	t.Helper()
	if err := k.db.Write(func(tx *db.Tx) error { return tx.Exec(statement) }); err != nil {
		t.Fatal(err)
	}
}

// note is an entry that begins a record.
func note(trip uuid.UUID, n int64, text string) entry.Sent {
	return entry.Sent{Entry: entry.Entry{
		ID: uuid.Must(uuid.NewV7()), Record: uuid.New(), Kind: "note", Trip: trip,
		Set: json.RawMessage(fmt.Sprintf(`{"text":%q}`, text)), At: noon.UnixMilli(), N: n,
	}}
}
