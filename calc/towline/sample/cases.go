package sample

import (
	"encoding/json"
	"os"
	"testing"

	"wirewake/calc/towline/line"
)

// SolvedCase is one of testdata/cases.json, which were computed outside this project by two independent methods that
// agree to 1e-8: shooting with SciPy's DOP853 (rtol 1e-12) and a lumped-node Newton solver with Richardson
// extrapolation. Same force model, so they check the numerics.
type SolvedCase struct {
	Env struct {
		Rho, V, Shear float64
	}
	Rb   *float64
	Tree []struct {
		D, W, Cn, Ct, L, M, Ma float64
		Parent                 int
		End                    struct{ W, CdA, Fx, M float64 }
	}
	A map[string]struct {
		X, Z   float64
		TTop   float64 `json:"T_top"`
		PhiTop float64 `json:"phi_top"`
		TLow   float64 `json:"T_low"`
		PhiLow float64 `json:"phi_low"`
	} `json:"-"`
	RawA json.RawMessage `json:"A"`
}

// Tow is the case as a request.
func (c *SolvedCase) Tow() line.Tow {
	t := line.Tow{Sea: line.Sea{Water: line.Water{Density: c.Env.Rho, Viscosity: 1.19e-6}, Speed: c.Env.V}}
	if c.Env.Shear != 0 {
		t.Sea.Current = []line.Layer{{Depth: 0, Change: 0}, {Depth: 100, Change: -100 * c.Env.Shear}}
	}
	for i, s := range c.Tree {
		on := ""
		if s.Parent >= 0 {
			on = string(rune('a' + s.Parent))
		}
		t.Sections = append(t.Sections, line.Section{
			Name: string(rune('a' + i)), On: on, Length: s.L, Diameter: s.D, Weight: s.W, Cn: s.Cn, Ct: s.Ct, Strum: 1,
			Inertia: &line.Inertia{Mass: s.M, Added: s.Ma}, End: line.Body{Weight: s.End.W, DragArea: s.End.CdA, PullAft: s.End.Fx, Mass: s.End.M},
		})
	}
	return t
}

// RawCases are all cases by name, as text. It reads them from beside a room of towline.
func RawCases(t testing.TB) (all map[string]json.RawMessage) {
	raw, err := os.ReadFile("../testdata/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// SolvedCases are those on a straight course.
func SolvedCases(t testing.TB) map[string]*SolvedCase {
	cases := map[string]*SolvedCase{}
	for name, raw := range RawCases(t) {
		if name == "_about" {
			continue
		}
		c := new(SolvedCase)
		if err := json.Unmarshal(raw, c); err != nil {
			t.Fatal(name, err)
		}
		if c.Rb != nil {
			continue // a turn
		}
		if err := json.Unmarshal(c.RawA, &c.A); err != nil {
			t.Fatal(name, err)
		}
		cases[name] = c
	}
	return cases
}
