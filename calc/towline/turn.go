package towline

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
)

// SolveTurn solves every rod of the spread in a steady turn. A rod that has no equilibrium, and one whose tow
// collapses, says so in its own answer. Errors are codec.Problems.
func SolveTurn(q Turn) (TurnAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return TurnAnswer{}, err
	}
	if err := q.Sea.checkUniform("sea"); err != nil {
		return TurnAnswer{}, err
	}
	curve := 0.
	if q.Radius > 0 {
		curve = 1 / q.Radius
	}
	a := TurnAnswer{Rods: make([]TurnRod, len(q.Rods))}
	a.Quarter, a.Whole = timesOf(q.Radius, q.Sea.Speed)
	s := setup{sea: q.Sea, doubt: q.Doubt}
	var runs []run
	for i := range q.Rods {
		s.take(q.Rods[i])
		r, err := s.inTurn("rods["+strconv.Itoa(i)+"]", q.Toward, curve)
		if err != nil {
			r = TurnRod{Trouble: &codec.ProblemsOf(err)[0], Hold: Holds}
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

func (s *Sea) checkUniform(field string) error {
	if len(s.Current) > 0 {
		return codec.Fault(field+".current", "must be empty: a turn is steady only in a current that is the same at every depth")
	}
	return nil
}

// enter takes the rod to the beginning of a turn, its straight tow.
func (s *setup) enter(field string, toward Side) (*bend, error) {
	if err := s.rod.check(field); err != nil {
		return nil, err
	}
	side := 1.
	if toward == Starboard {
		side = -1
	}
	b := &bend{berth: berth{side * s.rod.Abeam, s.rod.Ahead}, side: side}
	if f := b.start(s.swing(deviation{})); f != fine {
		return nil, codec.Fault(field+".lineOut", f.text())
	}
	return b, nil
}

func (s *setup) inTurn(field string, toward Side, curve float64) (a TurnRod, err error) {
	b, err := s.enter(field, toward)
	if err != nil {
		return a, err
	}
	a.Straight, a.Hold = b.depth, Holds
	if curve*b.out <= -1 {
		return a, codec.Fault(field+".abeam", "would be beyond the centre of so tight a turn")
	}
	l, collapsed, f := b.into(s.swing(deviation{}), curve)
	if collapsed || f == collapses {
		return TurnRod{Straight: a.Straight, Hold: Collapsed}, nil
	}
	if f != fine {
		return a, codec.Fault(field+".lineOut", f.text())
	}
	o, f := s.outline(&l)
	if f == fine {
		a.Depth.Mid, a.Astern, a.Abeam, a.Hangs, a.Curve, a.Branch = l.depth, o.astern, o.abeam, o.hangs, o.curve, o.branch
		a.Tension = l.top.tension()
		a.Lowest, a.LowestPart = l.lowest()
		a.Touch = l.touch(s.sea.Bottom)
		s.bend = b
		a.Causes, f = s.bands(o.marks, &a.Depth, &a.Curve)
	}
	if f != fine {
		return a, codec.Fault(field+".lineOut", f.text())
	}
	if s.sea.Bottom > 0 {
		a.OffBottom = a.Depth.above(s.sea.Bottom)
	}
	return a, nil
}
