package towline

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// The solved cases in testdata/cases.json were computed outside this project by two independent methods that
// agree to 1e-8: shooting with SciPy's DOP853 (rtol 1e-12) and a lumped-node Newton solver with Richardson
// extrapolation. Same force model, so they check the numerics.
type solvedCase struct {
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

func (c *solvedCase) tow() Tow {
	t := Tow{Sea: Sea{Water: Water{Density: c.Env.Rho, Viscosity: 1.19e-6}, Speed: c.Env.V}}
	if c.Env.Shear != 0 {
		t.Sea.Current = []Layer{{0, 0}, {100, -100 * c.Env.Shear}}
	}
	for i, s := range c.Tree {
		on := ""
		if s.Parent >= 0 {
			on = string(rune('a' + s.Parent))
		}
		t.Sections = append(t.Sections, Section{
			Name: string(rune('a' + i)), On: on, Length: s.L, Diameter: s.D, Weight: s.W, Cn: s.Cn, Ct: s.Ct, Strum: 1,
			Inertia: &Inertia{s.M, s.Ma}, End: Body{Weight: s.End.W, DragArea: s.End.CdA, PullAft: s.End.Fx, Mass: s.End.M},
		})
	}
	return t
}

func rawCases(t testing.TB) (all map[string]json.RawMessage) {
	raw, err := os.ReadFile("testdata/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

func solvedCases(t testing.TB) map[string]*solvedCase {
	cases := map[string]*solvedCase{}
	for name, raw := range rawCases(t) {
		if name == "_about" {
			continue
		}
		c := new(solvedCase)
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

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.10g, want %.10g (relative difference %.2g)", what, got, want, math.Abs(got/want-1))
	}
}

func TestSolvedCases(t *testing.T) {
	cases := solvedCases(t)
	if len(cases) != 7 {
		t.Fatalf("%d straight cases, want 7", len(cases))
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			answer, err := Solve(c.tow())
			if err != nil {
				t.Fatal(err)
			}
			for i, s := range answer.Sections {
				want := c.A[string(rune('0'+i))]
				const rel = 1e-7
				near(t, s.Name+" x", s.Astern, want.X, rel)
				near(t, s.Name+" z", s.Depth, want.Z, rel)
				near(t, s.Name+" top tension", s.TensionTop, want.TTop, rel)
				near(t, s.Name+" low tension", s.TensionLow, want.TLow, rel)
				near(t, s.Name+" top angle", s.AngleTop, want.PhiTop*math.Pi/180, rel)
				near(t, s.Name+" low angle", s.AngleLow, want.PhiLow*math.Pi/180, rel)
			}
		})
	}
}
