package wayin

import (
	"bytes"
	"log/slog"
	"strings"
	"testing"
	"time"

	"wirewake/server/store/sqlite"
)

// door opens on dir, with a clock that the test moves.
func door(t *testing.T, dir string, clock *time.Time, finder Finder) *Door {
	t.Helper()
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return &Door{Finder: finder, Store: s.Store, Log: slog.New(slog.DiscardHandler), Now: func() time.Time { return *clock }}
}

func TestAnAddressThatChangedIsReportedForAYear(t *testing.T) {
	clock := time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)
	dir := t.TempDir()

	before := door(t, dir, &clock, finder("[::]:8610", "192.168.1.9"))
	if got := before.Report().Earlier; len(got) != 0 {
		t.Errorf("first start: earlier = %v, want none", got)
	}
	before.Loaded("192.168.1.9:8610")
	before.Loaded("localhost:8610")
	before.Loaded("stranger.example")
	if got := before.Report().Earlier; len(got) != 0 {
		t.Errorf("same address: earlier = %v, want none", got)
	}

	clock = clock.AddDate(0, 0, 7)
	after := door(t, dir, &clock, finder("[::]:8610", "192.168.1.5"))
	report := after.Report()
	if len(report.Earlier) != 1 {
		t.Fatalf("changed address: earlier = %v, want the one before", report.Earlier)
	}
	got := report.Earlier[0]
	if got.URL != "http://192.168.1.9:8610" || got.LastServed.Day() != 1 || !strings.Contains(got.Keep, "192.168.1.9") {
		t.Errorf("earlier = %+v", got)
	}

	clock = clock.AddDate(1, 0, 0)
	if got := after.Report().Earlier; len(got) != 0 {
		t.Errorf("a year later: earlier = %v, want none", got)
	}
}

func TestAnOriginIsWrittenDownOnceAnHour(t *testing.T) {
	clock := time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)
	d := door(t, t.TempDir(), &clock, finder("[::]:8610", "192.168.1.9"))
	last := func() time.Time {
		origins, err := d.Store.Origins()
		if err != nil || len(origins) != 1 {
			t.Fatalf("origins = %v, %v", origins, err)
		}
		return origins[0].Last
	}
	start := clock
	for _, c := range []struct {
		after time.Duration
		want  time.Time
	}{{0, start}, {59 * time.Minute, start}, {time.Hour, start.Add(time.Hour)}} {
		clock = start.Add(c.after)
		d.Loaded("192.168.1.9:8610")
		if got := last(); !got.Equal(c.want) {
			t.Errorf("after %v: last served %v, want %v", c.after, got, c.want)
		}
	}
}

func TestWithoutAStoreThereIsStillAWayIn(t *testing.T) {
	d := &Door{Finder: finder("[::]:8610", "192.168.1.9"), Now: time.Now, Notes: []string{"Nothing is remembered."}}
	d.Loaded("192.168.1.9:8610")
	report := d.Report()
	if report.Best.URL != "http://192.168.1.9:8610" || len(report.Notes) != 1 {
		t.Errorf("report = %+v", report)
	}
}

func TestAStoreThatFailsIsLoggedAndStopsNothing(t *testing.T) {
	clock := time.Now()
	d := door(t, t.TempDir(), &clock, finder("[::]:8610", "192.168.1.9"))
	var log bytes.Buffer
	d.Log = slog.New(slog.NewTextHandler(&log, nil))
	d.Store.Close()
	d.Loaded("192.168.1.9:8610")
	if got := d.Report().Best.URL; got != "http://192.168.1.9:8610" {
		t.Errorf("best = %s", got)
	}
	if n := strings.Count(log.String(), "WARN"); n != 2 {
		t.Errorf("%d warnings, want one for writing and one for reading:\n%s", n, &log)
	}
}

func TestKeep(t *testing.T) {
	for _, c := range []struct{ old, now, want string }{
		{"http://192.168.1.9:8610", "http://192.168.1.5:8610",
			"give this computer the network address 192.168.1.9 again (a router can reserve it)"},
		{"http://192.168.1.5:8610", "http://192.168.1.5:9000", "start with --listen :8610"},
		{"http://192.168.1.5", "http://192.168.1.5:8610", "start with --listen :80"},
		{"https://boat.example", "http://192.168.1.5:8610",
			"start with --address https://boat.example, and start with --listen :443"},
		{"http://192.168.1.5:8610", "https://192.168.1.5:8610", "start with --address http://192.168.1.5:8610"},
		{"http://192.168.1.9:8610", "https://192.168.1.5:8610",
			"give this computer the network address 192.168.1.9 again (a router can reserve it), and start with --address http://192.168.1.9:8610"},
	} {
		if got, _ := keep(c.old, c.now); got != c.want {
			t.Errorf("keep(%s, %s)\n got %s\nwant %s", c.old, c.now, got, c.want)
		}
	}
}
