package conformance

import (
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// What comes while another change is made goes into one transaction: there, too, each goes by what those before it brought.
func whatComesAtOnceIsJudgedInTurn(t *testing.T, e Engine) {
	s := e.Fresh(t)
	var phones []store.Device
	for n := range 2 {
		phones = append(phones, Enrol(t, s, fmt.Sprint("phone ", n), store.Mate, nil))
	}
	last := int64(0)
	for round := range 6 {
		first, second := Note(uuid.New(), 1, "here"), Note(uuid.New(), 1, "there")
		second.Record = first.Record // of another trip: only one of them can be
		if round%2 == 0 {
			second = first
		}
		outcomes := atOnce(t, s, phones, first, second)
		a, b := outcomes[0], outcomes[1]
		switch {
		case second.ID == first.ID && (a.No == 0 || a.No != b.No || a.New == b.New):
			t.Errorf("the same by two phones: %+v, %+v", a, b)
		case second.ID != first.ID && (a.Refusal == entry.Other) == (b.Refusal == entry.Other):
			t.Errorf("one record in two trips: %+v, %+v", a, b)
		}
		no, err := s.Last()
		if err != nil || no != last+3 {
			t.Errorf("%d entries, %v; want %d", no, err, last+3)
		}
		last = no
	}
	if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
		t.Error(err)
	}
}

// atOnce has each of some phones bring one entry, with another that nobody else has, while a change is made.
func atOnce(t *testing.T, s Kept, phones []store.Device, some ...entry.Sent) []store.Outcome {
	t.Helper()
	begun, end, over := make(chan bool), make(chan bool), make(chan error, 1)
	go func() {
		once := sync.OnceFunc(func() { close(begun) })
		over <- s.DB.Write(func(*db.Tx) error { once(); <-end; return nil })
	}()
	<-begun
	outcomes := make([]store.Outcome, len(some))
	var all sync.WaitGroup
	for i, e := range some {
		all.Go(func() {
			took, _, err := s.Take(phones[i], []entry.Sent{e, Note(uuid.New(), 9, "besides")}, Noon)
			if err != nil {
				t.Error(err)
				return
			}
			outcomes[i] = took[0]
		})
	}
	time.Sleep(20 * time.Millisecond) // mostly all wait by now; where not, nothing else comes out
	close(end)
	all.Wait()
	if err := <-over; err != nil {
		t.Fatal(err)
	}
	return outcomes
}
