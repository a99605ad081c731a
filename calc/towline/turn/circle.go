package turn

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// SolveCircle finds the equilibrium of one line towed round a circle, on the branch of solutions that begins at the
// straight tow. Errors are codec.Problems: a field out of its range, a line without equilibrium under water, or a
// circle so tight that this branch ends before it.
func SolveCircle(q Circle) (CircleAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return CircleAnswer{}, err
	}
	if err := q.Sea.CheckUniform("sea"); err != nil {
		return CircleAnswer{}, err
	}
	tow := line.Tow{Sea: q.Sea, TipHeight: q.TipHeight, Sections: q.Sections}
	main, err := tow.Climb()
	if err != nil {
		return CircleAnswer{}, err
	}
	lay := func(c line.Course, tol float64) (line.Lie, line.Fault) {
		main.Water.Turn(c)
		main.EachTol(tol)
		main.Reset(0)
		return main.Settle(main.Length(), q.TipHeight)
	}
	b := bend{side: 1}
	if f := b.start(lay); f != line.Fine {
		return CircleAnswer{}, f.At("sections")
	}
	l, collapsed, f := b.Into(lay, 1/q.Radius)
	if f != line.Fine {
		return CircleAnswer{}, f.At("radius")
	}
	a := CircleAnswer{Hold: Holds, Sections: make([]CircleSection, len(q.Sections)), AirLength: l.Length - l.Entry}
	if collapsed {
		a.Hold = Collapsed
	}
	a.Tension, a.Upward = l.Top.Tension(), l.Top.Tz
	a.Forward = l.Top.Ty*l.Seat.Sin + l.Top.Tx*l.Seat.Cos
	a.Outward = l.Top.Ty*l.Seat.Cos - l.Top.Tx*l.Seat.Sin
	shallowest := math.Inf(1)
	l.Visit(func(v *line.View, i int) {
		low, top := v.Low(i), v.Upper(i)
		s := CircleSection{
			Name: v.Pieces[i].Name, Depth: v.DepthOf(low), TensionTop: top.Tension(), TensionLow: low.Tension(),
		}
		astern, out := v.Place(low)
		s.Radius = math.Hypot(q.Radius+out, astern)
		s.Lag = behind(v, i, q.Radius)
		if q.CurvePoints > 1 {
			from, to := v.Span(i)
			marks := towline.Evenly(nil, from, to, q.CurvePoints-1)
			s.Curve = towline.CurveOf(v, append(marks, to))
		}
		if from, _ := v.Span(i); from <= v.Entry {
			shallowest = math.Min(shallowest, s.Depth)
		}
		a.Sections[v.Pieces[i].Index] = s
	})
	for i := range q.Sections {
		for j := range i {
			if q.Sections[j].Name == q.Sections[i].On {
				a.Sections[i].Lag += a.Sections[j].Lag
			}
		}
	}
	if shallowest < 0 {
		return CircleAnswer{}, line.Floats.At("sections")
	}
	return a, nil
}

// behind is the angle about the centre by which the lower end of a piece is behind its upper end: added up along it, as a
// long line may lie round more than half the circle.
func behind(v *line.View, i int, radius float64) (angle float64) {
	const points = 64
	from, to := v.Span(i)
	last := 0.
	for k := range points + 1 {
		astern, out := v.Place(v.Spot(to + (from-to)*float64(k)/points))
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
