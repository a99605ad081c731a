package towline

import (
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

// Band is the 5th and the 95th percentile of a result that is mid with the inputs as given. It always encloses mid.
func (m *Moments) Band(mid float64) (low, high float64) {
	s := shapeOf(mid+m.mean, m.variance, m.third)
	return min(s.at(-Tail), mid), max(s.at(Tail), mid)
}

// depthMoments gathers those of the fourth root of a depth over a base.
type depthMoments struct{ Moments }

// add takes in one cause; mid is the root with the inputs as given.
func (m *depthMoments) add(down, mid, up, base float64) (variance float64) {
	return m.Add(rootOf(down, base), mid, rootOf(up, base))
}

// law is the distribution of a depth.
func (m *depthMoments) law(mid, base float64) Law {
	return Law{base, shapeOf(rootOf(mid, base)+m.mean, m.variance, m.third)}
}

// band is the 5th and the 95th percentile of a depth. It always encloses mid.
func (m *depthMoments) band(mid, base float64) (low, high float64) {
	if m.variance == 0 {
		return mid, mid
	}
	l := m.law(mid, base)
	return min(l.At(-Tail), mid), max(l.At(Tail), mid)
}

// baseShare of the lure's depth is how far the base of a depth's law lies above the highest that the tip may be.
const baseShare = 0.1

// base for the depths along a line.
func (s *Setup) base(depth float64) float64 {
	return baseShare*depth + s.Rod.TipHeight + 2*Node*s.Doubt.TipHeight
}

// Solver finds the equilibrium of a line with its inputs off. Nil is the straight tow.
type Solver func(off Offsets, tol float64) (line.Lie, line.Fault)

// atNode solves the straight tow with one cause off, for which there is a line of its own. One that only says where the
// line is cut off needs none.
func (s *Setup) atNode(cause, side int, off Offsets) (line.Lie, line.Fault) {
	if cause == InputLineOut || cause == InputTipHeight {
		return s.settle(&s.here, off, line.Exact)
	}
	return s.settle(&s.nodes[2*cause+side], off, line.Rough)
}

// Bands widens the lure's depth and the curve to their 90 % bands and returns what widens the former.
func (s *Setup) Bands(solve Solver, marks []float64, depth *Band, curve *Curve) ([]CauseShare, line.Fault) {
	causes, _, f := s.Spread(solve, marks, depth, depth.Mid, curve)
	return causes, f
}

// byWeight is the causes in an order in which the weighty ones come first, as a rule.
var byWeight = [Inputs]int{
	InputLineDrag, InputSpeed, InputLureDrag, InputLureLift, InputLureWeight, InputSinkers, InputLineOut, InputFriction, InputTipHeight,
}

// straight is the share of the variance so far below which a cause has little weight.
const straight = 0.03

// Spread does so too, and has the distribution of the lure's depth and of that of the lowest part, which is lowest with
// the inputs as given.
func (s *Setup) Spread(solve Solver, marks []float64, depth *Band, lowest float64, curve *Curve) ([]CauseShare, Depths, line.Fault) {
	n := len(marks)
	all := make([]depthMoments, n) // of each mark
	var lures, lowests depthMoments
	base := s.base(depth.Mid)
	mid, low := rootOf(depth.Mid, base), rootOf(lowest, base)
	mids := make([]float64, n)
	for k := range n {
		mids[k] = rootOf(curve.Depth[k], base)
	}
	s.down, s.up = append(s.down[:0], make([]float64, n+2)...), append(s.up[:0], make([]float64, n+2)...)
	shares := make([]CauseShare, 0, Inputs)
	for _, cause := range byWeight {
		lower, upper := s.Way(cause, -Node), s.Way(cause, Node)
		if lower == upper {
			continue
		}
		if f := s.depths(solve, cause, 1, upper, marks, s.up); f != line.Fine {
			return nil, Depths{}, f
		}
		// A cause of little weight counts as straight: what its other side does is not worth solving the line again.
		if d := rootOf(s.up[n], base) - mid; d*d/3 < straight*lures.variance && s.up[n] > 0 {
			for k := range n {
				s.down[k] = 2*curve.Depth[k] - s.up[k]
			}
			s.down[n], s.down[n+1] = 2*depth.Mid-s.up[n], 2*lowest-s.up[n+1]
		} else if f := s.depths(solve, cause, 0, lower, marks, s.down); f != line.Fine {
			return nil, Depths{}, f
		}
		for k := range n {
			all[k].add(s.down[k], mids[k], s.up[k], base)
		}
		if s.Rod.Rig.weighted() {
			lowests.add(s.down[n+1], low, s.up[n+1], base)
		}
		if v := lures.add(s.down[n], mid, s.up[n], base); v > 0 {
			shares = append(shares, CauseShare{CauseNames[cause], v})
		}
	}
	depth.Low, depth.High = lures.band(depth.Mid, base)
	depth.Low = max(depth.Low, 0)
	curve.Low, curve.High = make([]float64, n), make([]float64, n)
	for k := range n {
		curve.Low[k], curve.High[k] = all[k].band(curve.Depth[k], base)
	}
	for i := range shares {
		shares[i].Share /= lures.variance
	}
	for i := range shares { // package slices would add kilobytes to what a phone loads
		for ; i > 0 && shares[i].Share > shares[i-1].Share; i-- {
			shares[i], shares[i-1] = shares[i-1], shares[i]
		}
	}
	if !s.Rod.Rig.weighted() {
		lowests = lures
	}
	return shares, Depths{lures.law(depth.Mid, base), lowests.law(lowest, base)}, line.Fine
}

// weighted says whether something besides the lure may be the lowest.
func (r *Rig) weighted() bool { return r.Dropper != nil || len(r.Drails) > 0 }

// LureBand is the depth of the lure with its band; all zero where the line is too short to hold it under water.
func (s *Setup) LureBand() (depth Band, err error) {
	if depth.Mid = s.LureDepth(s.Rod.LineOut, line.Exact); depth.Mid == 0 {
		return depth, nil
	}
	if _, f := s.Bands(nil, nil, &depth, &Curve{}); f != line.Fine {
		return Band{}, f.At("rod.lineOut")
	}
	return depth, nil
}

// depths is the depth at each mark, then of the lure and of the lowest part, with inputs off. The marks keep their place
// on the leader and their share of the line out. A lure brought to the surface counts as lying there.
func (s *Setup) depths(solve Solver, cause, side int, off Offsets, marks, depths []float64) line.Fault {
	clear(depths)
	var l line.Lie
	var f line.Fault
	if solve != nil {
		l, f = solve(off, line.Rough)
	} else {
		l, f = s.atNode(cause, side, off)
	}
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
		if m > l.Length {
			m = l.Length
		}
		depths[k] = v.DepthAt(m)
	}
	lure := len(marks)
	depths[lure], depths[lure+1] = l.Depth, l.Depth
	if s.Rod.Rig.weighted() {
		depths[lure+1], _ = l.Lowest()
	}
	return line.Fine
}
