package entries

import (
	"fmt"
	"strings"
	"testing"
	"testing/synctest"

	"github.com/google/uuid"

	"wirewake/server/store"
)

// pages are what phones are given of a log of which this process knew nothing before.
type pages struct {
	kept
	*testing.T
	mate store.Device
	trip uuid.UUID
}

// inALog runs try in a log of so many notes, where whatever is read beforehand has been read before anybody asks for more.
func inALog(t *testing.T, notes int64, try func(p pages)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		s := open(t)
		p := pages{s, t, s.enrol(t, "mate", store.Mate, nil), uuid.New()}
		p.notes(1, notes)
		s.db.Renew()
		try(p)
	})
}

// notes brings notes, by their numbers.
func (p pages) notes(from, to int64) {
	for n := from; n <= to; n++ {
		p.take(p.T, p.mate, note(p.trip, n, "x"))
	}
}

// spoils has the disk change all that is said.
func (p pages) spoils() { p.spoil(p.T, `UPDATE entry SET fields = '{"text":"y"}'`) }

// page is what a phone is given next, and how far it is then.
func (p pages) page(d store.Device, from store.Cursor, most int, has ...uuid.UUID) (numbers string, page store.Page) {
	p.Helper()
	had := map[uuid.UUID]bool{}
	for _, id := range has {
		had[id] = true
	}
	page, err := p.Page(d, nil, from, most, had)
	if err != nil {
		p.Fatal(err)
	}
	synctest.Wait()
	all := []int64{}
	for _, e := range page.Entries {
		all = append(all, e.No)
	}
	return fmt.Sprint(all), page
}

// left is how many pages are kept that nobody has asked for.
func (p pages) left() (left int) {
	for _, c := range p.next.coming {
		if c.page != nil {
			left++
		}
	}
	return left
}

// What comes next was read before it is asked for: what the disk spoils then is given out as it was taken, and only that page.
func TestTheNextPageIsReadBeforeItIsAskedFor(t *testing.T) {
	inALog(t, 9, func(p pages) {
		_, first := p.page(p.mate, store.Cursor{}, 3)
		p.spoils()
		numbers, second := p.page(p.mate, first.Cursor, 3)
		if numbers != "[4 5 6]" || string(second.Entries[0].Set) != `{"text":"x"}` || len(second.Found) > 0 {
			t.Errorf("%v, found %v", numbers, second.Found)
		}
		if numbers, third := p.page(p.mate, second.Cursor, 3); numbers != "[]" || fmt.Sprint(third.Found) != "[7 8 9]" {
			t.Errorf("then %v, found %v", numbers, third.Found)
		}
	})
}

// The last page too, unless something was noted since: then that is in it.
func TestWhatIsNotedMeanwhileIsOnTheNextPage(t *testing.T) {
	inALog(t, 4, func(p pages) {
		_, first := p.page(p.mate, store.Cursor{}, 3)
		p.spoils()
		if numbers, page := p.page(p.mate, first.Cursor, 3); numbers != "[4]" || page.More {
			t.Errorf("%v, more %v", numbers, page.More)
		}
	})
	inALog(t, 4, func(p pages) {
		_, first := p.page(p.mate, store.Cursor{}, 3)
		p.notes(5, 5)
		p.db.Renew()
		if numbers, page := p.page(p.mate, first.Cursor, 3); numbers != "[4 5]" || page.More {
			t.Errorf("%v, more %v", numbers, page.More)
		}
	})
}

// A page that was read beforehand is given to who sees all of the log, and for no other question: not to one with other
// bounds, of another epoch, or who has begun anew.
func TestThatPageIsGivenForThatQuestionAlone(t *testing.T) {
	inALog(t, 9, func(p pages) {
		guest := p.enrol(t, "guest", store.Guest, &uuid.UUID{1})
		_, first := p.page(p.mate, store.Cursor{}, 3)
		p.page(p.mate, store.Cursor{}, 3)
		if numbers, _ := p.page(p.mate, first.Cursor, 2); numbers != "[4 5]" {
			t.Errorf("of two entries: %v", numbers)
		}
		if numbers, _ := p.page(guest, first.Cursor, 3); numbers != "[]" {
			t.Errorf("a guest of another trip: %v", numbers)
		}
		turned := p.enrol(t, "turned", store.Mate, nil)
		p.spoil(t, `UPDATE device SET turn = 1 WHERE name = 'turned'`)
		of := first.Cursor
		of.Epoch = strings.TrimSuffix(of.Epoch, ".0") + ".1"
		if numbers, page := p.page(turned, of, 3); numbers != "[4 5 6]" || page.Cursor.Epoch != of.Epoch {
			t.Errorf("in %s: %v in %s", of.Epoch, numbers, page.Cursor.Epoch)
		}
		other := first.Cursor
		other.Check = "another log"
		if numbers, page := p.page(p.mate, other, 3); numbers != "[1 2 3]" || page.Cursor.Epoch == first.Cursor.Epoch {
			t.Errorf("with a log that is not this one: %v in %v", numbers, page.Cursor)
		}
	})
}

// What one phone has already another has not: neither is given what was read for the other.
func TestWhatAPhoneHasIsLeftOutForItAlone(t *testing.T) {
	inALog(t, 9, func(p pages) {
		_, first := p.page(p.mate, store.Cursor{}, 3)
		_, second := p.page(p.mate, first.Cursor, 3)
		fourth := second.Entries[0].ID
		p.page(p.mate, store.Cursor{}, 3, fourth)
		if numbers, _ := p.page(p.mate, first.Cursor, 3); numbers != "[4 5 6]" {
			t.Errorf("who has not the fourth: %v", numbers)
		}
		p.page(p.mate, store.Cursor{}, 3)
		if numbers, _ := p.page(p.mate, first.Cursor, 3, fourth); numbers != "[5 6 7]" {
			t.Errorf("who has: %v", numbers)
		}
	})
}

// Of what is in memory nothing is read beforehand: nobody would ask for it.
func TestNoPageIsKeptOfWhatIsInMemory(t *testing.T) {
	inALog(t, 9, func(p pages) {
		p.notes(10, 15)
		var page store.Page
		for page.More = true; page.More; {
			_, page = p.page(p.mate, page.Cursor, 5)
		}
		if left := p.left(); left > 0 || page.Cursor.Since != 15 {
			t.Errorf("%d pages are left, at %d", left, page.Cursor.Since)
		}
	})
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
		if n.begin(at(no), 3, read) != nil {
			t.Errorf("page %d is read twice", no)
		}
	}
	if n.begin(at(100), 3, read) != nil {
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
