package towline

import (
	"wirewake/calc/towline/line"
)

// Outline is where the lure and all else on a line are, and how it runs, drawn at the marks.
type Outline struct {
	Astern, Abeam float64
	Hangs         []Hang
	Curve, Branch Curve
	Marks         []float64
}

// Outline draws a line that was solved.
func (s *Setup) Outline(l *line.Lie) (o Outline, f line.Fault) {
	hang := func(name string, v *line.View, y line.State) {
		h := Hang{Name: name, Depth: v.DepthOf(y)}
		h.Astern, h.Abeam = v.Place(y)
		if o.Hangs = append(o.Hangs, h); h.Depth < 0 {
			f = line.Floats
		}
	}
	l.Visit(func(v *line.View, i int) {
		low := v.Low(i)
		switch {
		case v.Branch:
			hang("sinker", v, low)
			_, to := v.Span(i)
			o.Branch = CurveOf(v, Evenly(nil, 0, to, branchPoints))
		case i == 0:
			o.Astern, o.Abeam = v.Place(low)
			o.Marks = marksOf(v)
			o.Curve = CurveOf(v, o.Marks)
			for _, d := range s.Rod.Rig.drailsUp() {
				hang("drail", v, v.Spot(d.Above))
			}
		}
	})
	return o, f
}

// Points of the curve on each piece of line; on the wire they are closest at its lower end, where it bends.
const (
	leaderPoints = 5
	wirePoints   = 14
	branchPoints = 6
)

// marksOf is the arc lengths at which the curve of a line is drawn: every joint, the place where it enters the
// water, and points between.
func marksOf(v *line.View) (marks []float64) {
	for i := range v.Base {
		from, to := v.Span(i)
		switch {
		case from >= to:
			return append(marks, v.Length)
		case v.Pieces[i].Name == "leader":
			marks = Evenly(marks, from, to, leaderPoints)
		default:
			wet := min(to, v.Entry)
			for k := range wirePoints {
				q := float64(k) / wirePoints
				if wet > from {
					marks = append(marks, from+(wet-from)*q*q)
				}
			}
			if wet < to {
				marks = Evenly(marks, max(wet, from), to, leaderPoints)
			}
		}
	}
	return append(marks, v.Length)
}

// Evenly adds n marks from a place up to, but without, another.
func Evenly(marks []float64, from, to float64, n int) []float64 {
	for k := range n {
		marks = append(marks, from+(to-from)*float64(k)/float64(n))
	}
	return marks
}

// CurveOf is a line drawn at the marks.
func CurveOf(v *line.View, marks []float64) (c Curve) {
	c.Astern, c.Depth = make([]float64, len(marks)), make([]float64, len(marks))
	var abeam float64
	for k, s := range marks {
		y := v.Spot(s)
		c.Depth[k] = v.DepthOf(y)
		if c.Astern[k], abeam = v.Place(y); v.Seat != nil {
			c.Abeam = append(c.Abeam, abeam)
		}
	}
	return c
}
