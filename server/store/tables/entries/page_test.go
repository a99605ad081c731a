package entries

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"encoding/base64"
	"slices"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// Where an index that the disk has spoilt leads to an entry of another trip, no guest is given it.
func TestNoGuestIsGivenWhatASpoiltIndexFinds(t *testing.T) {
	mine := uuid.New()
	p := &page{}
	w := pageFor(p, store.Device{ID: uuid.New(), Role: store.Guest, Trip: &mine}, 0, 10, nil)
	for no, trip := range []uuid.UUID{mine, uuid.New()} {
		w.add(Row{Numbered: entry.Numbered{Entry: entry.Entry{ID: uuid.New(), Trip: trip}, No: int64(no + 1)}, content: []byte("{}")}, true)
	}
	if len(p.Entries) != 1 || p.Entries[0].Trip != mine {
		t.Errorf("%+v", p.Entries)
	}
}

// The word that stands for the log is 72 bits of its chain: two logs have the same by chance once in 2⁷² times.
func TestTheCheckWordIsLongEnough(t *testing.T) {
	chain := sha256.Sum256([]byte("the entries so far"))
	word, err := base64.RawURLEncoding.DecodeString(checkWord(chain[:]))
	if err != nil || len(word) != 9 || !bytes.Equal(word, chain[:9]) {
		t.Errorf("%x of %x, %v", word, chain, err)
	}
	// Of a chain that the disk has cut off it is another.
	if checkWord(chain[:5]) == checkWord(chain[:]) {
		t.Error("half a chain has the word of the whole one")
	}
}

// Between the entries of one trip there are numbers of others: to whoever sees all, nothing under a number is what the
// disk has lost.
func TestWhoSeesOneTripSeesGapsThatAreNone(t *testing.T) {
	trip := uuid.New()
	for name, c := range map[string]struct {
		d    store.Device
		want []int64
	}{
		"a guest": {store.Device{ID: uuid.New(), Role: store.Guest, Trip: &trip}, nil},
		"a mate":  {store.Device{ID: uuid.New(), Role: store.Mate}, []int64{2, 3, 4, 6}},
	} {
		w := pageFor(&page{}, c.d, 0, 10, nil)
		for _, no := range []int64{1, 5} {
			w.add(Row{Numbered: entry.Numbered{Entry: entry.Entry{ID: uuid.New(), Trip: trip}, No: no}, content: []byte("{}")}, true)
		}
		w.missing(7)
		if !slices.Equal(w.page.bad, c.want) {
			t.Errorf("%s misses %v, want %v", name, w.page.bad, c.want)
		}
	}
}

// Where one entry is there again and another is not there any more, a guest's word is another, and so for any two or three:
// of numbers of which there are as many, whose sum or whose squares' sum is the same.
func TestAGuestsWordTellsWhichNumbersItWasToSee(t *testing.T) {
	s := open(t)
	trip := uuid.New()
	guest := s.enrol(t, "guest", store.Guest, &trip)
	for n := range int64(20) {
		s.take(t, guest, note(trip, n+1, "x"))
	}
	words := map[string]string{}
	for _, hidden := range []string{"", "6", "7", "6, 9", "7, 8", "1, 8", "4, 7", "4, 5", "1, 2, 6", "15"} {
		s.spoil(t, `UPDATE entry SET trip = zeroblob(16) WHERE no IN (`+hidden+`)`)
		err := s.db.Snapshot(func(tx *sql.Tx) error {
			word, err := wordOf(guest, tx, 15, "the log's")
			if other, ok := words[word]; ok {
				t.Errorf("without %q it is the same as without %q", hidden, other)
			}
			words[word] = hidden
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		s.spoil(t, `UPDATE entry SET trip = (SELECT trip FROM entry WHERE no = 20)`)
	}
}
