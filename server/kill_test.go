package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/sync/exchange"
)

// writer is a phone that writes and exchanges without a pause, and remembers what it was told is taken.
type writer struct {
	*aboard
	log   *harness.Phone
	taken map[uuid.UUID]int64
	trip  uuid.UUID
}

// errGone is that the server did not answer.
var errGone = errors.New("no answer")

// work writes and exchanges until the server is gone. A request that got no answer goes again, with what was
// written since.
func (w *writer) work() error {
	for {
		for range 1 + rand.IntN(3) {
			w.log.Write("note", w.trip, uuid.Nil, map[string]any{"text": strings.Repeat("x", rand.IntN(500))}, false, 0)
		}
		if _, err := w.once(); err != nil {
			return err
		}
	}
}

func (w *writer) once() (over bool, err error) {
	request := w.log.Request()
	r, text, err := w.try("POST", "/api/exchange", request)
	if err != nil {
		return false, fmt.Errorf("%w: %v", errGone, err)
	}
	if r.StatusCode != 200 {
		return false, fmt.Errorf("%s %s", r.Status, text)
	}
	var answer exchange.Answer
	if err := json.Unmarshal([]byte(text), &answer); err != nil {
		return false, err
	}
	for _, t := range answer.Taken {
		if no, before := w.taken[t.ID]; before && no != t.No {
			return false, fmt.Errorf("entry %v was taken as %d, then as %d", t.ID, no, t.No)
		}
		w.taken[t.ID] = t.No
	}
	return w.log.Store(request, answer)
}

// However often the server is killed under load: every entry that a phone was told is taken is there, under
// the number it was told, and nothing is there twice.
func TestNothingAcknowledgedIsLostByAKill(t *testing.T) {
	kills := 20
	if more, err := strconv.Atoi(os.Getenv("WIREWAKE_KILLS")); err == nil {
		kills = more
	}
	data := t.TempDir()
	s := start(t, "--data", data)
	var writers []*writer
	for range 4 {
		w := &writer{comeAboard(t, s, data, "--role", "mate"), harness.NewPhone(), map[uuid.UUID]int64{}, uuid.New()}
		writers = append(writers, w)
	}
	for kill := range kills {
		var killed atomic.Bool
		var all sync.WaitGroup
		for _, w := range writers {
			w.url = s.url()
			all.Go(func() {
				if err := w.work(); !errors.Is(err, errGone) || !killed.Load() {
					t.Errorf("kill %d: %v", kill, err)
				}
			})
		}
		time.Sleep(time.Duration(rand.IntN(60_000)) * time.Microsecond)
		killed.Store(true)
		s.stop(syscall.SIGKILL)
		all.Wait()
		if t.Failed() {
			return
		}
		s = start(t, "--data", data)
	}

	written, taken := 0, 0
	for _, w := range writers {
		w.url = s.url()
		for range 2 { // the second time for what the others brought after it
			for over := false; !over; {
				var err error
				if over, err = w.once(); err != nil {
					t.Fatal(err)
				}
			}
		}
		written += len(w.taken)
	}
	reader := writers[len(writers)-1]
	for _, w := range writers {
		for id, no := range w.taken {
			taken++
			if h, there := reader.log.Entries[id]; !there || !h.Valid || h.No != no {
				t.Errorf("entry %v was taken as %d, and is there: %v, as %d", id, no, there, h.No)
			}
		}
	}
	out, said, code := tell(t, "", "check", "--data", data)
	if code != done || !strings.Contains(out, fmt.Sprintf("All is well: %d entries", written)) {
		t.Errorf("%d entries written, check: exit %d, %q, %q", written, code, out, said)
	}
	t.Logf("%d kills, %d entries", kills, taken)
}
