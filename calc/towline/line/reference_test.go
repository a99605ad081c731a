package line_test

import (
	"math"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
)

func TestSolvedCases(t *testing.T) {
	cases := sample.SolvedCases(t)
	if len(cases) != 7 {
		t.Fatalf("%d straight cases, want 7", len(cases))
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			answer, err := line.Solve(c.Tow())
			if err != nil {
				t.Fatal(err)
			}
			for i, s := range answer.Sections {
				want := c.A[string(rune('0'+i))]
				const rel = 1e-7
				expect.Near(t, s.Name+" x", s.Astern, want.X, rel)
				expect.Near(t, s.Name+" z", s.Depth, want.Z, rel)
				expect.Near(t, s.Name+" top tension", s.TensionTop, want.TTop, rel)
				expect.Near(t, s.Name+" low tension", s.TensionLow, want.TLow, rel)
				expect.Near(t, s.Name+" top angle", s.AngleTop, want.PhiTop*math.Pi/180, rel)
				expect.Near(t, s.Name+" low angle", s.AngleLow, want.PhiLow*math.Pi/180, rel)
			}
		})
	}
}
