package turn

import (
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
	halvings = 13
)

// swinging is one rod of a spread on its way into ever tighter turns: the last good one, and the one that is tried.
type swinging struct {
	towline.Setup
	good, tried bend
}

// TightestTurn finds the tightest steady turn in which every lure keeps off the bottom and the lines keep apart.
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
		r.Sea = q.Sea
		r.Take(q.Rods[i])
		b, err := Enter(&r.Setup, "rods["+strconv.Itoa(i)+"]", q.Toward)
		if err != nil {
			return TightestAnswer{}, err
		}
		r.good = *b
	}

	good, bad := q.at(rods, 0), TightestAnswer{}
	if good.Bound != BoundNone {
		return good, nil
	}
	for radius := float64(gentlest); bad.Radius == 0 && radius >= sharpest; radius *= closer {
		q.judge(rods, radius, &good, &bad)
	}
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
		rods[i].good = rods[i].tried
	}
}

// at is what bounds the turn of a curve, and where the lines come closest in it.
func (q *Tightest) at(rods []swinging, curve float64) (a TightestAnswer) {
	outlines := make([]towline.Outline, len(rods))
	var runs []run
	a.Bound = BoundNone
	for i := range rods {
		r := &rods[i]
		r.tried = r.good
		l, collapsed, f := r.tried.Into(r.OnCourse(towline.Offsets{}), curve)
		if f == line.Fine {
			outlines[i], f = r.Outline(&l)
		}
		if f != line.Fine || collapsed || curve*r.tried.out <= -1 {
			return TightestAnswer{Bound: BoundCollapse, Rod: i}
		}
		if depth, part := l.Lowest(); depth > q.Sea.Bottom-q.Margin && a.Bound == BoundNone {
			a.Bound, a.Rod, a.Part = BoundBottom, i, part
		}
		runs = append(runs, run{i, &outlines[i].Curve}, run{i, &outlines[i].Branch})
	}
	if a.Closest = closest(runs); a.Closest != nil && a.Closest.Distance < q.Apart && a.Bound == BoundNone {
		a.Bound = BoundLines
	}
	return a
}
