package turn

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// SolveTurn solves every rod of the spread in a steady turn. A rod that has no equilibrium, and one whose tow
// collapses, says so in its own answer. Errors are codec.Problems.
func SolveTurn(q Turn) (TurnAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return TurnAnswer{}, err
	}
	if err := q.Sea.CheckUniform("sea"); err != nil {
		return TurnAnswer{}, err
	}
	curve := 0.
	if q.Radius > 0 {
		curve = 1 / q.Radius
	}
	a := TurnAnswer{Rods: make([]TurnRod, len(q.Rods))}
	a.Quarter, a.Whole = timesOf(q.Radius, q.Sea.Speed)
	s := towline.Setup{Sea: q.Sea, Doubt: q.Doubt}
	target := towline.Target{Bottom: q.Sea.Bottom, Doubt: math.Hypot(q.BottomDoubt, q.TideDoubt)}
	var runs []run
	for i := range q.Rods {
		s.Take(q.Rods[i])
		r, err := inTurn(&s, "rods["+strconv.Itoa(i)+"]", q.Toward, curve, &target, q.Caution.AcceptsInTurn())
		if err != nil {
			r = TurnRod{Trouble: &codec.ProblemsOf(err)[0], Hold: Unsolved}
		}
		a.Rods[i] = r
		runs = append(runs, run{i, &a.Rods[i].Curve}, run{i, &a.Rods[i].Branch})
	}
	a.Closest = closest(runs)
	return a, nil
}

// timesOf is how long a turn of 90° and of 360° takes; 0 for a turn that is none.
func timesOf(radius, speed float64) (quarter, whole float64) {
	if speed == 0 {
		return 0, 0
	}
	whole = 2 * math.Pi * radius / speed
	return whole / 4, whole
}

// Enter takes the rod to the beginning of a turn, its straight tow.
func Enter(s *towline.Setup, field string, toward Side) (*bend, error) {
	if err := s.Rod.Check(field); err != nil {
		return nil, err
	}
	side := 1.
	if toward == Starboard {
		side = -1
	}
	b := &bend{berth: berth{side * s.Rod.Abeam, s.Rod.Ahead}, side: side}
	if f := b.start(s.OnCourse(towline.Offsets{})); f != line.Fine {
		return nil, f.At(field + ".lineOut")
	}
	return b, nil
}

func inTurn(s *towline.Setup, field string, toward Side, curve float64, target *towline.Target, accepted float64) (a TurnRod, err error) {
	b, err := Enter(s, field, toward)
	if err != nil {
		return a, err
	}
	a.Straight, a.Hold = b.depth, Holds
	if curve*b.out <= -1 {
		return a, codec.Fault(field+".abeam", "beyondCentre", "would be beyond the centre of so tight a turn")
	}
	l, collapsed, f := b.Into(s.OnCourse(towline.Offsets{}), curve)
	if collapsed || f == line.Collapses {
		return TurnRod{Straight: a.Straight, Hold: Collapsed}, nil
	}
	if f != line.Fine {
		return a, f.At(field + ".lineOut")
	}
	var depths towline.Depths
	o, f := s.Outline(&l)
	if f == line.Fine {
		a.Depth.Mid, a.Astern, a.Abeam, a.Hangs, a.Curve, a.Branch = l.Depth, o.Astern, o.Abeam, o.Hangs, o.Curve, o.Branch
		a.Tension = l.Top.Tension()
		a.Lowest, a.LowestPart = l.Lowest()
		a.Touch = l.Touch(s.Sea.Bottom)
		a.Causes, depths, f = s.Spread(b.solver(s), o.Marks, &a.Depth, a.Lowest, &a.Curve)
	}
	if f != line.Fine {
		return a, f.At(field + ".lineOut")
	}
	if s.Sea.Bottom > 0 {
		a.OffBottom, a.Touching = target.OffBottom(a.Depth), depths.Odds(target).Touch
		a.Risky = a.Touching > accepted
	}
	return a, nil
}
