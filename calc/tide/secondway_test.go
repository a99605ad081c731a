package tide

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// Points and turns of 33 stations in four years by a general-purpose library of another language; testdata/second_way.mjs
// says which and where it had to be set right.
func TestSecondWay(t *testing.T) {
	data, err := os.ReadFile("testdata/second_way.json")
	if err != nil {
		t.Fatal(err)
	}
	var all []struct {
		ID, Unit      string
		Points, Turns [][2]float64
	}
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	if len(all) < 30 {
		t.Fatalf("%d stations", len(all))
	}
	tables := stations(t)
	for _, c := range all {
		unit, within := 1., 0.0005
		if c.Unit == "kn" {
			unit, within = knots, 0.0005*knots
		}
		_, s := tables.station(c.ID)
		worst, late := 0., 0.
		for _, p := range c.Points {
			value, _ := s.curve(p[0]-1, p[0]+1).at(p[0])
			worst = math.Max(worst, math.Abs(value-p[1]*unit))
		}
		turns := s.curve(c.Turns[0][0]-3600, c.Turns[len(c.Turns)-1][0]+3600).extremes(0)
		for _, want := range c.Turns {
			near := turns[0]
			for _, e := range turns {
				if math.Abs(e.time-want[0]) < math.Abs(near.time-want[0]) {
					near = e
				}
			}
			worst = math.Max(worst, math.Abs(near.value-want[1]*unit))
			late = math.Max(late, math.Abs(near.time-want[0]))
		}
		if worst > within {
			t.Errorf("%s: up to %.4f off", c.ID, worst)
		}
		if late > 15 {
			t.Errorf("%s: turns up to %.0f s off", c.ID, late)
		}
	}
}
