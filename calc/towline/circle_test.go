package towline

import (
	"encoding/json"
	"math"
	"testing"
)

// T1 of testdata/cases.json, solved outside this project like the straight cases.
func TestSolvedTurn(t *testing.T) {
	c := solvedTurn(t)
	a, err := SolveCircle(c.circle())
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range a.Sections {
		want := c.At[string(rune('0'+i))]
		const rel = 1e-7
		near(t, s.Name+" radius", s.Radius, want.R, rel)
		near(t, s.Name+" depth", s.Depth, want.Z, rel)
		near(t, s.Name+" lag", s.Lag*180/math.Pi, want.Lag, rel)
		near(t, s.Name+" top tension", s.TensionTop, want.TTop, rel)
		near(t, s.Name+" low tension", s.TensionLow, want.TLow, rel)
	}
	near(t, "tension at the boat", a.Tension, c.TBoat, 1e-7)
	for i, got := range []float64{a.Outward, a.Forward, a.Upward} {
		near(t, "pull at the boat", math.Abs(got), math.Abs(c.Pull[i]), 1e-6)
	}
	t.Log(a.Outward, a.Forward, a.Upward)
}

type turnedCase struct {
	solvedCase
	At    map[string]turnedEnd `json:"-"`
	TBoat float64              `json:"T_boat"`
	Pull  [3]float64           `json:"boat_pull_components_out_fwd_up"`
}

type turnedEnd struct {
	R, Z float64
	Lag  float64 `json:"lag_deg"`
	TTop float64 `json:"T_top"`
	TLow float64 `json:"T_low"`
}

func solvedTurn(t testing.TB) *turnedCase {
	c := new(turnedCase)
	if err := json.Unmarshal(rawCases(t)["T1_turn_R60"], c); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(c.RawA, &c.At); err != nil {
		t.Fatal(err)
	}
	return c
}

func (c *turnedCase) circle() Circle {
	tow := c.tow()
	return Circle{Sea: tow.Sea, Radius: *c.Rb, Sections: tow.Sections}
}
