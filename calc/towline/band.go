package towline

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// deviation is how many standard deviations each input is off.
type deviation [causes]float64

// The places in a deviation, in the order of Doubt.
const (
	bySpeed = iota
	byLineOut
	byTipHeight
	byLineDrag
	byFriction
	byLureWeight
	byLureDrag
	byLureLift
	bySinkers
	causes
)

var causeNames = [causes]Cause{
	CauseSpeed, CauseLineOut, CauseTipHeight, CauseLineDrag, CauseFriction,
	CauseLureWeight, CauseLureDrag, CauseLureLift, CauseSinkers,
}

func (d *Doubt) sizes() deviation {
	return deviation{d.Speed, d.LineOut, d.TipHeight, d.LineDrag, d.Friction, d.LureWeight, d.LureDrag, d.LureLift, d.Sinkers}
}

// node is the outer node, in standard deviations, of Gauss–Hermite quadrature with three nodes; its weight is
// 1/6 on each side and 2/3 in the middle (Abramowitz and Stegun, table 25.10, n = 3).
const node = 1.7320508075688772

// tail is the 95th percentile of the standard normal distribution.
const tail = stat.Z90

// spreadOf gathers the central moments of a result over all causes. The result is taken as a sum of functions of
// one input each (univariate dimension reduction; Rahman and Xu, Probabilistic Engineering Mechanics 19 (2004)
// 393), the moments of each by three-point Gauss–Hermite quadrature: exact for a cubic response.
type spreadOf struct{ mean, variance, third float64 }

// add takes in one cause: the results with its input down, as given and up by node, each from a base.
func (m *spreadOf) add(down, mid, up float64) (variance float64) {
	mean := (down+up)/6 + mid*2/3
	a, b, c := down-mean, mid-mean, up-mean
	variance = (a*a+c*c)/6 + b*b*2/3
	m.mean += mean - mid
	m.variance += variance
	m.third += (a*a*a+c*c*c)/6 + b*b*b*2/3
	return variance
}

// band is the 5th and the 95th percentile by the Cornish–Fisher expansion up to the square of the skewness
// (Abramowitz and Stegun 26.2.49). It always encloses mid.
func (m *spreadOf) band(mid float64) (low, high float64) {
	sd := math.Sqrt(m.variance)
	if sd == 0 {
		return mid, mid
	}
	skew := math.Min(math.Max(m.third/(m.variance*sd), -1), 1) // beyond 1 the expansion is no longer monotone
	centre := mid + m.mean + sd*skew*(tail*tail-1)/6
	reach := sd * (tail - skew*skew*(2*tail*tail*tail-5*tail)/36)
	return math.Min(centre-reach, mid), math.Max(centre+reach, mid)
}

// bands widens the lure's depth and the curve to their 90 % bands and returns what widens the former.
func (s *setup) bands(marks []float64, depth *Band, curve *Curve) ([]CauseShare, fault) {
	n := len(marks)
	all := make([]spreadOf, n+1) // of each mark, and last of the lure
	down, up := make([]float64, n+1), make([]float64, n+1)
	var shares []CauseShare
	for cause := range int(causes) {
		lower, upper := s.way(cause, -node), s.way(cause, node)
		if lower == upper {
			continue
		}
		if f := s.depths(lower, marks, down); f != fine {
			return nil, f
		}
		if f := s.depths(upper, marks, up); f != fine {
			return nil, f
		}
		for k := range n {
			all[k].add(down[k], curve.Depth[k], up[k])
		}
		if v := all[n].add(down[n], depth.Mid, up[n]); v > 0 {
			shares = append(shares, CauseShare{causeNames[cause], v})
		}
	}
	depth.Low, depth.High = all[n].band(depth.Mid)
	depth.Low = max(depth.Low, 0)
	curve.Low, curve.High = make([]float64, n), make([]float64, n)
	for k := range n {
		curve.Low[k], curve.High[k] = all[k].band(curve.Depth[k])
	}
	for i := range shares {
		shares[i].Share /= all[n].variance
	}
	for i := range shares { // package slices would add kilobytes to what a phone loads
		for ; i > 0 && shares[i].Share > shares[i-1].Share; i-- {
			shares[i], shares[i-1] = shares[i-1], shares[i]
		}
	}
	return shares, fine
}

// lureBand is the depth of the lure with its band; all zero where the line is too short to hold it under water.
func (s *setup) lureBand() (depth Band, err error) {
	if depth.Mid = s.lureDepth(s.rod.LineOut, exact); depth.Mid == 0 {
		return depth, nil
	}
	if _, f := s.bands(nil, &depth, &Curve{}); f != fine {
		return Band{}, codec.Fault("rod.lineOut", f.text())
	}
	return depth, nil
}

// depths is the depth at each mark, and last of the lure, with inputs off. The marks keep their place on the
// leader and their share of the line out. A lure brought to the surface counts as lying there.
func (s *setup) depths(off deviation, marks, depths []float64) fault {
	clear(depths)
	l, f := s.settle(off, rough)
	switch f {
	case fine, inAir:
	case tooShort, floats:
		return fine
	default:
		return f
	}
	leader := s.rod.Rig.LeaderLength
	stretch := (l.length - leader) / s.rod.LineOut
	v := l.view()
	for k, m := range marks {
		if m > leader {
			m = leader + (m-leader)*stretch
		}
		depths[k] = v.depthOf(v.spot(min(m, l.length)))
	}
	depths[len(marks)] = l.depth
	return fine
}
