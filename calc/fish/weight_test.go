package fish

import (
	"math"
	"testing"

	"wirewake/calc/unit"
)

const pound = 16 * unit.Ounce

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= relative) {
		t.Errorf("%s: %.6g, want %.6g within %.2f %%", what, got, want, 100*relative)
	}
}

func weigh(t *testing.T, q Measures) MeasuresAnswer {
	t.Helper()
	a, err := ToWeigh(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Standard mass by Brown and Murphy 1991 in inches and pounds, log₁₀ W = −3.358 + 3.007·log₁₀ L, from the R package FSA:
// its rounded coefficients differ from the metric ones by half a per cent.
func TestStandardMass(t *testing.T) {
	for _, c := range [][2]float64{{28, 9.85}, {31, 13.38}, {36, 20.98}, {40, 28.80}, {44, 38.36}, {48, 49.83}} {
		near(t, "by the formula", c[1], math.Pow(10, -3.358+3.007*math.Log10(c[0])), 5e-4)
		near(t, "standard mass", weigh(t, Measures{Length: c[0] * unit.Inch}).Standard/pound, c[1], 0.006)
	}
	for _, c := range [][2]float64{{10, 28.1}, {20, 35.4}, {30, 40.5}, {50, 48.1}} {
		near(t, "length of a standard mass", math.Pow(c[0]*pound/standard(1), 1/standardPower)/unit.Inch, c[1], 0.003)
	}
}

// The standard is the 75th percentile: a quarter of the spread's fish are heavier.
func TestStandardIsThe75thPercentile(t *testing.T) {
	above := 1 - 0.5*math.Erfc(-math.Log(standard(0.8)/middle(0.8))/lengthSpread/math.Sqrt2)
	near(t, "share above the standard", above, 0.25, 1e-3)
	a := weigh(t, Measures{Length: 0.8})
	if !(a.Mass.Low < a.Mass.Mid && a.Mass.Mid < a.Standard && a.Standard < a.Mass.High) {
		t.Errorf("%+v", a)
	}
}

// Length × girth² / 800 as worked out on anglers' pages, fork lengths and girths in inches: two examples, and a third whose
// page prints 106.39, an error of arithmetic. The fork is at 0.93 of the total length (from memory).
func TestTradesFormula(t *testing.T) {
	for _, c := range [][3]float64{{29, 15, 8.156}, {31, 16, 9.92}, {59, 38, 106.495}} {
		near(t, "by girth", byGirth(c[0]/0.93*unit.Inch, c[1]*unit.Inch)/pound, c[2], 1e-4)
	}
}

// Two striped bass of which length, girth and mass are published (52 × 31.5 in, 73 lb; 45.5 × 37.75 in, 70 lb): the
// formula is off by −12 and +16 %, and the bands of fish that were taped hold them.
func TestTapedFish(t *testing.T) {
	for _, c := range []struct{ length, girth, pounds, off float64 }{{52, 31.5, 73, -0.12}, {45.5, 37.75, 70, 0.16}} {
		formula := c.length * c.girth * c.girth / 800
		if math.Abs(formula/c.pounds-1-c.off) > 0.01 {
			t.Errorf("off by %.3f", formula/c.pounds-1)
		}
		if off := math.Log(formula / c.pounds); math.Abs(off) > 1.6449*girthSpread {
			t.Errorf("%v lb is outside the band of the formula", c.pounds)
		}
	}
}

// The bands by hand: 12 % at a length, 10 % of the formula with girth, both together as two independent looks.
func TestBandsByHand(t *testing.T) {
	plain, taped := weigh(t, Measures{Length: 0.8}).Mass, weigh(t, Measures{Length: 0.8, Girth: 0.45}).Mass
	near(t, "by length", plain.High/plain.Mid, math.Exp(1.6448536*0.12), 1e-6)
	near(t, "by length and girth", taped.High/taped.Mid, math.Exp(1.6448536/math.Sqrt(1/(0.12*0.12)+1/(0.10*0.10))), 1e-6)
}

// Where length and girth tell of other fish, both are doubted by as much as they part (Birge, Physical Review 40, 1932, 207): the
// band reaches what either tells.
func TestMeasuresThatContradictAreDoubted(t *testing.T) {
	a := weigh(t, Measures{Length: 0.762, Girth: 0.60})
	plain := weigh(t, Measures{Length: 0.762}).Mass.Mid
	apart := math.Log(a.ByGirth/plain) / math.Hypot(0.12, 0.10)
	if apart < 3 {
		t.Fatalf("they part by %g deviations only", apart)
	}
	near(t, "band", a.Mass.High/a.Mass.Mid, math.Exp(1.6448536*apart/math.Sqrt(1/(0.12*0.12)+1/(0.10*0.10))), 1e-6)
	if a.Mass.Low > plain || a.Mass.High < a.ByGirth {
		t.Errorf("%v holds not both %g and %g", a.Mass, plain, a.ByGirth)
	}
}

// There and back again.
func TestBothDirections(t *testing.T) {
	for length := 0.2; length < 1.6; length += 0.1 {
		a := weigh(t, Measures{Length: length})
		back := weigh(t, Measures{Mass: a.Mass.Mid})
		near(t, "length", back.Length.Mid, length, 1e-12)
		near(t, "girth", back.Girth.Mid, a.Girth.Mid, 1e-12)
		near(t, "girth of both", weigh(t, Measures{Length: length, Mass: a.Mass.Mid}).Girth.Mid, a.Girth.Mid, 1e-12)
		near(t, "mass with its girth", weigh(t, Measures{Length: length, Girth: a.Girth.Mid}).Mass.Mid, a.Mass.Mid, 1e-12)
		girth, _ := Girth(length)
		near(t, "girth alone", girth, a.Girth.Mid, 1e-12)
		// The bands belong together: a fish as heavy as the upper end is as long as the upper end of the other way.
		near(t, "upper end", weigh(t, Measures{Mass: a.Mass.High}).Length.Low, length, 1e-12)
	}
}

// Longer and fatter is heavier, and a tape narrows the band. What was given comes back as it was.
func TestMeasuresRise(t *testing.T) {
	plain, taped := weigh(t, Measures{Length: 0.9}), weigh(t, Measures{Length: 0.9, Girth: 0.5})
	if taped.Mass.High/taped.Mass.Low >= plain.Mass.High/plain.Mass.Low {
		t.Error("a girth does not narrow the band")
	}
	if weigh(t, Measures{Length: 0.91}).Mass.Mid <= plain.Mass.Mid || weigh(t, Measures{Length: 0.9, Girth: 0.51}).Mass.Mid <= taped.Mass.Mid {
		t.Error("a longer or fatter fish is not heavier")
	}
	all := weigh(t, Measures{Length: 0.9, Girth: 0.5, Mass: 8})
	for what, i := range map[string][2]any{"length": {all.Length, 0.9}, "girth": {all.Girth, 0.5}, "mass": {all.Mass, 8.}} {
		if v := i[1].(float64); i[0] != (Interval{v, v, v}) {
			t.Errorf("%s: %v", what, i[0])
		}
	}
	if plain.ByGirth != 0 {
		t.Error("a mass by girth without girth")
	}
}
