package entries

import (
	"fmt"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/store"
)

// logOf is a log of so many notes, a mate's, of which this process knows none any more.
func logOf(t *testing.T, notes int64) (kept, store.Device, uuid.UUID) {
	t.Helper()
	s, trip := open(t), uuid.New()
	mate := s.enrol(t, "mate", store.Mate, nil)
	for n := range notes {
		s.take(t, mate, note(trip, n+1, "x"))
	}
	s.db.Renew()
	return s, mate, trip
}

// page is what a phone is given next, and how far it is then; whatever is read beforehand has been read.
func (k kept) page(t *testing.T, d store.Device, from store.Cursor, most int) (numbers []int64, page store.Page) {
	t.Helper()
	page, err := k.Page(d, nil, from, most, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range k.next.coming {
		if c.page != nil {
			c.page()
		}
	}
	for _, e := range page.Entries {
		numbers = append(numbers, e.No)
	}
	return numbers, page
}

// What comes next was read before it is asked for: what the disk spoils then is given out as it was taken, and only that page.
func TestTheNextPageIsReadBeforeItIsAskedFor(t *testing.T) {
	s, mate, _ := logOf(t, 9)
	_, first := s.page(t, mate, store.Cursor{}, 3)
	s.spoil(t, `UPDATE entry SET fields = '{"text":"y"}'`)
	numbers, second := s.page(t, mate, first.Cursor, 3)
	if fmt.Sprint(numbers) != "[4 5 6]" || string(second.Entries[0].Set) != `{"text":"x"}` || len(second.Found) > 0 {
		t.Errorf("%v, found %v", numbers, second.Found)
	}
	if numbers, third := s.page(t, mate, second.Cursor, 3); numbers != nil || fmt.Sprint(third.Found) != "[7 8 9]" {
		t.Errorf("then %v, found %v", numbers, third.Found)
	}
}

// Where the page that was read beforehand came to the end of the log, what was noted since is in it too.
func TestWhatIsNotedMeanwhileIsOnTheNextPage(t *testing.T) {
	s, mate, trip := logOf(t, 4)
	_, first := s.page(t, mate, store.Cursor{}, 3)
	s.take(t, mate, note(trip, 5, "x"))
	s.db.Renew()
	if numbers, page := s.page(t, mate, first.Cursor, 3); fmt.Sprint(numbers) != "[4 5]" || page.More {
		t.Errorf("%v", numbers)
	}
}

// A page that was read beforehand is given to who sees all of the log, and for no other question: not to one with other
// bounds, of another epoch, or who has begun anew.
func TestThatPageIsGivenForThatQuestionAlone(t *testing.T) {
	s, mate, _ := logOf(t, 9)
	guest := s.enrol(t, "guest", store.Guest, &uuid.UUID{1})
	_, first := s.page(t, mate, store.Cursor{}, 3)
	s.page(t, mate, store.Cursor{}, 3)
	if numbers, _ := s.page(t, mate, first.Cursor, 2); fmt.Sprint(numbers) != "[4 5]" {
		t.Errorf("of two entries: %v", numbers)
	}
	if numbers, _ := s.page(t, guest, first.Cursor, 3); numbers != nil {
		t.Errorf("a guest of another trip: %v", numbers)
	}
	other := first.Cursor
	other.Check = "another log"
	if numbers, page := s.page(t, mate, other, 3); fmt.Sprint(numbers) != "[1 2 3]" || page.Cursor.Epoch == first.Cursor.Epoch {
		t.Errorf("with a log that is not this one: %v in %v", numbers, page.Cursor)
	}
}

// Few pages are kept, however many phones fetch at once, and those that nobody asks for any more make room.
func TestFewPagesAreReadBeforehand(t *testing.T) {
	var n next
	read := func() (page, bool) { return page{}, true }
	at := func(no int64) store.Cursor { return store.Cursor{Since: no} }
	for no := range int64(mostComing) {
		if n.begin(at(no), 3, read) == nil {
			t.Fatalf("there is no room for page %d", no)
		}
	}
	if n.begin(at(100), 3, read) != nil || n.begin(at(2), 3, read) != nil {
		t.Error("there is room for another")
	}
	if _, ok := n.take(at(2), 3); !ok {
		t.Error("it was not read")
	}
	if _, ok := n.take(at(2), 3); ok {
		t.Error("it is given twice")
	}
	for range patience {
		n.take(at(200), 3)
	}
	for no := range int64(mostComing) {
		if n.begin(at(100+no), 3, read) == nil {
			t.Errorf("there is no room for page %d later", no)
		}
	}
}
