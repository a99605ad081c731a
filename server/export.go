package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	"wirewake/calc/codec"
	"wirewake/calc/desk"
	"wirewake/server/instruments/trace"
	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/log/fold"
	"wirewake/server/store"
)

const exportHelp = `usage: wirewake export                                list the trips
       wirewake export --format FORMAT --trip TRIP   print one

  --format FORMAT  gpx, geojson, csv or ics
  --trip TRIP      its name, its id, or as much of the beginning of that as no other trip has
` + dataHelp + `
The file goes to standard output; it is the same, byte by byte, as a phone makes of the same notes. The server
may be running.
`

var formats = []string{"gpx", "geojson", "csv", "ics"}

func export(ctx context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("export", flag.ContinueOnError)
	var dir string
	dataFlag(flags, &dir)
	format, wanted := flags.String("format", "", ""), flags.String("trip", "", "")
	words, code, ok := parse(flags, io, args)
	if !ok {
		return code
	}
	if code, ok := noWords(io, "export", words); !ok {
		return code
	}
	switch {
	case dir == "":
		return wrong(io, "export", noData)
	case *wanted != "" && !slices.Contains(formats, *format):
		return wrong(io, "export", "--format must be one of "+strings.Join(formats, ", "))
	case *wanted == "" && *format != "":
		return wrong(io, "export", "--trip must name the trip; "+sameData("wirewake export", dir)+" lists them")
	}
	fail := func(err error) int {
		fmt.Fprintf(io.err, "wirewake export: %v\n", err)
		return failed
	}
	s, err := openThere(ctx, dir)
	if err != nil {
		return fail(err)
	}
	defer s.Close()
	trips, err := s.EntriesOf("trip")
	if err != nil {
		return fail(err)
	}
	if *wanted == "" {
		for _, trip := range fold.Records(trips) {
			fmt.Fprintf(io.out, "%v  %s\n", trip.Trip, tripWords(trip))
		}
		return done
	}
	found, err := findTrip(s, *wanted)
	if err != nil {
		return fail(err)
	}
	trip, parts := seenWith(fold.Records(trips), *found)
	entries, err := s.EntriesOfTrips(parts)
	if err != nil {
		return fail(err)
	}
	request, err := json.Marshal(noted(fold.Records(entries), trip, *format))
	if err != nil {
		return fail(err)
	}
	answer, err := desk.Desk{}.Answer("formats", request)
	if err != nil {
		return fail(codec.ProblemsOf(err))
	}
	var file struct {
		Text string `json:"text"`
	}
	if err := json.Unmarshal(answer, &file); err != nil {
		return fail(err)
	}
	if _, err := fmt.Fprint(io.out, file.Text); err != nil {
		return fail(err)
	}
	return done
}

// seenWith is the trip as which a trip is seen, and all that were made one with it.
func seenWith(trips []fold.Record, trip uuid.UUID) (root uuid.UUID, parts []uuid.UUID) {
	into := map[uuid.UUID]uuid.UUID{}
	for _, r := range trips {
		if to, ok := contract.ID(text(r, "into")); ok {
			into[r.Record] = to
		}
	}
	root = store.Root(into, trip)
	for _, r := range trips {
		if store.Root(into, r.Record) == root {
			parts = append(parts, r.Record)
		}
	}
	return root, parts
}

// What the desk is asked with, as state/out/formats.ts of the webapp asks it: the shared cases are in
// calc/formats/testdata.
type (
	field struct {
		Name   string   `json:"name"`
		Is     string   `json:"is"`
		Text   string   `json:"text,omitempty"`
		Number *float64 `json:"number,omitempty"`
		Unit   string   `json:"unit,omitempty"`
	}
	rodThen struct {
		Place   string  `json:"place"`
		Lure    string  `json:"lure"`
		Colour  string  `json:"colour,omitempty"`
		LineOut float64 `json:"lineOut"`
		Drail   float64 `json:"drail"`
	}
	noteOf struct {
		ID     string    `json:"id"`
		Kind   string    `json:"kind"`
		Time   float64   `json:"time"`
		Placed bool      `json:"placed"`
		Lat    float64   `json:"lat"`
		Lon    float64   `json:"lon"`
		Fields []field   `json:"fields"`
		Rods   []rodThen `json:"rods,omitempty"`
		Writer string    `json:"writer,omitempty"`
	}
	point struct {
		Time float64 `json:"time"`
		Lat  float64 `json:"lat"`
		Lon  float64 `json:"lon"`
	}
	event struct {
		ID    string  `json:"id"`
		From  float64 `json:"from"`
		To    float64 `json:"to"`
		Name  string  `json:"name"`
		Words string  `json:"words"`
	}
	formatsQuery struct {
		Format string   `json:"format"`
		Name   string   `json:"name"`
		Made   float64  `json:"made"`
		Notes  []noteOf `json:"notes"`
		Track  []point  `json:"track"`
		Events []event  `json:"events"`
	}
)

// aboutTheCrew are kinds that say nothing of what was done out there.
var aboutTheCrew = []string{"proposal", "tick", "list", "rules", "boat", "briefed"}

// notNoted are kinds that are with a trip and that nobody noted on it one by one.
var notNoted = []string{"trip", "person", "photo", "track"}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// The most that one spread shows, and the longest word of it.
const mostRods, longestWord = 12, 200

// corrected is how long after the rest of a trip something is still corrected in it: a year.
const corrected = 366 * 24 * time.Hour

// reached is how far times go on from a beginning, without a pause that long: one clock gone mad is not gone by.
func reached(from float64, times []float64, pause time.Duration) float64 {
	slices.Sort(times)
	for _, t := range times {
		if t > from+pause.Seconds() {
			break
		}
		from = max(from, t)
	}
	return from
}

func noted(records []fold.Record, id uuid.UUID, format string) formatsQuery {
	q := formatsQuery{Format: format, Notes: []noteOf{}, Track: []point{}, Events: []event{}}
	var said, begun []float64
	for _, r := range records {
		for _, e := range r.Entries {
			said = append(said, seconds(e))
		}
		if !r.Struck {
			begun = append(begun, seconds(r.Entries[0]))
		}
	}
	opened, closed := 0., math.NaN()
	if len(said) > 0 {
		opened = slices.Min(said)
	}
	for _, r := range records {
		if r.Record == id && r.Kind == "trip" {
			q.Name, opened = text(r, "name"), seconds(r.Entries[0])
			if told, ok := numberOf(r, "opened"); ok {
				opened = told / 1000
			}
			if told, ok := numberOf(r, "closed"); ok {
				closed = told / 1000
			}
		}
	}
	ended := closed
	if math.IsNaN(closed) {
		ended = reached(opened, begun, trace.Over)
	}
	q.Made = reached(opened, said, corrected)
	if q.Name == "" {
		q.Name = time.UnixMilli(int64(opened * 1000)).UTC().Format("2006-01-02")
	}
	for _, r := range records {
		if r.Struck || slices.Contains(aboutTheCrew, r.Kind) {
			continue
		}
		n := noteOf{ID: r.Record.String(), Kind: r.Kind, Time: seconds(r.Entries[0]), Fields: fieldsOf(r), Rods: rodsOf(r), Writer: writerOf(r.Entries[0])}
		lat, hasLat := numberOf(r, "lat")
		lon, hasLon := numberOf(r, "lon")
		if n.Placed = hasLat && hasLon; n.Placed {
			n.Lat, n.Lon = lat, lon
			q.Track = append(q.Track, point{n.Time, lat, lon})
		}
		if r.Kind == "track" {
			q.Track = append(q.Track, pointsOf(r)...)
		}
		q.Notes = append(q.Notes, n)
	}
	if format == "ics" {
		marks, others := 0, 0
		for _, n := range q.Notes {
			if n.Kind == "mark" {
				marks++
			} else if !slices.Contains(notNoted, n.Kind) {
				others++
			}
		}
		// A clock that was set back meanwhile makes no trip end before it began.
		words := counted(marks, "mark") + ", " + counted(others, "other note")
		q.Events = append(q.Events, event{id.String(), opened, max(opened, ended), q.Name, words})
		q.Notes, q.Track = []noteOf{}, []point{}
	}
	return q
}

// writerOf is who wrote an entry, and where no mark proves that, who brought it: who is said to have written it may never
// have seen it.
func writerOf(e entry.Numbered) string {
	if e.ViaName == "" || e.Mark != nil {
		return e.ByName
	}
	return e.ByName + ", brought by " + e.ViaName
}

func seconds(e entry.Numbered) float64 { return float64(e.At) / 1000 }

// text is a field's words, empty where it has none.
func text(r fold.Record, name string) (words string) {
	_ = json.Unmarshal(r.Fields[name].Value, &words) // what is no text has none
	return words
}

func numberOf(r fold.Record, name string) (x float64, ok bool) {
	var p *float64
	if json.Unmarshal(r.Fields[name].Value, &p) != nil || p == nil {
		return 0, false
	}
	return *p, true
}

// fieldsOf are the fields of a record that a table can hold, by name.
func fieldsOf(r fold.Record) []field {
	all := []field{}
	add := func(fields contract.Fields) {
		for name, f := range fields {
			if name == "lat" || name == "lon" || name == "struck" {
				continue
			}
			one := field{Name: name, Is: "text"}
			switch f.Is {
			case "number", "whole", "time":
				x, ok := numberOf(r, name)
				if !ok {
					continue
				}
				one.Is, one.Unit = "number", f.Unit
				if f.Is == "time" {
					one.Is, x = "time", x/1000
				}
				one.Number = &x
			case "line", "text", "sha256", "record":
				one.Text = text(r, name)
			case "flag":
				var is *bool
				if json.Unmarshal(r.Fields[name].Value, &is) == nil && is != nil {
					one.Text = fmt.Sprint(*is)
				}
			}
			if one.Is != "text" || one.Text != "" {
				all = append(all, one)
			}
		}
	}
	add(contract.The.Any)
	add(contract.The.Kinds[r.Kind])
	slices.SortFunc(all, func(a, b field) int { return strings.Compare(a.Name, b.Name) })
	return all
}

// rodsOf is the spread of a record as far as it can be read: another phone or version may have written it.
func rodsOf(r fold.Record) (all []rodThen) {
	var spread struct {
		Rods []json.RawMessage `json:"rods"`
	}
	if json.Unmarshal(r.Fields["spread"].Value, &spread) != nil {
		return nil
	}
	for _, raw := range spread.Rods {
		var one struct {
			Place, Lure    *string
			Colour         any
			LineOut, Drail *float64
		}
		if json.Unmarshal(raw, &one) != nil || one.Place == nil || one.Lure == nil || one.LineOut == nil || one.Drail == nil {
			continue
		}
		if len(*one.Place) <= longestWord && len(*one.Lure) <= longestWord && len(all) < mostRods {
			colour, _ := one.Colour.(string) // what is no text tells no colour
			if len(colour) > longestWord {
				colour = ""
			}
			all = append(all, rodThen{*one.Place, *one.Lure, colour, *one.LineOut, *one.Drail})
		}
	}
	return all
}

// pointsOf are those of a track that was loaded.
func pointsOf(r fold.Record) (all []point) {
	var raw []json.RawMessage
	_ = json.Unmarshal(r.Fields["points"].Value, &raw) // what is no list has none
	for _, one := range raw {
		var p []float64
		if json.Unmarshal(one, &p) == nil && len(p) == 3 && p[0] >= 0 && p[0] <= 253402300799 && -90 <= p[1] && p[1] <= 90 && -180 <= p[2] && p[2] <= 180 {
			all = append(all, point{p[0], p[1], p[2]})
		}
	}
	return all
}
