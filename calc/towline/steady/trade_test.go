package steady

import (
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/unit"
)

func feet(s *towline.Setup, lineOut float64) float64 {
	return s.LureDepth(lineOut*unit.Foot, line.Exact) / unit.Foot
}

// "Ten of wire for one of depth" (common practice, no source) is met as what the next ten feet bring, at the speed
// the trade starts with; "five feet for four ounces" lies low in the range of 4 to 9 ft that the physics gives (the
// first step on a bare line a little more). The physics is not tuned to either.
func TestRulesOfThumbAtTheirHome(t *testing.T) {
	for _, knots := range []float64{3, 3.25, 3.5} {
		bare := &towline.Setup{Sea: sample.Sea(knots), Rod: sample.Rod(200, 5, 0)}
		for at := 100.0; at < 200; at += 10 {
			if gain := feet(bare, at+10) - feet(bare, at); gain < 0.9 || gain > 1.35 {
				t.Errorf("%v kn, %v ft out: 10 ft more bring %.2f ft", knots, at, gain)
			}
		}
		for _, lineOut := range []float64{100, 150, 200} {
			before := feet(bare, lineOut)
			none := before
			for ounces := 4.0; ounces <= 20; ounces += 4 {
				depth := feet(&towline.Setup{Sea: sample.Sea(knots), Rod: sample.Rod(lineOut, 5, ounces)}, lineOut)
				if gain := depth - before; gain < 4 || gain > 10 {
					t.Errorf("%v kn, %v ft out: the step to %v oz brings %.2f ft", knots, lineOut, ounces, gain)
				}
				before = depth
			}
			if mean := (before - none) / 5; mean < 4 || mean > 9 {
				t.Errorf("%v kn, %v ft out: 4 oz bring %.2f ft on average", knots, lineOut, mean)
			}
		}
	}
}

// Sensitivities of the reference outfit computed outside this project (with Sucker and Brauer's drag instead of
// White's, so only to a fifth): 8 oz, 200 ft, 3.25 kn, no line in the air.
func TestSensitivities(t *testing.T) {
	base := feet(&towline.Setup{Sea: sample.Sea(3.25), Rod: sample.Rod(200, 0, 8)}, 200)
	expect.Near(t, "depth", base, 46.64, 0.03)
	for knots, want := range map[float64]float64{2.5: 16.16, 3.0: 4.35, 3.5: -3.62, 4: -9.29} {
		expect.Near(t, "change with speed", feet(&towline.Setup{Sea: sample.Sea(knots), Rod: sample.Rod(200, 0, 8)}, 200)-base, want, 0.2)
	}
	thin, thick := sample.Rod(200, 0, 8), sample.Rod(200, 0, 8)
	thin.Rig.Wire.Diameter, thick.Rig.Wire.Diameter = 0.015*unit.Inch, 0.025*unit.Inch
	if feet(&towline.Setup{Sea: sample.Sea(3.25), Rod: thin}, 200) <= base || feet(&towline.Setup{Sea: sample.Sea(3.25), Rod: thick}, 200) >= base {
		t.Error("with a weight on, thinner wire must run deeper and thicker shallower")
	}
	bare := feet(&towline.Setup{Sea: sample.Sea(3.25), Rod: sample.Rod(200, 0, 0)}, 200)
	thin.Rig.Drails, thick.Rig.Drails = nil, nil
	if feet(&towline.Setup{Sea: sample.Sea(3.25), Rod: thin}, 200) >= bare || feet(&towline.Setup{Sea: sample.Sea(3.25), Rod: thick}, 200) <= bare {
		t.Error("without a weight, thinner wire must run shallower and thicker deeper")
	}
}

// Why riggers fish deeper: a tip 2 m up takes about 15 m of line out of the sea at the flat angle of wire under way.
func TestHighTipTakesLineOutOfTheSea(t *testing.T) {
	q := Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: sample.Sea(3.25), Wanted: Wanted{Low: 1, High: 3}, Rods: []towline.Rod{sample.Rod(200, 2/unit.Foot, 0), sample.Rod(200, 2, 0)}}
	a, err := SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	high, low := a.Rods[0], a.Rods[1]
	if l := high.Tip.AirLength; l < 12 || l > 18 {
		t.Errorf("%.1f m in the air, want about 15", l)
	}
	if low.Depth.Mid <= high.Depth.Mid {
		t.Error("the lower tip must fish deeper")
	}
}
