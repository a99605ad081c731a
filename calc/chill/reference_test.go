package chill

import (
	"math"
	"testing"

	"wirewake/calc/stat"
)

// kcal in J, thermochemical, as the FAO papers count.
const kcal = 4184.

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= relative) {
		t.Errorf("%s: %.6g, want %.6g within %.1f %%", what, got, want, 100*relative)
	}
}

// tight lets next to nothing in, and packs in ice alone.
func tight(fish ...Batch) IceQuery {
	return IceQuery{
		Box:  Box{Length: 1, Width: 1, Height: 1, Wall: 0.1, Material: Polyurethane, U: 1e-6},
		Fish: fish, Sea: 20, Ice: Flake, Air: 20, Hold: hour,
	}
}

func ice(t *testing.T, q IceQuery) IceAnswer {
	t.Helper()
	a, err := ToIce(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// FAO Fisheries Technical Paper 331, ch. 3, eq. 4: mass of ice × 80 = mass of fish × 0.8 × the fall of temperature, in
// kcal, with 0.8 for lean fish as a round number. The UNU-FTP course (slides on chilling) has 0.88 for lean and 0.83 for
// semi-fat fish, and 3.0 and 3.2 kg of fish that 1 kg of ice cools from 30 to 0 °C. Matís, kaeligatt.is: 0.0114 kg of
// ice for each kg of fish and °C.
func TestIceForFish(t *testing.T) {
	load := ice(t, tight(Batch{Mass: 10, Temperature: 30})).Need.Mid
	near(t, "eq. 4", load, 10*0.8*30/80, 0.11)
	near(t, "eq. 4 with 0.88", load, 10*0.88*30/80, 0.01)
	near(t, "lean fish", 10/load, 3.0, 0.03)
	near(t, "semi-fat fish", 10/load, 3.2, 0.06)
	near(t, "Matís", load, 0.0114*10*30, 0.04)
}

// Davey 2012 (J. Food Sci., doi 10.1111/j.1750-3841.2012.02963.x): 1 kg of ice for 3.5 kg of tuna from 28 to 5 °C, aboard,
// so with what walls and water take; the fish's own heat is less than that, and most of it.
func TestIceForTuna(t *testing.T) {
	own := fishHeat * 23 / melting // kg of ice for 1 kg of fish
	if ratio := own * 3.5; ratio > 1 || ratio < 0.8 {
		t.Errorf("the fish's own heat takes %.2f of the ice", ratio)
	}
}

// FAO Fisheries Technical Paper 340, ch. 19, table 31: enthalpy of lean fish in kcal/kg. Flesh begins to freeze at about
// −1 °C and is frozen by 55 % at −2.2 °C.
func TestFishEnthalpy(t *testing.T) {
	for _, row := range [][2]float64{{10, 85.89}, {20, 94.65}, {24, 98.17}, {28, 101.69}} {
		near(t, "table 31", fishHeat*row[0], (row[1]-77.16)*kcal, 0.015)
	}
	near(t, "frozen at −2.2 °C", frozen(-2.2), 0.55, 0.02)
	if frozen(-0.99) != 0 || frozen(-1.01) <= 0 {
		t.Error("flesh begins to freeze elsewhere than at −1 °C")
	}
}

// FAO Fisheries Technical Paper 331, ch. 12, in kcal: ice and water, sea water at 0 and 20 °C. Melting of sea ice 77 to 80.
func TestProperties(t *testing.T) {
	near(t, "melting", melting, 80*kcal, 0.005)
	near(t, "water", waterHeat, kcal, 0.005)
	near(t, "ice", iceHeat, 0.49*kcal, 0.005)
	near(t, "sea water", seaHeat, 0.94*kcal, 0.02)
}

// Equilibrium of ice at 0 °C, sea water and fish, computed elsewhere (in Python, by bisection of the same balance with a
// specific heat of fish of 3680): kg and salinity of sea water, kg of ice and of fish, all at 20 °C; melted, salinity and
// temperature.
func TestSlushComputedElsewhere(t *testing.T) {
	for _, c := range []struct{ ice, sea, salinity, fish, melted, salt, temperature float64 }{
		{10, 10, 35, 0, 2.69, 27.6, -1.50},
		{20, 10, 30, 10, 5.01, 20.0, -1.08},
		{20, 20, 30, 10, 7.60, 21.7, -1.18},
	} {
		s := slush{sea: c.sea, salinity: c.salinity, heat: c.sea * seaHeat * 20}
		s.addIce(c.ice)
		s.addFish(Batch{Mass: c.fish, Temperature: 20})
		melted, temperature := s.settle()
		salinity, _ := s.brine(melted)
		if math.Abs(melted-c.melted) > 0.015 || math.Abs(salinity-c.salt) > 0.1 || math.Abs(temperature-c.temperature) > 0.006 {
			t.Errorf("%+v: melted %.3f, salinity %.2f, %.3f °C", c, melted, salinity, temperature)
		}
	}
}

// Glossary of FAO papers: chilled sea water, one part to two or three of fish, keeps about −1 °C without freezing them.
func TestChilledSeaWater(t *testing.T) {
	for _, parts := range []float64{2, 3} {
		q := tight(Batch{Mass: 90, Temperature: 18})
		q.Salinity, q.Sea, q.Aboard = 34, 18, 40
		q.Mix = 90 / parts / q.Aboard
		if end := ice(t, q).Curve; math.Abs(end[len(end)-1].Temperature+1) > 0.2 {
			t.Errorf("1:%v: %.2f °C", parts, end[len(end)-1].Temperature)
		}
	}
}

// FAO Fisheries Technical Paper 436, ch. 7.1: ice melts in kg/(h·°C) at U·A/L, U in kcal/(m²·h·°C), L 80 kcal/kg. The box
// of 1 m has 6 m².
func TestMeltRate(t *testing.T) {
	q := tight()
	q.Box.U, q.Box.Mass, q.Air, q.Hold, q.Aboard = 0.5*kcal/3600, 0, 25, 10*hour, 100
	a := ice(t, q)
	melted := a.Curve[0].Ice - a.Curve[len(a.Curve)-1].Ice
	near(t, "melt rate", melted/(10*25), 0.5*6/80, 0.005)
}

// Holman, Heat Transfer, example 3-2 (from memory): a furnace of 50 cm inside with walls of 10 cm of fireclay brick,
// 1.04 W/(m·°C), passes 8.592 m × 1.04 W/(m·°C).
func TestShapeFactor(t *testing.T) {
	b := Box{Length: 0.5, Width: 0.5, Height: 0.5, Wall: 0.1}
	// His faces are 0.25 m² / 0.1 m, edges 0.27 m, corners 0.015 m each.
	near(t, "shape factor", b.shape(), 6*2.5+12*0.27+8*0.015, 1e-9)
}

// Çengel, Heat and Mass Transfer, table 4-2: first root and weight of the series; the last rows, of a surface that is
// as cold as the bath, are textbook limits (from memory).
func TestFirstTerms(t *testing.T) {
	for _, c := range []struct{ biot, slabRoot, slabWeight, cylinderRoot, cylinderWeight, within float64 }{
		{0.1, 0.3111, 1.0161, 0.4417, 1.0246, 1e-4},
		{1, 0.8603, 1.1191, 1.2558, 1.2071, 1e-4},
		{10, 1.4289, 1.2620, 2.1795, 1.5677, 1e-4},
		{1e7, 1.5708, 1.2732, 2.4048, 1.6020, 1e-4},
	} {
		s, r := slab(c.biot), cylinder(c.biot)
		for what, v := range map[string][2]float64{
			"slab root": {math.Sqrt(s.rate[0]), c.slabRoot}, "slab weight": {s.weight[0], c.slabWeight},
			"cylinder root": {math.Sqrt(r.rate[0]), c.cylinderRoot}, "cylinder weight": {r.weight[0], c.cylinderWeight},
		} {
			if math.Abs(v[0]-v[1]) > c.within {
				t.Errorf("Bi %v, %s: %.5f, want %.4f", c.biot, what, v[0], v[1])
			}
		}
	}
}

// The centre with a surface as cold as the bath, summed elsewhere. And of Yovanovich: above Fo 0.24 the first term alone
// is within 1 %.
func TestCentre(t *testing.T) {
	for _, c := range []struct{ fourier, slab, cylinder float64 }{
		{0.2, 0.77231, 0.50149}, {0.4, 0.47449, 0.15849}, {1, 0.10798, 0.00493},
	} {
		s, r := slab(1e9), cylinder(1e9)
		if math.Abs(s.at(c.fourier)-c.slab) > 1e-5 || math.Abs(r.at(c.fourier)-c.cylinder) > 1e-5 {
			t.Errorf("Fo %v: slab %.5f, cylinder %.5f; want %+v", c.fourier, s.at(c.fourier), r.at(c.fourier), c)
		}
	}
	for _, biot := range []float64{0.1, 1, 10, 1e3} {
		for _, s := range []series{slab(biot), cylinder(biot)} {
			near(t, "first term", s.weight[0]*math.Exp(-s.rate[0]*0.24), s.at(0.24), 0.01)
		}
	}
}

// The Bessel functions of package math, which are the C library's.
func TestBessel(t *testing.T) {
	for x := 0.; x < 60; x += 0.37 {
		if math.Abs(bessel(0, x)-math.J0(x)) > 1e-12 || math.Abs(bessel(1, x)-math.J1(x)) > 1e-12 {
			t.Errorf("J(%v): %v %v, want %v %v", x, bessel(0, x), bessel(1, x), math.J0(x), math.J1(x))
		}
	}
}

// Davey 2015 (LWT, abstract): the centre of a tuna of 35 kg from 28 to 5 °C takes 10.23 h in slurry of 0 °C, 12.27 h at
// 2 °C. The ratio needs no size. The girth is not told; with 0.85 m, from memory, the
// published time lies in the band.
func TestTuna(t *testing.T) {
	cold, warmer := body{0.85, 1, 1e6, diffusivity}, body{0.85, 1, 1e6, diffusivity}
	c, w := cold.cooling(), warmer.cooling()
	near(t, "0 and 2 °C", w.until(3./26)/c.until(5./28), 12.27/10.23, 0.001)

	q := Cooling{Girth: 0.85, Temperature: 28, Stir: Stirred, Targets: []float64{5}}
	a, err := ToCool(q)
	if err != nil {
		t.Fatal(err)
	}
	if r := a.Reaches[0].Time; r.Low > 10.23*hour || r.High < 10.23*hour {
		t.Errorf("%.2f to %.2f h do not hold 10.23 h", r.Low/hour, r.High/hour)
	}
}

// Cylinders by girth (standard mass of a striped bass, trade's formula with a fork length of 0.93), 20 to 4.4 °C in water
// of 0 °C, computed elsewhere: hours for films of 50, 125 and 250 W/(m²·K).
func TestCylindersComputedElsewhere(t *testing.T) {
	for _, c := range []struct {
		pounds, inches float64
		hours          [3]float64
	}{
		{10, 28.1, [3]float64{4.6, 3.9, 3.8}}, {20, 35.4, [3]float64{6.9, 6.1, 5.9}},
		{30, 40.5, [3]float64{8.9, 8.0, 7.7}}, {50, 48.1, [3]float64{12.1, 11.1, 10.7}},
	} {
		girth := math.Sqrt(800*c.pounds/(0.93*c.inches)) * 0.0254
		for i, film := range []float64{50, 125, 250} {
			b := body{girth, 1, film, diffusivity}
			r := b.cooling()
			near(t, "cylinder", r.until(4.4/20)/hour, c.hours[i], 0.03)
		}
	}
}

// Rate of spoiling beside 0 °C: FAO Fisheries Technical Paper 348, ch. 6 (Nixon 1971): 1, 2.25 and 4 at 0, 5 and 10 °C.
// Square-root model of DTU's spoilage predictor: 21 days at 5 °C are 47.2 at 0 °C.
func TestSpoiling(t *testing.T) {
	for _, c := range [][2]float64{{0, 1}, {5, 2.25}, {10, 4}} {
		a, err := ToKeep(History{[]Sample{{0, c[0]}, {day, c[0]}}})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "rate", a.Rate.Mid, c[1], 1e-12)
		near(t, "spent", a.Spent.Mid, c[1]*day, 1e-12)
	}
	a, _ := ToKeep(History{[]Sample{{0, 5}, {21 * day, 5}}})
	near(t, "21 days", a.Spent.Mid, 47.2*day, 0.002)
}

// FAO Fisheries Technical Paper 348, table 6.2 (from memory): life in ice, and at 5, 10 and 15 °C, in days.
func TestSpoilingTable(t *testing.T) {
	for _, row := range [][4]float64{{6, 2.7, 1.5, 1}, {10, 4.4, 2.5, 1.6}, {14, 6.2, 3.5, 2.2}, {18, 8.0, 4.5, 2.9}} {
		for i, temperature := range []float64{5, 10, 15} {
			if got := row[0] / rate(temperature, power); math.Abs(got-row[i+1]) > 0.06 {
				t.Errorf("%v days at %v °C: %.2f, want %v", row[0], temperature, got, row[i+1])
			}
		}
	}
}

// FAO Fisheries Technical Paper 348, table 6.1 (from memory): life at 0, 5 and 10 °C of cod, salmon, crab and sea bream. The
// band of the rate holds all but one of the ratios.
func TestSpoilingSpread(t *testing.T) {
	outside, squares := 0, 0.
	for _, row := range [][3]float64{{14, 6, 3}, {11.8, 8, 3}, {10.1, 5.5, 2.6}, {32, 0, 8}} {
		for i, temperature := range []float64{5, 10} {
			if row[i+1] == 0 {
				continue
			}
			a, _ := ToKeep(History{[]Sample{{0, temperature}}})
			r := row[0] / row[i+1]
			if r < a.Rate.Low || r > a.Rate.High {
				outside++
			}
			squares += math.Pow(math.Log(r)/math.Log(1+0.1*temperature)-2, 2) / 7
		}
	}
	if outside != 1 {
		t.Errorf("%d of 7 ratios outside the band", outside)
	}
	near(t, "spread of the powers about 2", powerSpread, stat.Z90*math.Sqrt(squares), 0.02)
	// The model was found for 0 to 25 °C.
	for temperature, beyond := range map[float64]bool{-0.1: true, 0: false, 25: false, 25.1: true} {
		if a, _ := ToKeep(History{[]Sample{{0, temperature}}}); a.Beyond != beyond {
			t.Errorf("%v °C beyond the model: %v", temperature, a.Beyond)
		}
	}
}
