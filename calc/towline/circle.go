package towline

import (
	"math"

	"wirewake/calc/codec"
)

// SolveCircle finds the equilibrium of one line towed round a circle, on the branch of solutions that begins at the
// straight tow. Errors are codec.Problems: a field out of its range, a line without equilibrium under water, or a
// circle so tight that this branch ends before it.
func SolveCircle(q Circle) (CircleAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return CircleAnswer{}, err
	}
	if err := q.Sea.checkUniform("sea"); err != nil {
		return CircleAnswer{}, err
	}
	tow := Tow{Sea: q.Sea, TipHeight: q.TipHeight, Sections: q.Sections}
	main, err := tow.climb()
	if err != nil {
		return CircleAnswer{}, err
	}
	lay := func(c course, tol float64) (lie, fault) {
		main.water.turn(c)
		main.eachTol(tol)
		main.reset(0)
		return main.settle(main.length(), q.TipHeight)
	}
	b := bend{side: 1}
	if f := b.start(lay); f != fine {
		return CircleAnswer{}, codec.Fault("sections", f.text())
	}
	l, collapsed, f := b.into(lay, 1/q.Radius)
	if f != fine {
		return CircleAnswer{}, codec.Fault("radius", f.text())
	}
	a := CircleAnswer{Hold: Holds, Sections: make([]CircleSection, len(q.Sections)), AirLength: l.length - l.entry}
	if collapsed {
		a.Hold = Collapsed
	}
	a.Tension, a.Upward = l.top.tension(), l.top.tz
	a.Forward = l.top.ty*l.seat.sin + l.top.tx*l.seat.cos
	a.Outward = l.top.ty*l.seat.cos - l.top.tx*l.seat.sin
	shallowest := math.Inf(1)
	l.visit(func(v *view, i int) {
		low, top := v.low(i), v.upper(i)
		s := CircleSection{
			Name: v.pieces[i].name, Depth: v.depthOf(low), TensionTop: top.tension(), TensionLow: low.tension(),
		}
		astern, out := v.place(low)
		s.Radius = math.Hypot(q.Radius+out, astern)
		s.Lag = v.behind(i, q.Radius)
		if q.CurvePoints > 1 {
			from, to := v.span(i)
			marks := evenly(nil, from, to, q.CurvePoints-1)
			s.Curve = v.curve(append(marks, to))
		}
		if from, _ := v.span(i); from <= v.entry {
			shallowest = math.Min(shallowest, s.Depth)
		}
		a.Sections[v.pieces[i].index] = s
	})
	for i := range q.Sections {
		for j := range i {
			if q.Sections[j].Name == q.Sections[i].On {
				a.Sections[i].Lag += a.Sections[j].Lag
			}
		}
	}
	if shallowest < 0 {
		return CircleAnswer{}, codec.Fault("sections", floats.text())
	}
	return a, nil
}

// behind is the angle about the centre by which the lower end of a piece is behind its upper end: added up along it, as a
// long line may lie round more than half the circle.
func (v *view) behind(i int, radius float64) (angle float64) {
	const points = 64
	from, to := v.span(i)
	last := 0.
	for k := range points + 1 {
		astern, out := v.place(v.spot(to + (from-to)*float64(k)/points))
		here := math.Atan2(astern, radius+out)
		switch d := here - last; {
		case k == 0:
		case d > math.Pi:
			angle += d - 2*math.Pi
		case d < -math.Pi:
			angle += d + 2*math.Pi
		default:
			angle += d
		}
		last = here
	}
	return angle
}
