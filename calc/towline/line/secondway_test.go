package line

import (
	"encoding/json"
	"os"
	"slices"
	"testing"

	"wirewake/calc/expect"
)

// testdata/second_way.json was computed by SciPy (LSODA and brentq; see second_way.py) from another formulation of
// the same equations.
func TestSecondWay(t *testing.T) {
	raw, err := os.ReadFile("../testdata/second_way.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases map[string]struct {
		Speed, Tip float64
		Profile    [][]float64
		Sections   []struct {
			Name                                                    string
			Length, D, W, Cn, Ct, Strum, Weight, DragArea, LiftArea float64
		}
		Answer struct {
			Depth, Astern  []float64
			Tension, Angle float64
		}
	}
	if err := json.Unmarshal(raw, &cases); err != nil {
		t.Fatal(err)
	}
	if len(cases) != 6 {
		t.Fatalf("%d cases, want 6", len(cases))
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			tow := Tow{Sea: Sea{Water: Water{1025, 1.19e-6}, Speed: c.Speed}, TipHeight: c.Tip}
			if len(c.Profile) == 2 {
				for i, depth := range c.Profile[0] {
					tow.Sea.Current = append(tow.Sea.Current, Layer{depth, c.Profile[1][i]})
				}
			}
			on := ""
			for _, s := range slices.Backward(c.Sections) {
				tow.Sections = append(tow.Sections, Section{
					Name: s.Name, On: on, Length: s.Length, Diameter: s.D, Weight: s.W, Cn: s.Cn, Ct: s.Ct, Strum: s.Strum,
					End: Body{Weight: s.Weight, DragArea: s.DragArea, LiftArea: s.LiftArea},
				})
				on = s.Name
			}
			a := solved(t, tow)
			for i := range c.Sections {
				s := a.Sections[len(c.Sections)-1-i]
				expect.Near(t, s.Name+" depth", s.Depth, c.Answer.Depth[i], 1e-6)
				expect.Near(t, s.Name+" astern", s.Astern, c.Answer.Astern[i], 1e-6)
			}
			expect.Near(t, "tension", a.Tip.Tension, c.Answer.Tension, 1e-6)
			expect.Near(t, "angle", a.Tip.Angle, c.Answer.Angle, 1e-6)
		})
	}
}
