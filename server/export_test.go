package main

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/log/fold"
)

// The server asks for a trip's file what a phone asks (webapp/src/state/out/formats.test.ts), byte by byte but for the
// spaces.
func TestExportAsksAsThePhone(t *testing.T) {
	var log struct {
		Trip    uuid.UUID
		Entries []entry.Numbered
	}
	text, err := os.ReadFile("../calc/formats/testdata/log.json")
	if err == nil {
		err = json.Unmarshal(text, &log)
	}
	if err != nil {
		t.Fatal(err)
	}
	for format, kept := range map[string]string{
		"gpx": "../calc/formats/testdata/query.json", "ics": "../calc/formats/testdata/calendar.json",
	} {
		asksAs(t, noted(fold.Records(log.Entries), log.Trip, format), kept)
	}
}

// One clock gone mad says nothing of when an open trip ended, nor of when its file was made.
func TestAClockGoneMadIsNotInTheCalendar(t *testing.T) {
	id := uuid.New()
	const at, hour = 1_784_073_600_000, 3_600_000
	record := func(id uuid.UUID, kind, set string, times ...int64) fold.Record {
		r := fold.Record{Record: id, Kind: kind, Fields: map[string]fold.Value{}}
		if set != "" {
			r.Fields["opened"] = fold.Value{Value: json.RawMessage(set)}
		}
		for _, at := range times {
			r.Entries = append(r.Entries, entry.Numbered{Entry: entry.Entry{At: at}})
		}
		return r
	}
	q := noted([]fold.Record{
		record(id, "trip", "1784073600000", at), record(uuid.New(), "note", "", at+5*hour, at+40*hour),
		record(uuid.New(), "note", "", 253402300799999), record(uuid.New(), "note", "", 0), record(uuid.New(), "mark", "", at+20*hour),
	}, id, "ics")
	// A clock that was set back meanwhile makes no trip end before it began.
	back := record(id, "trip", "1784073600000", at)
	back.Fields["closed"] = fold.Value{Value: json.RawMessage("1")}
	if e := noted([]fold.Record{back}, id, "ics").Events[0]; e.From != at/1000 || e.To != e.From {
		t.Errorf("closed before it was opened: %+v", e)
	}
	if e := q.Events[0]; e.From != at/1000 || e.To != (at+20*hour)/1000 || q.Made != (at+40*hour)/1000 {
		t.Errorf("%+v, made %.0f", e, q.Made)
	}
}

func asksAs(t *testing.T, query formatsQuery, kept string) {
	t.Helper()
	got, err := json.Marshal(query)
	if err != nil {
		t.Fatal(err)
	}
	if os.Getenv("WIREWAKE_WRITE") != "" {
		var neat bytes.Buffer
		if err := json.Indent(&neat, got, "", " "); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(kept, append(neat.Bytes(), '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(kept)
	var want bytes.Buffer
	if err == nil {
		err = json.Compact(&want, text)
	}
	if err != nil || !bytes.Equal(got, want.Bytes()) {
		t.Errorf("%v\n%s\nwant\n%s", err, got, want.Bytes())
	}
}
