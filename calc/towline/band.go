package towline

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline/line"
)

// Offsets is how many standard deviations each input is off.
type Offsets [Inputs]float64

// The places in a deviation, in the order of Doubt.
const (
	InputSpeed = iota
	InputLineOut
	InputTipHeight
	InputLineDrag
	InputFriction
	InputLureWeight
	InputLureDrag
	InputLureLift
	InputSinkers
	Inputs
)

// CauseNames are the inputs in words, by their places.
var CauseNames = [Inputs]Cause{
	CauseSpeed, CauseLineOut, CauseTipHeight, CauseLineDrag, CauseFriction,
	CauseLureWeight, CauseLureDrag, CauseLureLift, CauseSinkers,
}

// Sizes is one standard deviation of each input.
func (d *Doubt) Sizes() Offsets {
	return Offsets{d.Speed, d.LineOut, d.TipHeight, d.LineDrag, d.Friction, d.LureWeight, d.LureDrag, d.LureLift, d.Sinkers}
}

// Node is the outer node, in standard deviations, of Gauss–Hermite quadrature with three nodes; its weight is
// 1/6 on each side and 2/3 in the middle (Abramowitz and Stegun, table 25.10, n = 3).
const Node = 1.7320508075688772

// Tail is the 95th percentile of the standard normal distribution.
const Tail = stat.Z90

// Moments gathers the central moments of a result over all causes. The result is taken as a sum of functions of
// one input each (univariate dimension reduction; Rahman and Xu, Probabilistic Engineering Mechanics 19 (2004)
// 393), the moments of each by three-point Gauss–Hermite quadrature: exact for a cubic response.
type Moments struct{ mean, variance, third float64 }

// Add takes in one cause: the results with its input down, as given and up by node, each from a base.
func (m *Moments) Add(down, mid, up float64) (variance float64) {
	mean := (down+up)/6 + mid*2/3
	a, b, c := down-mean, mid-mean, up-mean
	variance = (a*a+c*c)/6 + b*b*2/3
	m.mean += mean - mid
	m.variance += variance
	m.third += (a*a*a+c*c*c)/6 + b*b*b*2/3
	return variance
}

// Band is the 5th and the 95th percentile by the Cornish–Fisher expansion up to the square of the skewness
// (Abramowitz and Stegun 26.2.49). It always encloses mid.
func (m *Moments) Band(mid float64) (low, high float64) {
	sd := math.Sqrt(m.variance)
	if sd == 0 {
		return mid, mid
	}
	skew := math.Min(math.Max(m.third/(m.variance*sd), -1), 1) // beyond 1 the expansion is no longer monotone
	centre := mid + m.mean + sd*skew*(Tail*Tail-1)/6
	reach := sd * (Tail - skew*skew*(2*Tail*Tail*Tail-5*Tail)/36)
	return math.Min(centre-reach, mid), math.Max(centre+reach, mid)
}

// Solver finds the equilibrium of a line with its inputs off.
type Solver func(off Offsets, tol float64) (line.Lie, line.Fault)

// Bands widens the lure's depth and the curve to their 90 % bands and returns what widens the former.
func (s *Setup) Bands(solve Solver, marks []float64, depth *Band, curve *Curve) ([]CauseShare, line.Fault) {
	n := len(marks)
	all := make([]Moments, n+1) // of each mark, and last of the lure
	down, up := make([]float64, n+1), make([]float64, n+1)
	var shares []CauseShare
	for cause := range int(Inputs) {
		lower, upper := s.Way(cause, -Node), s.Way(cause, Node)
		if lower == upper {
			continue
		}
		if f := s.depths(solve, lower, marks, down); f != line.Fine {
			return nil, f
		}
		if f := s.depths(solve, upper, marks, up); f != line.Fine {
			return nil, f
		}
		for k := range n {
			all[k].Add(down[k], curve.Depth[k], up[k])
		}
		if v := all[n].Add(down[n], depth.Mid, up[n]); v > 0 {
			shares = append(shares, CauseShare{CauseNames[cause], v})
		}
	}
	depth.Low, depth.High = all[n].Band(depth.Mid)
	depth.Low = max(depth.Low, 0)
	curve.Low, curve.High = make([]float64, n), make([]float64, n)
	for k := range n {
		curve.Low[k], curve.High[k] = all[k].Band(curve.Depth[k])
	}
	for i := range shares {
		shares[i].Share /= all[n].variance
	}
	for i := range shares { // package slices would add kilobytes to what a phone loads
		for ; i > 0 && shares[i].Share > shares[i-1].Share; i-- {
			shares[i], shares[i-1] = shares[i-1], shares[i]
		}
	}
	return shares, line.Fine
}

// LureBand is the depth of the lure with its band; all zero where the line is too short to hold it under water.
func (s *Setup) LureBand() (depth Band, err error) {
	if depth.Mid = s.LureDepth(s.Rod.LineOut, line.Exact); depth.Mid == 0 {
		return depth, nil
	}
	if _, f := s.Bands(s.Settle, nil, &depth, &Curve{}); f != line.Fine {
		return Band{}, f.At("rod.lineOut")
	}
	return depth, nil
}

// depths is the depth at each mark, and last of the lure, with inputs off. The marks keep their place on the
// leader and their share of the line out. A lure brought to the surface counts as lying there.
func (s *Setup) depths(solve Solver, off Offsets, marks, depths []float64) line.Fault {
	clear(depths)
	l, f := solve(off, line.Rough)
	switch f {
	case line.Fine, line.InAir:
	case line.TooShort, line.Floats:
		return line.Fine
	default:
		return f
	}
	leader := s.Rod.Rig.LeaderLength
	stretch := (l.Length - leader) / s.Rod.LineOut
	v := l.View()
	for k, m := range marks {
		if m > leader {
			m = leader + (m-leader)*stretch
		}
		depths[k] = v.DepthOf(v.Spot(min(m, l.Length)))
	}
	depths[len(marks)] = l.Depth
	return line.Fine
}

// Above is the distance of a depth from the bottom.
func (b *Band) Above(bottom float64) Band {
	return Band{Low: bottom - b.High, Mid: bottom - b.Mid, High: bottom - b.Low}
}
