package chill

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/fish"
	"wirewake/calc/stat"
)

// Flesh. Diffusivity from Choi and Okos' formulas at 79 % water (from memory), conductivity from Earle, Unit Operations
// in Food Processing, app. 7; the spreads, of the logarithm, take in the published 1.2 to 1.45e-7 m²/s.
const (
	diffusivity       = 1.33e-7 // m²/s
	diffusivitySpread = 0.06
	conductivity      = 0.50 // W/(m·K)
)

// Section of a fish: depth over breadth of the body where it is thickest (from memory; measure yours), with one
// standard deviation.
const (
	deepness       = 1.5
	deepnessSpread = 0.2
)

// Spreads of the logarithm: of a girth that was measured, and of the time that the model tells. A fish is no infinite
// bar; tuna of 35 kg are reported (Davey 2015) to cool as if a fifth thinner than they are.
const (
	girthSpread = 0.02
	modelSpread = 0.15
)

// film is the heat transfer to the bath, W/(m²·K), with the spread of its logarithm: judged within the 16 to 300
// measured on salmon in tanks of chilled sea water, 112 to 139 in industrial ones, above 200 in strong flow only
// (SINTEF and NTNU at ICR 2019).
func (s Stir) film() (film, spread float64) {
	switch s {
	case Packed:
		return 50, 0.45
	case Stirred:
		return 150, 0.3
	default:
		return 80, 0.4
	}
}

// body is an infinite bar of elliptic section in a bath.
type body struct {
	girth, deepness, film, diffusivity float64
}

// cooled is a body with its series.
type cooled struct {
	slab, cylinder series
	round          float64 // share of the cylinder
	pace           float64 // Fourier number for each second
}

// cooling of the body's centre, as the slab and the cylinder that are as thick as the section is broad have it: the
// logarithm lies between theirs by the square of breadth over depth, as the slowest rate of an ellipse nearly does.
func (b *body) cooling() cooled {
	// Ramanujan's perimeter of an ellipse.
	e := b.deepness
	half := b.girth / (math.Pi * (3*(e+1) - math.Sqrt((3*e+1)*(e+3))))
	biot := b.film * half / conductivity
	return cooled{slab(biot), cylinder(biot), 1 / (e * e), b.diffusivity / (half * half)}
}

// at is the share of the difference in temperature that is left at a time.
func (c *cooled) at(time float64) float64 {
	fourier := c.pace * time
	return math.Pow(c.slab.at(fourier), 1-c.round) * math.Pow(c.cylinder.at(fourier), c.round)
}

// until is the time at which so much of the difference is left.
func (c *cooled) until(share float64) float64 {
	if share >= 1 {
		return 0
	}
	end := 1.
	for c.at(end) > share {
		end *= 2
	}
	return stat.Root(func(t float64) float64 { return c.at(t) - share }, end/2, end, 0.1)
}

// Limits, and where they are from. Both were written for fish in which histamine forms, which striped bass is not; they
// serve as yardsticks. The first bounds when a fish must lie in ice, by the shorter of two sources; the second is about
// the ice or water it lies in, and is held here against the thickest part of the fish, which asks more.
const (
	icedWithin     = 9 * hour
	icedWithinWarm = 6 * hour
	warm           = 28. // °C
	chilledTo      = 4.5
	chilledWithin  = 12 * hour

	chilledSource = "FAO Fisheries and Aquaculture Technical Paper 444, p. 65"
	icedSource    = chilledSource + "; FDA, Fish and Fishery Products Hazards and Controls, ch. 7, from memory"
)

// ToCool estimates how the thickest part of a fish cools. Errors are codec.Problems.
func ToCool(q Cooling) (CoolingAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return CoolingAnswer{}, err
	}
	girth, spread := q.Girth, girthSpread
	switch {
	case girth > 0 && girth < 0.05:
		return CoolingAnswer{}, codec.Fault("girth", "girthLimits", "must be 0 or from 0.05 to 2 m")
	case girth > 0:
	case q.Length == 0:
		return CoolingAnswer{}, codec.Fault("girth", "noGirth", "must be given, or the length")
	case q.Length < 0.15:
		return CoolingAnswer{}, codec.Fault("length", "lengthLimits", "must be 0 or from 0.15 to 2 m")
	default:
		girth, spread = fish.Girth(q.Length)
	}
	if q.Temperature <= q.Bath {
		return CoolingAnswer{}, codec.Fault("temperature", "colderThanBath", "must be above that of the bath")
	}
	e := newEstimate(&q, girth, spread)
	a := CoolingAnswer{Girth: girth, Chilled: Reach{chilledTo, e.reaches(chilledTo)}}
	a.Limits = q.limits(a.Chilled.Time)
	for _, target := range q.Targets {
		a.Reaches = append(a.Reaches, Reach{target, e.reaches(target)})
	}
	const marks, last = 30, 0.03
	end := e.all[0].until(last)
	for i := range marks + 1 {
		t := end * float64(i) / marks
		a.Curve = append(a.Curve, Mark{t, q.Bath + (q.Temperature-q.Bath)*e.all[0].at(t)})
	}
	return a, nil
}

// estimate is a fish as it is taken to be, and with each input off by one standard deviation.
type estimate struct {
	from, bath float64
	all        [5]cooled
}

func newEstimate(q *Cooling, girth, girthSpread float64) *estimate {
	film, filmSpread := q.Stir.film()
	b := body{girth, deepness, film, diffusivity}
	e := estimate{from: q.Temperature, bath: q.Bath}
	for i := range e.all {
		off := b
		switch i {
		case 1:
			off.girth *= math.Exp(girthSpread)
		case 2:
			off.deepness += deepnessSpread
		case 3:
			off.film *= math.Exp(filmSpread)
		case 4:
			off.diffusivity *= math.Exp(diffusivitySpread)
		}
		e.all[i] = off.cooling()
	}
	return &e
}

// reaches is when the thickest part gets to a temperature; nil when it never does.
func (e *estimate) reaches(target float64) *Interval {
	share := (target - e.bath) / (e.from - e.bath)
	if share <= 0 {
		return nil
	}
	mid := e.all[0].until(share)
	if mid == 0 {
		return &Interval{}
	}
	squares := modelSpread * modelSpread
	for i := range e.all[1:] {
		log := math.Log(e.all[i+1].until(share) / mid)
		squares += log * log
	}
	f := math.Exp(stat.Z90 * math.Sqrt(squares))
	return &Interval{mid / f, mid, mid * f}
}

// limits holds the published limits against the fish, which is chilled at a time in the bath; nil when it never is.
func (q *Cooling) limits(cold *Interval) []Limit {
	iced := Limit{Iced, icedWithin, Kept, icedSource}
	if q.Temperature > warm {
		iced.Within = icedWithinWarm
	}
	// A bath that is warmer than a fish is to be is no ice.
	if q.Dead > iced.Within || q.Bath > chilledTo {
		iced.Verdict = Missed
	}
	chilled := Limit{Chilled, chilledWithin, Kept, chilledSource}
	switch {
	case cold == nil || q.Dead+cold.Low > chilledWithin:
		chilled.Verdict = Missed
	case q.Dead+cold.High > chilledWithin:
		chilled.Verdict = Perhaps
	}
	return []Limit{iced, chilled}
}
