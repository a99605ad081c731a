package main

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/ship"
	"wirewake/server/sync/traces"
)

// A boat over a known bottom, by a serial line at 4800 baud, with noise and wrong talkers; the server is killed in the midst of it
// and comes back: the trace of the trip is one, and all of it that was there before is in it.
func TestAKillKeepsTheTraceWhole(t *testing.T) {
	end, device, err := pty.Open()
	if err != nil {
		t.Skip(err)
	}
	defer end.Close()
	// Nobody else has it open: a line that one program listens to is no other's.
	device.Close()
	bottom := func(run float64) float64 { return 15 + run/500 }
	v := &ship.Ship{Bottom: bottom, Speed: 1.7, Heading: 1, East: 0.3, Factor: 1, Noise: 1, Wrong: 0.05, Rand: rand.New(rand.NewPCG(1, 2))}
	ctx, cancel := context.WithCancel(t.Context())
	var over sync.WaitGroup
	defer over.Wait()
	defer cancel()
	over.Go(func() {
		for ctx.Err() == nil {
			for _, line := range v.Second() {
				_, _ = fmt.Fprintf(end, "%s\r\n", line) // nobody hears while the server is away
			}
			time.Sleep(200 * time.Millisecond) // faster than a boat, so that few seconds are enough
		}
	})
	data := t.TempDir()
	run := func() *served { return start(t, "--data", data, "--instruments", "serial:"+device.Name()+"@4800") }
	s := run()
	w := &writer{comeAboard(t, s, data, "--role", "mate"), harness.NewPhone(), map[uuid.UUID]int64{}, uuid.New()}
	say := func(set map[string]any) {
		t.Helper()
		w.url = s.url()
		w.log.Write("trip", w.trip, w.trip, set, false, 0)
		if _, err := w.once(); err != nil {
			t.Fatal(err)
		}
	}
	say(map[string]any{"opened": time.Now().UnixMilli()})
	shelf := traces.NewShelf(data)
	part := filepath.Join(data, "traces", "parts", w.trip.String())
	rows := func() []traces.Row {
		content, _ := os.ReadFile(part) // not there yet: none
		_, rows, _, _ := traces.Read(content)
		return rows
	}
	until := func(so func() bool) {
		t.Helper()
		for deadline := time.Now().Add(time.Minute); !so(); time.Sleep(50 * time.Millisecond) {
			if time.Now().After(deadline) {
				t.Fatalf("never: %d rows; the server said %s", len(rows()), s.err)
			}
		}
	}
	until(func() bool { return len(rows()) >= 2 })
	// A copy of the boat has it as far as it is whole.
	copied := filepath.Join(t.TempDir(), "boat.tar")
	if out, err, code := tell(t, "", "backup", copied, "--data", data); code != done || !strings.Contains(out, "1 trace of the instruments") {
		t.Errorf("exit %d, %q, %q", code, out, err)
	}
	s.stop(syscall.SIGKILL)
	before := rows()
	s = run()
	until(func() bool { return len(rows()) >= len(before)+2 })
	say(map[string]any{"closed": time.Now().UnixMilli()})
	var all []traces.Trace
	until(func() bool { all, err = shelf.All(); return err != nil || len(all) > 0 })
	if err != nil || len(all) != 1 || all[0].Trip != w.trip {
		t.Fatalf("%+v, %v", all, err)
	}
	content, err := shelf.Get(w.trip, all[0].SHA256)
	if err != nil {
		t.Fatal(err)
	}
	_, whole, size, err := traces.Read(content)
	if err != nil || size != len(content) || len(whole) < len(before)+2 {
		t.Errorf("%d rows of %d bytes, of %d; %v", len(whole), size, len(content), err)
	}
	same := func(a, b traces.Row) bool { return a.At.Equal(b.At) && fmt.Sprint(a.Values) == fmt.Sprint(b.Values) }
	if len(whole) < len(before) || !slices.EqualFunc(before, whole[:len(before)], same) {
		t.Errorf("before the kill %v, after %v", before, whole)
	}
	for i, r := range whole {
		if i > 0 && !r.At.After(whole[i-1].At) {
			t.Errorf("row %d at %v, after %v", i, r.At, whole[i-1].At)
		}
		if depth := r.Values[0]; !math.IsNaN(depth) && math.Abs(depth-15) > 1.5 {
			t.Errorf("row %d is %v m deep", i, depth)
		}
	}
	if code := s.stop(syscall.SIGTERM); code != done {
		t.Errorf("exit %d, said %s", code, s.err)
	}
	// Put back elsewhere, what was copied is there; one that was spoilt since changes nothing.
	elsewhere := t.TempDir()
	if out, err, code := tell(t, "", "restore", copied, "--data", elsewhere); code != done || !strings.Contains(out, "1 trace of the instruments") {
		t.Errorf("exit %d, %q, %q", code, out, err)
	}
	back, err := traces.NewShelf(elsewhere).All()
	if err != nil || len(back) != 1 || back[0].Trip != w.trip {
		t.Fatalf("%+v, %v", back, err)
	}
	content, err = traces.NewShelf(elsewhere).Get(w.trip, back[0].SHA256)
	if _, rows, _, bad := traces.Read(content); err != nil || bad != nil || len(rows) < 2 || len(rows) > len(before) {
		t.Errorf("%d rows, %v, %v", len(rows), err, bad)
	}
	// A program that knows of no traces reads one archive (POSIX.1-2001: two blocks of zeros end it): there is none in it.
	first, err := exec.Command("tar", "-tf", copied).Output()
	if err != nil || strings.Contains(string(first), "traces/") || !strings.Contains(string(first), "wirewake.db") {
		t.Errorf("%s, %v", first, err)
	}
	if both, err := exec.Command("tar", "-tif", copied).Output(); err != nil || !strings.Contains(string(both), "traces/") {
		t.Errorf("%s, %v", both, err)
	}
	tar, err := os.ReadFile(copied)
	if err != nil {
		t.Fatal(err)
	}
	short := filepath.Join(t.TempDir(), "short.tar")
	// Before the first trace, and behind one: where another might have followed.
	for _, to := range []int{bytes.Index(tar, []byte("traces/")) / 512 * 512, len(tar) - 1024} {
		if err := os.WriteFile(short, tar[:to], 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err, code := tell(t, "", "restore", short, "--data", t.TempDir()); code != failed || !strings.Contains(err, "cut short") {
			t.Errorf("cut short to %d of %d: exit %d, %q", to, len(tar), code, err)
		}
	}
	tar[bytes.Index(tar, content)+len(content)-1] ^= 1
	if err := os.WriteFile(copied, tar, 0o600); err != nil {
		t.Fatal(err)
	}
	nowhere := t.TempDir()
	if _, err, code := tell(t, "", "restore", copied, "--data", nowhere); code != failed || !strings.Contains(err, "not what its name says") {
		t.Errorf("spoilt: exit %d, %q", code, err)
	}
	if all, _ := traces.NewShelf(nowhere).All(); len(all) > 0 {
		t.Errorf("spoilt, and put back: %v", all)
	}
}
