package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// A current that was found is less sure the older it is, as the tide turns: in a time t a tidal stream a·cos(ωt + φ) of
// unknown phase changes by a mean square of a²·(1 − cos ωt), half of which is put in each direction; after a quarter of
// a tide it stays at the most. Where there is a prediction, the error that it had when the current was found fades in
// this way, and what is left of that error is added to the prediction of now.
const (
	lunar   = 28.9841042 / 3600 * math.Pi / 180 // ω of the principal lunar tide M2, rad/s
	tideway = 0.75                              // a, m/s: a judgement for waters where one trolls
)

// How far a prediction is to be believed: judgements. One in eight is taken to be off by three times what it says, so that
// all are by half as much again in the tails as the normal distribution; and what it was off by when a current was found
// tells how good it is, with the weight that four times as much experience of it has.
const (
	tails    = 1.15
	observed = 4.
)

// kept is the share of an error that is left after a time, as its correlation.
func kept(age float64) float64 { return math.Cos(math.Min(lunar*age, math.Pi/2)) }

// now is the current with its covariance.
func (c *Current) now() (current vec, of spread) {
	aged := tideway * tideway * (1 - kept(c.Age)) / 2
	current, of = c.found()
	return current, spread{of.ee + aged, of.en, of.nn + aged}
}

// found is the current at the time that it was found, with its covariance.
func (c *Current) found() (current vec, of spread) {
	return polar(c.Drift, c.Set), spread{
		c.DoubtEast * c.DoubtEast,
		c.Tied * c.DoubtEast * c.DoubtNorth,
		c.DoubtNorth * c.DoubtNorth,
	}
}

// weigh is the current of now from the one that was found and the one that is predicted, either or both of which may not
// be known, and the share that the found one has in it.
func weigh(c *Current, p *Predicted) (current vec, of spread, share float64) {
	switch {
	case p == nil && c == nil:
		current, of = (&Current{Age: math.Inf(1)}).now()
		return current, of, 0
	case p == nil:
		current, of = c.now()
		return current, of, 1
	}
	current = polar(p.Drift, p.Set)
	square := tails * tails * p.Doubt * p.Doubt
	if c == nil || p.Then == nil {
		return current, spread{square, 0, square}, 0
	}
	measured, in := c.found()
	off := measured.minus(polar(p.Then.Drift, p.Then.Set))
	// As an inverse gamma prior of the prediction's variance takes in two components of what it was off by.
	excess := math.Max(0, off.dot(off)-in.ee-in.nn)
	square = (observed*square + excess) / (observed + 2)
	// Simple kriging with one observation: both directions have the same prior.
	left := kept(c.Age)
	ee, nn := square+in.ee, square+in.nn
	scale := square / (ee*nn - in.en*in.en)
	gain := spread{scale * nn, -scale * in.en, scale * ee}
	current = current.plus(gain.times(off).times(left))
	lost := left * left * square
	return current, spread{square - lost*gain.ee, -lost * gain.en, square - lost*gain.nn}, left * (gain.ee + gain.nn) / 2
}

// ToKnow is the current as it is known now. Errors are codec.Problems.
func ToKnow(q Known) (KnownAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return KnownAnswer{}, err
	}
	current, of, share := weigh(q.Current, q.Predicted)
	a := KnownAnswer{From: from(q.Current, q.Predicted, share), Share: share}
	east, north := math.Sqrt(of.ee), math.Sqrt(of.nn)
	a.Current = Current{Set: current.bearing(), Drift: current.speed(), DoubtEast: east, DoubtNorth: north, Tied: of.en / math.Max(east*north, math.SmallestNonzeroFloat64)}
	a.Within = stat.Z90 * math.Max(east, north)
	if q.Current != nil {
		// It is stale once less than half of it is left.
		a.Fresh = math.Max(0, math.Pi/3/lunar-q.Current.Age)
	}
	return a, nil
}

// from says where a current is known from, by the share of what was found in it.
func from(c *Current, p *Predicted, share float64) From {
	switch {
	case share >= mostly:
		return FromFound
	case share > 1-mostly:
		return FromBoth
	case p != nil:
		return FromPredicted
	case c != nil:
		return FromFound
	}
	return FromNeither
}

// mostly is the share from which what is known is from one of the two.
const mostly = 0.8
