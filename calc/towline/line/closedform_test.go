package line

import (
	"math"
	"testing"

	"wirewake/calc/expect"
)

// one is a single section with a body, nothing in the air.
func one(speed float64, s Section) Tow {
	s.Name = "line"
	if s.Strum == 0 {
		s.Strum = 1
	}
	return Tow{
		Sea:      Sea{Water: Water{Density: 1025, Viscosity: 1.19e-6}, Speed: speed},
		Sections: []Section{s}, CurvePoints: 50,
	}
}

func solved(t *testing.T, tow Tow) TowAnswer {
	t.Helper()
	a, err := Solve(tow)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Critical angle of a bare line, cos φ = √(1 + k²/4) − k/2 with k = w/R (normal drag R sin² φ, R = ½ρ·Cn·d·V²); the
// angles were computed from it outside this project.
func TestCriticalAngle(t *testing.T) {
	for k, degrees := range map[float64]float64{
		.001: 1.81170, .005: 4.04973, .01: 5.72479, .02: 8.08928, .05: 12.75775, .1: 17.96424,
		.2: 25.17839, .5: 38.66828, 1: 51.82729, 2: 65.53020, 5: 78.89647,
	} {
		const speed, d, cn = 1.6, 0.0005, 1.4
		r := 0.5 * 1025 * cn * d * speed * speed
		// No body at all: the line finds the angle from its first metre.
		a := solved(t, one(speed, Section{Length: 50, Diameter: d, Weight: k * r, Cn: cn, Ct: 0.006}))
		expect.Near(t, "angle at the top for a bare line", a.Sections[0].AngleTop*180/math.Pi, degrees, 1e-5)
		expect.Near(t, "depth of a bare line", a.Sections[0].Depth, 50*math.Sin(degrees*math.Pi/180), 1e-5)
	}
}

// A weightless line without friction in a normal stream: tension constant, cot φ = cot φ0 + R·s/T,
// z = (T/R)·ln(tan(φ0/2)/tan(φ/2)), x = (T/R)·(csc φ − csc φ0). Textbook; derived from the equations of equilibrium.
func TestWeightlessLine(t *testing.T) {
	for _, c := range []struct{ speed, d, cn, w, area, length float64 }{
		{1.6, .000508, 1.4, 3, .001, 30}, {2.5, .001, 1.1, 10, .0005, 100}, {0.6, .0004, 1.8, 0.5, .002, 60},
	} {
		q := 0.5 * 1025 * c.speed * c.speed
		r := q * c.cn * c.d
		tension := math.Hypot(c.w, q*c.area)
		phi0 := math.Atan2(c.w, q*c.area)
		phi := math.Atan(1 / (1/math.Tan(phi0) + r*c.length/tension))
		a := solved(t, one(c.speed, Section{Length: c.length, Diameter: c.d, Cn: c.cn, End: Body{Weight: c.w, DragArea: c.area}}))
		s := a.Sections[0]
		expect.Near(t, "tension", s.TensionTop, tension, 1e-7)
		expect.Near(t, "angle", s.AngleTop, phi, 1e-7)
		expect.Near(t, "depth", s.Depth, tension/r*math.Log(math.Tan(phi0/2)/math.Tan(phi/2)), 1e-7)
		expect.Near(t, "astern", s.Astern, tension/r*(1/math.Sin(phi)-1/math.Sin(phi0)), 1e-7)
	}
}

// A heavy line without friction (exact, by quadrature of dT/dφ): with c = cos φ, c1 = cos φc, c2 = −1/c1 and
// p = (1−c1²)/(1+c1²), T/T0 = [(c−c2)(c0−c1)/((c−c1)(c0−c2))]^p; and T − T0 = w·z whatever Cn is.
func TestHeavyLineWithoutFriction(t *testing.T) {
	const speed, d, cn = 1.6, 0.000508, 1.4
	r := 0.5 * 1025 * cn * d * speed * speed
	for _, k := range []float64{0.01, 0.1, 1} {
		w := k * r
		a := solved(t, one(speed, Section{Length: 40, Diameter: d, Weight: w, Cn: cn, End: Body{Weight: 3, DragArea: 1e-4}}))
		s := a.Sections[0]
		c1 := math.Sqrt(1+k*k/4) - k/2
		c2, p := -1/c1, (1-c1*c1)/(1+c1*c1)
		c0, c := math.Cos(s.AngleLow), math.Cos(s.AngleTop)
		expect.Near(t, "tension ratio", s.TensionTop/s.TensionLow, math.Pow((c-c2)*(c0-c1)/((c-c1)*(c0-c2)), p), 1e-6)
		expect.Near(t, "gain of tension", s.TensionTop-s.TensionLow, w*s.Depth, 1e-6)
	}
}

// A line that comes to run level and then down towards the boat, as one that floats does, and one whose lower end leads
// ahead: drag and friction turn round with it. With f and k friction and weight over the normal drag, from the equations of
// equilibrium d(ln T)/dφ = (f·|cos φ|·cos φ + k·sin φ)/(k·cos φ − |sin φ|·sin φ), integrated by Simpson's rule.
func TestLineThatTurnsRound(t *testing.T) {
	const cn, ct = 1.4, 0.006
	for _, c := range []struct {
		speed, d, k, l float64
		end            Body
		from           func(low, top float64) bool
	}{
		{0.5, 0.02, -0.5, 24, Body{Weight: 40, DragArea: 0.3}, func(low, top float64) bool { return low > 0 && top < 0 }},
		{1.6, 0.000508, 0.1, 15, Body{Weight: 3, DragArea: 1e-4, PullAft: -2}, func(low, top float64) bool { return low > math.Pi/2 && top < math.Pi/2 }},
	} {
		r := 0.5 * 1025 * cn * c.d * c.speed * c.speed
		s := solved(t, one(c.speed, Section{Length: c.l, Diameter: c.d, Weight: c.k * r, Cn: cn, Ct: ct, End: c.end})).Sections[0]
		if !c.from(s.AngleLow, s.AngleTop) {
			t.Fatalf("from %v to %v", s.AngleLow, s.AngleTop)
		}
		const n = 20_000
		sum, by := 0., (s.AngleTop-s.AngleLow)/n
		for i := range n + 1 {
			sin, cos := math.Sincos(s.AngleLow + by*float64(i))
			weight := []float64{2, 4}[i%2]
			if i == 0 || i == n {
				weight = 1
			}
			sum += weight * (math.Pi*ct/cn*math.Abs(cos)*cos + c.k*sin) / (c.k*cos - math.Abs(sin)*sin)
		}
		expect.Near(t, "tension ratio", s.TensionTop/s.TensionLow, math.Exp(sum*by/3), 1e-6)
	}
}

// The first integral: T_top − T_low = w·z + ∫ F_t ds, with F_t the friction, holds whatever the normal drag is. Here
// with White's curve, and the integral by Simpson's rule over the curve in the answer.
func TestFirstIntegral(t *testing.T) {
	const speed, d, w, ct = 1.6, 0.000508, 0.0137, 0.006
	tow := one(speed, Section{Length: 60, Diameter: d, Weight: w, Ct: ct, End: Body{Weight: 2, DragArea: 5e-4}})
	tow.CurvePoints = 200
	s := solved(t, tow).Sections[0]
	friction := 0.0
	x, z := s.CurveAstern, s.CurveDepth
	for i := 1; i < len(x); i++ {
		dx, dz := x[i]-x[i-1], z[i]-z[i-1]
		c := dx / math.Hypot(dx, dz)
		friction += 0.5 * 1025 * math.Pi * d * ct * speed * speed * c * c * 60 / 199
	}
	expect.Near(t, "gain of tension", s.TensionTop-s.TensionLow, w*s.Depth+friction, 1e-4)
}

// Without a stream the line is a catenary: with H constant, V0 and V1 = V0 + w·L, z = (T1−T0)/w and
// x = (H/w)·(asinh(V1/H) − asinh(V0/H)) (textbook).
func TestCatenaryAtRest(t *testing.T) {
	for _, c := range []struct{ h, v, w, l float64 }{{.5, .4, .013725, 60.96}, {2, 0, .5, 20}, {0.01, 1, .02, 100}} {
		a := solved(t, one(0, Section{Length: c.l, Diameter: .0005, Weight: c.w, Ct: .006, End: Body{Weight: c.v, PullAft: c.h}}))
		v1 := c.v + c.w*c.l
		expect.Near(t, "depth", a.Sections[0].Depth, (math.Hypot(c.h, v1)-math.Hypot(c.h, c.v))/c.w, 1e-6)
		expect.Near(t, "astern", a.Sections[0].Astern, c.h/c.w*(math.Asinh(v1/c.h)-math.Asinh(c.v/c.h)), 1e-6)
	}
}

// The part in the air is a catenary too, in closed form from the state at the water line.
func TestLineInTheAir(t *testing.T) {
	const tip, d, density = 2.0, 0.000508, 7930.0
	tow := one(1.6, Section{
		Length: 70, Diameter: d, Weight: (density - 1025) * Gravity * math.Pi / 4 * d * d, Ct: .006,
		End: Body{Weight: 1.2, DragArea: .001},
	})
	tow.TipHeight = tip
	a := solved(t, tow)
	w := density * Gravity * math.Pi / 4 * d * d
	entry := a.Tip.Tension - w*tip // along a catenary tension grows by w for each metre of height
	h := entry * math.Cos(a.Tip.EntryAngle)
	v0, v1 := entry*math.Sin(a.Tip.EntryAngle), a.Tip.Tension*math.Sin(a.Tip.Angle)
	expect.Near(t, "horizontal pull", a.Tip.Tension*math.Cos(a.Tip.Angle), h, 1e-7)
	expect.Near(t, "length in air", a.Tip.AirLength, (v1-v0)/w, 1e-6)
	expect.Near(t, "entry astern", a.Tip.EntryAstern, h/w*(math.Asinh(v1/h)-math.Asinh(v0/h)), 1e-6)

	// The same line cut off at the water, without the part in the air, lies just as deep.
	short := tow
	short.Sections = append([]Section{}, tow.Sections...)
	short.Sections[0].Length -= a.Tip.AirLength
	short.TipHeight = 0
	expect.Near(t, "depth", a.Sections[0].Depth, solved(t, short).Sections[0].Depth, 1e-7)
}

// Laws of scale that any force model of this kind obeys: with fixed coefficients, four times the weights at twice the
// speed is the same shape at four times the tension.
func TestSpeedAndWeightScale(t *testing.T) {
	at := func(f float64) TowAnswer {
		return solved(t, one(1.5*f, Section{
			Length: 50, Diameter: .0005, Weight: .01 * f * f, Cn: 1.4, Ct: .006, End: Body{Weight: 1 * f * f, DragArea: .001},
		}))
	}
	a, b := at(1), at(2)
	expect.Near(t, "depth", b.Sections[0].Depth, a.Sections[0].Depth, 1e-7)
	expect.Near(t, "tension", b.Tip.Tension, 4*a.Tip.Tension, 1e-7)
}

// A line cut in two and tied again is the same line.
func TestJoiningChangesNothing(t *testing.T) {
	whole := one(1.6, Section{Length: 50, Diameter: .0005, Weight: .01, Ct: .006, End: Body{Weight: 1, DragArea: .001}})
	cut := whole
	upper, lower := whole.Sections[0], whole.Sections[0]
	upper.Name, upper.Length, upper.End = "upper", 30, Body{}
	lower.Length, lower.On = 20, "upper"
	cut.Sections = []Section{upper, lower}
	expect.Near(t, "depth", solved(t, cut).Sections[1].Depth, solved(t, whole).Sections[0].Depth, 1e-7)
}
