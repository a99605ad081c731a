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
