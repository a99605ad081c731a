package formats

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// lint has libxml2 hold a document against the published schema of GPX 1.1; empty: it is valid.
func lint(t *testing.T, document string) string {
	t.Helper()
	xmllint, err := exec.LookPath("xmllint")
	if err != nil && os.Getenv("CI") != "" {
		t.Fatal("there is no xmllint, and .ci/test-tools should have installed it")
	}
	if err != nil {
		t.Skip("without xmllint (libxml2-utils) nothing is held against the schema")
	}
	path := filepath.Join(t.TempDir(), "trip.gpx")
	if err := os.WriteFile(path, []byte(document), 0o600); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command(xmllint, "--noout", "--nonet", "--schema", "testdata/gpx.xsd", path).CombinedOutput(); err != nil {
		return string(said)
	}
	return ""
}

// The published schema of GPX 1.1, by libxml2: of the shared trip, of one at the edges of what may be noted, and of nothing.
func TestGPXIsValidByItsSchema(t *testing.T) {
	edges := Query{
		Format: GPX, Gap: 900, Name: "\x00\x1b]]>\ufffe&\r", Made: 253402300799.999,
		Notes: []Note{{
			ID: "n", Kind: "note", Time: 0.001, Placed: true, Lat: -90, Lon: 179.99999999,
			Fields: []Field{{Name: "tiny", Is: Number, Number: 1e-15, Unit: "m"}, {Name: "text", Is: Text, Text: "a\rb\ufffd\ud7ff"}},
			Rods:   []Rod{{Place: "<port>", Lure: "\"white\"", Colour: "bare & metal", LineOut: 60, Drail: 0}},
		}},
		Track: []Point{{Time: 0, Lat: 90, Lon: -180}, {Time: 1e4, Lat: 1e-8, Lon: 180}},
	}
	for name, q := range map[string]Query{"the shared trip": shared(t, GPX), "the edges": edges, "nothing": {Format: GPX, Gap: 900}} {
		a, err := Write(q)
		if err != nil {
			t.Fatal(err)
		}
		if said := lint(t, a.Text); said != "" {
			t.Errorf("%s: %s\n%s", name, said, a.Text)
		}
	}
}

// And it notices what is not.
func TestTheSchemaRefuses(t *testing.T) {
	good := written(t, GPX)
	for name, change := range map[string][2]string{
		"a longitude of 180":   {`lon="-73.9"`, `lon="180"`},
		"a time in no form":    {"<time>2026-07-15T00:05:00Z</time>", "<time>15 July</time>"},
		"type before name":     {"<name>lines</name>", "<type>x</type><name>lines</name>"},
		"an element unknown":   {"<name>lines</name>", "<name>lines</name><kind>lines</kind>"},
		"another version":      {`version="1.1"`, `version="1.0"`},
		"points without track": {"</trkseg>\n</trk>", "</trk>"},
	} {
		bad := strings.Replace(good, change[0], change[1], 1)
		if bad == good {
			t.Fatalf("%s: the file has no %s", name, change[0])
		}
		if lint(t, bad) == "" {
			t.Errorf("%s passed", name)
		}
	}
}
