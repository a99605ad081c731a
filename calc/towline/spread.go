package towline

import (
	"strconv"

	"wirewake/calc/codec"
)

// SolveSpread solves every rod of the spread. A rod that has no equilibrium says so in its own answer. Errors
// are codec.Problems.
func SolveSpread(q Spread) (SpreadAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return SpreadAnswer{}, err
	}
	if err := q.Sea.check("sea"); err != nil {
		return SpreadAnswer{}, err
	}
	if err := q.Sea.checkBottom("sea"); err != nil {
		return SpreadAnswer{}, err
	}
	if q.Wanted.High < q.Wanted.Low {
		return SpreadAnswer{}, codec.Fault("wanted.high", "must not be below the lower edge of the band")
	}
	if q.Wanted.Low >= q.Sea.Bottom {
		return SpreadAnswer{}, codec.Fault("wanted.low", "must be less than the depth of water")
	}
	answer := SpreadAnswer{Aim: q.Sea.Bottom - (q.Wanted.Low+q.Wanted.High)/2, Rods: make([]RodAnswer, len(q.Rods))}
	s := setup{sea: q.Sea, doubt: q.Doubt}
	for i := range q.Rods {
		s.take(q.Rods[i])
		a, err := s.answer("rods["+strconv.Itoa(i)+"]", &q.Wanted, answer.Aim)
		if err != nil {
			a = RodAnswer{Trouble: &codec.ProblemsOf(err)[0]}
		}
		answer.Rods[i] = a
	}
	return answer, nil
}

func (s *Sea) checkBottom(field string) error {
	if s.Bottom <= 0 {
		return codec.Fault(field+".bottom", "must be given: the depth of water under the line")
	}
	return nil
}

// answer solves one rod. The values as given come first, then everything that needs the line solved again.
func (s *setup) answer(field string, wanted *Wanted, aim float64) (a RodAnswer, err error) {
	if err := s.rod.check(field); err != nil {
		return a, err
	}
	l, f := s.settle(deviation{}, exact)
	if f != fine {
		return a, codec.Fault(field+".lineOut", f.text())
	}
	a.Tip = l.tipAnswer()
	a.Touch = l.touch(s.sea.Bottom)
	o, f := s.outline(&l)
	if f != fine {
		return a, codec.Fault(field+".lineOut", f.text())
	}
	a.Depth.Mid, a.Astern, a.Hangs, a.Curve, a.Branch = l.depth, o.astern, o.hangs, o.curve, o.branch

	if a.Advice, f = s.lineOutFor(aim); f == fine {
		a.Causes, f = s.bands(o.marks, &a.Depth, &a.Curve)
	}
	if f != fine {
		return a, codec.Fault(field+".lineOut", f.text())
	}
	a.OffBottom = a.Depth.above(s.sea.Bottom)
	a.Verdict = wanted.judge(a.OffBottom.Mid, a.Touch != nil)
	return a, nil
}

// outline is where the lure and all else on a line are, and how it runs, drawn at the marks.
type outline struct {
	astern, abeam float64
	hangs         []Hang
	curve, branch Curve
	marks         []float64
}

func (s *setup) outline(l *lie) (o outline, f fault) {
	hang := func(name string, v *view, y state) {
		h := Hang{Name: name, Depth: v.depthOf(y)}
		h.Astern, h.Abeam = v.place(y)
		if o.hangs = append(o.hangs, h); h.Depth < 0 {
			f = floats
		}
	}
	l.visit(func(v *view, i int) {
		low := v.low(i)
		switch {
		case v.branch:
			hang("sinker", v, low)
			_, to := v.span(i)
			o.branch = v.curve(evenly(nil, 0, to, branchPoints))
		case i == 0:
			o.astern, o.abeam = v.place(low)
			o.marks = v.marks()
			o.curve = v.curve(o.marks)
			for _, d := range s.rod.Rig.drailsUp() {
				hang("drail", v, v.spot(d.Above))
			}
		}
	})
	return o, f
}

// above is the distance of a depth from the bottom.
func (b *Band) above(bottom float64) Band {
	return Band{Low: bottom - b.High, Mid: bottom - b.Mid, High: bottom - b.Low}
}

func (w *Wanted) judge(offBottom float64, touches bool) Verdict {
	switch {
	case touches || offBottom <= 0:
		return OnBottom
	case offBottom < w.Low:
		return TooDeep
	case offBottom > w.High:
		return TooHigh
	}
	return InBand
}

// Points of the curve on each piece of line; on the wire they are closest at its lower end, where it bends.
const (
	leaderPoints = 5
	wirePoints   = 14
	branchPoints = 6
)

// marks is the arc lengths at which the curve of a line is drawn: every joint, the place where it enters the
// water, and points between.
func (v *view) marks() (marks []float64) {
	for i := range v.base {
		from, to := v.span(i)
		switch {
		case from >= to:
			return append(marks, v.length)
		case v.pieces[i].name == "leader":
			marks = evenly(marks, from, to, leaderPoints)
		default:
			wet := min(to, v.entry)
			for k := range wirePoints {
				q := float64(k) / wirePoints
				if wet > from {
					marks = append(marks, from+(wet-from)*q*q)
				}
			}
			if wet < to {
				marks = evenly(marks, max(wet, from), to, leaderPoints)
			}
		}
	}
	return append(marks, v.length)
}

func evenly(marks []float64, from, to float64, n int) []float64 {
	for k := range n {
		marks = append(marks, from+(to-from)*float64(k)/float64(n))
	}
	return marks
}

func (v *view) curve(marks []float64) (c Curve) {
	c.Astern, c.Depth = make([]float64, len(marks)), make([]float64, len(marks))
	var abeam float64
	for k, s := range marks {
		y := v.spot(s)
		c.Depth[k] = v.depthOf(y)
		if c.Astern[k], abeam = v.place(y); v.seat != nil {
			c.Abeam = append(c.Abeam, abeam)
		}
	}
	return c
}
