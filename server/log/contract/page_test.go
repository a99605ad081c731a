package contract

import (
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The table of kinds on the protocol's page names the kinds and fields of the schema, with their units, and no
// others.
func TestThePageHasTheKindsOfTheSchema(t *testing.T) {
	text, err := os.ReadFile("../../sync/README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, found := strings.Cut(string(text), "| `kind` | fields of `set`, all optional |\n| --- | --- |\n")
	if !found {
		t.Fatal("there is no table of kinds")
	}
	table, _, _ = strings.Cut(table, "\n\n")
	told := map[string]Fields{}
	named := regexp.MustCompile("`(\\w+)`(?: (m/s|kg|Hz|rad|m|s|N)\\b)?")
	for line := range strings.Lines(table + "\n") {
		cells := strings.SplitN(strings.Trim(line, "| \n"), " | ", 2)
		fields := Fields{}
		for _, match := range named.FindAllStringSubmatch(cells[1], -1) {
			fields[match[1]] = Field{Unit: match[2]}
		}
		told[strings.Trim(cells[0], "`")] = fields
	}
	want := maps.Clone(The.Kinds)
	want["any"] = The.Any
	for kind, fields := range want {
		if !slices.Equal(slices.Sorted(maps.Keys(told[kind])), slices.Sorted(maps.Keys(fields))) {
			t.Errorf("%s: the page has %v, the schema %v", kind, slices.Sorted(maps.Keys(told[kind])), slices.Sorted(maps.Keys(fields)))
		}
		for name, f := range fields {
			if unit := told[kind][name].Unit; unit != f.Unit && f.Unit != "°" {
				t.Errorf("%s.%s: the page has %q, the schema %q", kind, name, unit, f.Unit)
			}
		}
	}
	if len(told) != len(want) {
		t.Errorf("%d kinds on the page, %d in the schema", len(told), len(want))
	}
}

// What is not bounded at all would be found here: a sort of field that Check does not know, a bound that was left
// out, spans that are not in order.
func TestTheSchemaIsSound(t *testing.T) {
	all := maps.Clone(The.Kinds)
	all["any"] = The.Any
	for kind, fields := range all {
		if kind != "any" && !Named(kind, The.Entry.Kind) {
			t.Errorf("%s is no name", kind)
		}
		for name, f := range fields {
			bounded := map[string]bool{"number": f.Max > f.Min, "whole": f.Max > f.Min, "time": true, "flag": true, "line": f.Most > 0, "text": f.Most > 0,
				"lines": f.Most > 0 && f.Items > 0, "sha256": true, "record": true, "fields": true, "value": true}[f.Is]
			if !Named(name, The.Entry.Field) || !bounded {
				t.Errorf("%s.%s: %+v", kind, name, f)
			}
		}
	}
	for _, spans := range [][][2]rune{The.Hidden.Text, The.Hidden.Line} {
		last := rune(-1)
		for _, span := range spans {
			if span[0] <= last || span[1] < span[0] {
				t.Errorf("%v is out of order", span)
			}
			last = span[1]
		}
	}
}
