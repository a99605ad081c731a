package postgres

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness/cluster"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
)

// own is a cluster of a test's own, with the URL of a database in it.
func own(t *testing.T) (*cluster.Cluster, string) {
	t.Helper()
	cluster.Shared(t) // else the test says why not
	c, err := cluster.New()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Remove)
	url, err := c.Database("wirewake")
	if err != nil {
		t.Fatal(err)
	}
	return c, url
}

// The database crashes again and again while phones bring to two servers: what was told to be taken is there, once, under the
// number that was told, and whoever brings notices nothing but waiting.
func TestNothingTakenIsLostWhenTheDatabaseCrashes(t *testing.T) {
	c, url := own(t)
	servers := []*Harbour{open(t, url), open(t, url)}
	kills := 3
	if more, err := strconv.Atoi(os.Getenv("WIREWAKE_KILLS")); err == nil {
		kills = more
	}
	names := []string{fresh(t, servers[0]), fresh(t, servers[0])}
	type told struct {
		boat int
		id   uuid.UUID
		no   int64
	}
	var (
		over    atomic.Bool
		takes   atomic.Int64
		mutex   sync.Mutex
		numbers []told
		all     sync.WaitGroup
	)
	for boat, name := range names {
		for i := range 4 {
			s := kept(t, servers[i%2], name)
			d := conformance.Enrol(t, s, fmt.Sprint("phone ", i), store.Mate, nil)
			all.Go(func() {
				for n := int64(1); !over.Load(); n++ {
					some := []entry.Sent{conformance.Note(uuid.New(), 2*n, "x"), conformance.Note(uuid.New(), 2*n+1, "y")}
					outcomes, stands, err := s.Take(d, some, conformance.Noon)
					if err != nil || !stands.Aboard {
						t.Error(stands, err)
						return
					}
					mutex.Lock()
					for j, o := range outcomes {
						if o.Refusal != nil {
							t.Errorf("%+v", o.Refusal)
						}
						numbers = append(numbers, told{boat, some[j].ID, o.No})
					}
					mutex.Unlock()
					takes.Add(1)
				}
			})
		}
	}
	for range kills {
		// Some are taken in between, whatever that takes.
		for before := takes.Load(); takes.Load() < before+20 && !t.Failed(); {
			time.Sleep(time.Millisecond)
		}
		c.Kill()
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
	}
	over.Store(true)
	all.Wait()
	for boat, name := range names {
		s := kept(t, servers[0], name)
		d := conformance.Enrol(t, s, "who looks", store.Mate, nil)
		held, _, _ := conformance.Pull(t, s, d)
		by := map[uuid.UUID]int64{}
		for _, e := range held {
			if by[e.ID] != 0 {
				t.Errorf("%v is there twice", e.ID)
			}
			by[e.ID] = e.No
		}
		count := 0
		for _, one := range numbers {
			if one.boat != boat {
				continue
			}
			if count++; by[one.id] != one.no {
				t.Errorf("told %d, there under %d", one.no, by[one.id])
			}
		}
		if state, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil || state.Entries != int64(count) {
			t.Errorf("%d entries, %d told of, %v", state.Entries, count, err)
		}
	}
	t.Logf("%d entries told of, %d kills", len(numbers), kills)
}

// inviting is a boat with five entries of a mate's, and one invitation that is open.
func inviting(t *testing.T, h *Harbour) (name string, s conformance.Kept, mate store.Device, sent []entry.Sent) {
	t.Helper()
	name = fresh(t, h)
	s = kept(t, h, name)
	mate, _, sent = conformance.Written(t, s, 5)
	if _, err := s.Invite(store.Invitation{Hash: conformance.SHA("open"), Code: conformance.SHA("code"), CodeEnds: conformance.Noon, Role: store.Mate,
		Ends: conformance.Noon.Add(time.Hour), Uses: 1}, conformance.Noon); err != nil {
		t.Fatal(err)
	}
	return name, s, mate, sent
}

// A restore of the database to a moment before gives every boat another epoch by itself: phones bring what it lacks, nobody
// comes aboard by what may have been taken back since.
func TestADatabaseThatWasPutBackBeginsAnotherEpoch(t *testing.T) {
	c, url := own(t)
	h := open(t, url)
	name, s, mate, sent := inviting(t, h)
	mark, putBack, err := c.Archive()
	if err != nil {
		t.Fatal(err)
	}
	// What comes after the base backup is in the archive alone.
	conformance.WantNumbers(t, conformance.Take(t, s, mate, conformance.Note(sent[0].Trip, 6, "after the base backup")), 6)
	if err := mark(); err != nil {
		t.Fatal(err)
	}
	later := conformance.Note(sent[0].Trip, 7, "after the moment")
	conformance.WantNumbers(t, conformance.Take(t, s, mate, later), 7)
	before, err := s.Page(mate, nil, store.Cursor{}, 200, nil)
	if err != nil || len(before.Entries) != 7 {
		t.Fatal(len(before.Entries), err)
	}
	// A restart alone is none.
	c.Kill()
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	if same, err := s.Page(mate, nil, before.Cursor, 200, nil); err != nil || same.Cursor != before.Cursor {
		t.Errorf("after a restart %+v, %v; before %+v", same.Cursor, err, before.Cursor)
	}
	if err := putBack(); err != nil {
		t.Fatal(err)
	}
	after, err := s.Page(mate, nil, before.Cursor, 200, nil)
	if err != nil || after.Cursor.Epoch == before.Cursor.Epoch || len(after.Entries) != 6 {
		t.Fatalf("%+v with %d entries, %v; before %+v", after.Cursor, len(after.Entries), err, before.Cursor)
	}
	if invited, err := s.Invitations(conformance.Noon); err != nil || len(invited) > 0 {
		t.Errorf("open: %+v, %v", invited, err)
	}
	conformance.WantNumbers(t, conformance.Take(t, s, mate, append(sent, later)...), 1, 2, 3, 4, 5, 7)
	// Once, however many servers look.
	if again, err := kept(t, open(t, url), name).Page(mate, nil, store.Cursor{}, 200, nil); err != nil || again.Cursor.Epoch != after.Cursor.Epoch {
		t.Errorf("%+v, %v; want the epoch %s", again.Cursor, err, after.Cursor.Epoch)
	}
}

// What was put back behind PostgreSQL's back has the epoch that it had, and phones find out by what they have; whoever keeps the
// harbour says so, and from then on it is as if it had been put back by PostgreSQL.
func TestASnapshotThatWasPutBackBeginsAnotherEpochOnceThatIsSaid(t *testing.T) {
	c, url := own(t)
	h := open(t, url)
	_, s, mate, sent := inviting(t, h)
	putBack, err := c.Snapshot()
	if err != nil {
		t.Fatal(err)
	}
	later := conformance.Note(sent[0].Trip, 6, "after the snapshot")
	conformance.WantNumbers(t, conformance.Take(t, s, mate, later), 6)
	before, err := s.Page(mate, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := putBack(); err != nil {
		t.Fatal(err)
	}
	said, err := s.Page(mate, nil, before.Cursor, 200, nil)
	if err != nil || said.Cursor.Epoch == before.Cursor.Epoch || len(said.Entries) != 5 {
		t.Errorf("a phone that has seen more: %+v with %d entries, %v", said.Cursor, len(said.Entries), err)
	}
	if invited, err := s.Invitations(conformance.Noon); err != nil || len(invited) != 1 {
		t.Errorf("nobody has said so: %+v, %v", invited, err)
	}
	fresh, err := s.Page(mate, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := h.Restored(t.Context()); err != nil {
		t.Fatal(err)
	}
	after, err := s.Page(mate, nil, fresh.Cursor, 200, nil)
	if err != nil || after.Cursor.Epoch == fresh.Cursor.Epoch || len(after.Entries) != 5 {
		t.Errorf("%+v with %d entries, %v; before %+v", after.Cursor, len(after.Entries), err, fresh.Cursor)
	}
	if invited, err := s.Invitations(conformance.Noon); err != nil || len(invited) > 0 {
		t.Errorf("open: %+v, %v", invited, err)
	}
	conformance.WantNumbers(t, conformance.Take(t, s, mate, append(sent, later)...), 1, 2, 3, 4, 5, 6)
}

// Where the database is away for longer than anybody waits, whoever asks is told what to look for.
func TestADatabaseThatIsAwayIsNamed(t *testing.T) {
	err := explain(&lost{errors.New("refused")})
	var said *store.Error
	if !errors.As(err, &said) || said.Full || said.Damaged || !strings.Contains(said.Text, "cannot be reached") {
		t.Errorf("%+v", err)
	}
}

// What is done at one server is heard at another, once it is there.
func TestOtherServersHearOfNews(t *testing.T) {
	url := cluster.Fresh(t)
	here, there := open(t, url), open(t, url)
	name := fresh(t, here)
	s, beside := kept(t, here, name), kept(t, there, name)
	mate := conformance.Enrol(t, s, "mate", store.Mate, nil)
	// That it listens is told as news, too: of all the rest it hears by what is said.
	for n, heard := int64(1), 0; heard < 3; n++ {
		changed := beside.Changed()
		conformance.Take(t, s, mate, conformance.Note(uuid.New(), n, "news"))
		select {
		case <-changed:
			heard++
		case <-time.After(time.Second):
		}
	}
}
