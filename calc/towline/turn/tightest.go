package turn

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// The turns that are looked at: from the gentlest to the sharpest radius, m, each closer than the one before; then the
// place between the last good and the first bad one is halved.
const (
	gentlest = 1000
	sharpest = 5
	closer   = 0.8
	halvings = 8
)

// swinging is one rod of a spread on its way into ever tighter turns: its line as it is given, and with its inputs as they
// most probably are where it touches as often as is accepted.
type swinging struct {
	towline.Setup
	given, deep followed
	bottom      float64 // m, as it is then
}

// followed is one line on the straight course, in the last good turn and in the one that is tried.
type followed struct {
	off                   towline.Offsets
	straight, good, tried bend
}

// TightestTurn finds the tightest steady turn in which no lure touches oftener than is accepted and the lines keep apart.
// Errors are codec.Problems.
func TightestTurn(q Tightest) (TightestAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return TightestAnswer{}, err
	}
	if err := q.Sea.CheckUniform("sea"); err != nil {
		return TightestAnswer{}, err
	}
	if err := q.Sea.CheckBottom("sea"); err != nil {
		return TightestAnswer{}, err
	}
	rods := make([]swinging, len(q.Rods))
	for i := range rods {
		r := &rods[i]
		r.Sea, r.Doubt = q.Sea, q.Doubt
		r.Take(q.Rods[i])
		b, err := Enter(&r.Setup, "rods["+strconv.Itoa(i)+"]", q.Toward)
		if err != nil {
			return TightestAnswer{}, err
		}
		r.given.straight, r.given.good = *b, *b
		if f := q.doubt(r, nil); f != line.Fine {
			return TightestAnswer{}, f.At("rods[" + strconv.Itoa(i) + "].lineOut")
		}
	}

	good, bad := q.at(rods, 0), TightestAnswer{}
	if good.Bound != BoundNone {
		return good, nil
	}
	q.tighten(rods, &good, &bad)
	// What makes a lure sink in that turn is not what did on the straight course: once more, by the slopes there.
	for i := range rods {
		r := &rods[i]
		turned := r.given.good
		r.given.good = r.given.straight
		if good.Radius == 0 || q.doubt(r, turned.solver(&r.Setup)) != line.Fine {
			r.deep.good = r.deep.straight
		}
	}
	if good, bad = q.at(rods, 0), (TightestAnswer{}); good.Bound != BoundNone {
		return good, nil
	}
	q.tighten(rods, &good, &bad)
	for range halvings {
		if good.Radius > 0 && bad.Radius > 0 {
			q.judge(rods, 2/(1/good.Radius+1/bad.Radius), &good, &bad)
		}
	}
	good.Quarter, good.Whole = timesOf(good.Radius, q.Sea.Speed)
	if bad.Radius > 0 {
		good.Bound, good.Rod, good.Part = bad.Bound, bad.Rod, bad.Part
	}
	return good, nil
}

// doubt finds the inputs with which a rod touches as often as is accepted, by the slopes of the straight tow or about a
// turn, and takes that line to the beginning of a turn.
func (q *Tightest) doubt(r *swinging, about towline.Solver) line.Fault {
	off, higher, f := r.Lowering(about, math.Hypot(q.BottomDoubt, q.TideDoubt), q.Caution.AcceptsInTurn())
	if f != line.Fine {
		return f
	}
	start := bend{berth: r.given.straight.berth, side: r.given.straight.side}
	if f = start.start(r.OnCourse(off)); f != line.Fine {
		return f
	}
	r.deep, r.bottom = followed{off: off, straight: start, good: start}, q.Sea.Bottom-higher
	return line.Fine
}

// tighten goes from the gentlest turn to the first bad one.
func (q *Tightest) tighten(rods []swinging, good, bad *TightestAnswer) {
	for radius := float64(gentlest); bad.Radius == 0 && radius >= sharpest; radius *= closer {
		q.judge(rods, radius, good, bad)
	}
}

// judge tries a radius and moves the last good or the first bad turn to it.
func (q *Tightest) judge(rods []swinging, radius float64, good, bad *TightestAnswer) {
	a := q.at(rods, 1/radius)
	a.Radius = radius
	if a.Bound != BoundNone {
		*bad = a
		return
	}
	*good = a
	for i := range rods {
		rods[i].given.good, rods[i].deep.good = rods[i].given.tried, rods[i].deep.tried
	}
}

// into tries the line in a turn; it collapses too where the berth would be beyond the centre.
func (l *followed) into(s *towline.Setup, curve float64) (line.Lie, line.Fault) {
	l.tried = l.good
	lie, collapsed, f := l.tried.Into(s.OnCourse(l.off), curve)
	if f == line.Fine && (collapsed || curve*l.tried.out <= -1) {
		f = line.Collapses
	}
	return lie, f
}

// bound is what a line does that cannot be towed in a turn.
func bound(f line.Fault) Bound {
	if f.Surfaces() {
		return BoundAir
	}
	return BoundCollapse
}

// Bound is what the line does that cannot be towed in the turn; none where it can.
func (r *TurnRod) Bound() Bound {
	switch {
	case r.Hold == Holds:
		return BoundNone
	case r.Trouble == nil:
		return BoundCollapse
	}
	return bound(line.FaultOf(r.Trouble.ID))
}

// at is what bounds the turn of a curve, and where the lines come closest in it.
func (q *Tightest) at(rods []swinging, curve float64) (a TightestAnswer) {
	outlines := make([]towline.Outline, len(rods))
	var runs []run
	a.Bound = BoundNone
	for i := range rods {
		r := &rods[i]
		l, f := r.given.into(&r.Setup, curve)
		if f == line.Fine {
			outlines[i], f = r.Outline(&l)
		}
		var deep line.Lie
		if f == line.Fine {
			deep, f = r.deep.into(&r.Setup, curve)
		}
		if f != line.Fine {
			return TightestAnswer{Bound: bound(f), Rod: i}
		}
		if depth, part := deep.Lowest(); depth > r.bottom && a.Bound == BoundNone {
			a.Bound, a.Rod, a.Part = BoundBottom, i, part
		}
		runs = append(runs, run{i, &outlines[i].Curve}, run{i, &outlines[i].Branch})
	}
	if a.Closest = closest(runs); a.Closest != nil && a.Closest.Distance < q.Apart && a.Bound == BoundNone {
		a.Bound = BoundLines
	}
	return a
}
