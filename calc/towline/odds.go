package towline

import (
	"math"

	"wirewake/calc/towline/line"
)

// Target is where a lure should ride, and how well the depth of water is known.
type Target struct {
	// Bottom is the depth of water, m, Doubt one standard deviation of it.
	Bottom, Doubt float64
	// Low and High are the wanted distances off the bottom, m.
	Low, High float64
}

// Aim is the depth of the middle of the band.
func (t *Target) Aim() float64 { return t.Bottom - (t.Low+t.High)/2 }

// Holds says whether a depth lies in the band.
func (t *Target) Holds(depth float64) bool {
	return depth >= t.Bottom-t.High && depth <= t.Bottom-t.Low
}

// Odds are the chances of what a rod does. Together they are 1.
type Odds struct {
	// High: the lure rides above the wanted band.
	High float64 `json:"high" digits:"4"`
	// InBand: it rides in the band, and nothing touches.
	InBand float64 `json:"inBand" digits:"4"`
	// Deep: it rides below the band, and nothing touches.
	Deep float64 `json:"deep" digits:"4"`
	// Touch: the lowest part of the line is down at the bottom.
	Touch float64 `json:"touch" digits:"4"`
}

// Depths is the distribution of how deep a lure and the lowest part of its line ride.
type Depths struct{ Lure, Lowest Law }

// Nodes and weights of Gauss–Hermite quadrature for a standard normal number (Abramowitz and Stegun, table 25.10, n = 5).
var (
	fiveNodes   = [...]float64{-2.8569700138728056, -1.3556261799742659, 0, 1.3556261799742659, 2.8569700138728056}
	fiveWeights = [...]float64{0.0112574113277207, 0.2220759220056126, 0.5333333333333333, 0.2220759220056126, 0.0112574113277207}
)

// Odds are those against a target. Lure and lowest part rise and fall together, whatever is in doubt; so of two bounds the
// nearer one counts alone. The lesser of the two doubts, of the line's depth or of the bottom, is summed up by quadrature.
func (d *Depths) Odds(t *Target) (o Odds) {
	low, high := t.Bottom-t.Low, t.Bottom-t.High
	if t.Doubt == 0 {
		o.add(1, 1-d.Lowest.Below(t.Bottom), 1-d.Lure.Below(low), 1-d.Lure.Below(high))
		return o
	}
	byBottom := t.Doubt < (d.Lure.At(1)-d.Lure.At(-1))/2
	for k, weight := range fiveWeights {
		if by := t.Doubt * fiveNodes[k]; byBottom {
			o.add(weight, 1-d.Lowest.Below(t.Bottom+by), 1-d.Lure.Below(low+by), 1-d.Lure.Below(high+by))
			continue
		}
		lure, lowest := d.Lure.At(fiveNodes[k]), d.Lowest.At(fiveNodes[k])
		o.add(weight, normalBelow((lowest-t.Bottom)/t.Doubt), normalBelow((lure-low)/t.Doubt), normalBelow((lure-high)/t.Doubt))
	}
	return o
}

// add takes in a share of all that may be: the chances that the lowest part is below the bottom, and the lure below the
// lower and the upper edge of the band.
func (o *Odds) add(weight, touch, low, high float64) {
	low = max(touch, low)
	high = max(low, high)
	o.Touch += weight * touch
	o.Deep += weight * (low - touch)
	o.InBand += weight * (high - low)
	o.High += weight * (1 - high)
}

// OffBottom is how far a lure with this band of depths rides above the bottom, with the band that the doubt of the bottom
// belongs to: to each side the two are independent.
func (t *Target) OffBottom(depth Band) Band {
	off, doubt := t.Bottom-depth.Mid, Tail*t.Doubt
	return Band{Low: off - math.Hypot(depth.High-depth.Mid, doubt), Mid: off, High: off + math.Hypot(depth.Mid-depth.Low, doubt)}
}

// Tried is what comes of a line out.
type Tried struct {
	// LineOut, and where the lure rides with it, inputs as given: m.
	LineOut, Depth, Astern float64
	Depths                 Depths
	Odds                   Odds
}

// Try lets out so much line and says what comes of it; the line stays out.
func (s *Setup) Try(lineOut float64, t *Target) (Tried, line.Fault) {
	s.Rod.LineOut = lineOut
	l, f := s.Settle(Offsets{}, line.Exact)
	if f != line.Fine {
		return Tried{}, f
	}
	a := Tried{LineOut: lineOut, Depth: l.Depth, Astern: l.Top.X}
	lowest, _ := l.Lowest()
	if _, a.Depths, f = s.Spread(nil, nil, &Band{Mid: l.Depth}, lowest, &Curve{}); f != line.Fine {
		return Tried{}, f
	}
	a.Odds = a.Depths.Odds(t)
	return a, line.Fine
}

// About is what about comes of another line out, reckoned from one that was tried: all depths in proportion to that with
// the inputs as given. A depth of 0 says that the line does not hold.
func (s *Setup) About(tried *Tried, lineOut float64) Tried {
	a := Tried{LineOut: lineOut, Depth: s.LureDepth(lineOut, line.Exact)}
	if a.Depth > 0 {
		by := a.Depth / tried.Depth
		a.Depths = Depths{tried.Depths.Lure.times(by), tried.Depths.Lowest.times(by)}
	}
	return a
}

// About is what Between is, reckoned faster: the doubt of the bottom is that of a depth as great as the bottom.
func (a *Tried) About(b *Tried, lineOut float64, t *Target) (o Odds) {
	share := (lineOut - a.LineOut) / (b.LineOut - a.LineOut)
	lure := a.Depths.Lure.between(&b.Depths.Lure, share, t)
	touch := lure
	if a.Depths.Lowest != a.Depths.Lure {
		touch = a.Depths.Lowest.between(&b.Depths.Lowest, share, t)
	}
	o.add(1, 1-touch.Below(t.Bottom), 1-lure.Below(t.Bottom-t.Low), 1-lure.Below(t.Bottom-t.High))
	return o
}

// Between is about what would come of a line out between or somewhat beyond two that were tried.
func (a *Tried) Between(b *Tried, lineOut float64, t *Target) Odds {
	share := (lineOut - a.LineOut) / (b.LineOut - a.LineOut)
	d := Depths{a.Depths.Lure.between(&b.Depths.Lure, share, nil), a.Depths.Lowest.between(&b.Depths.Lowest, share, nil)}
	return d.Odds(t)
}
