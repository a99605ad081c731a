package towline

import "math"

// view is a settled line, or one of its branches, seen from the rod tip.
type view struct {
	*climb
	entry, length float64 // arc lengths at which it leaves the water and at which it ends
	astern        float64 // of the line's free end
	seat          *seat
	branch        bool
}

// visit shows every piece let out, of the line and of the branches on it, from each free end up.
func (l *lie) visit(show func(v *view, i int)) {
	v := l.view()
	v.walk(show)
}

func (l *lie) view() view {
	return view{climb: l.climb, entry: l.entry, length: l.length, astern: l.top.x, seat: l.seat}
}

func (v *view) walk(show func(v *view, i int)) {
	for i := range v.base {
		if v.base[i] >= v.length {
			return
		}
		show(v, i)
		for _, b := range v.pieces[i].branches {
			w := v.onto(i, b)
			w.walk(show)
		}
	}
}

// onto is a branch at the lower end of a piece.
func (v *view) onto(i int, b *climb) view {
	b.depth = v.depthOf(v.low(i)) + b.y.z
	return view{climb: b, entry: b.s, length: b.s, astern: v.astern, seat: v.seat, branch: true}
}

// part is what is at the lower end of a piece.
func (v *view) part(i int) string {
	switch {
	case v.branch:
		return "sinker"
	case i == 0:
		return "lure"
	case v.pieces[i].load != Body{}:
		return "drail"
	}
	return "join"
}

// span is the arc lengths of the lower and upper end of a piece, as far as it is let out.
func (v *view) span(i int) (from, to float64) {
	return v.base[i], math.Min(v.base[i]+v.pieces[i].length, v.length)
}

// spot is the state at an arc length, in the water or in the air; at a joint, just below it.
func (v *view) spot(s float64) state {
	if s <= v.entry {
		return v.at(s)
	}
	y, _ := v.air(v.entry, s, math.Inf(1))
	return y
}

// low is the state just above the lower end of a piece.
func (v *view) low(i int) state {
	if v.base[i] <= v.entry {
		return v.joint[i]
	}
	return v.spot(v.base[i])
}

// upper is the state just below the upper end of a piece.
func (v *view) upper(i int) state {
	_, to := v.span(i)
	return v.spot(to)
}

func (v *view) depthOf(y state) float64 { return v.depth - y.z }

// place is where a state is: behind the rod tip; in a turn, behind the boat and to starboard of her.
func (v *view) place(y state) (astern, abeam float64) {
	if v.seat == nil {
		return v.astern - v.ahead - y.x, 0
	}
	ahead, out := v.seat.place(v.ahead+y.x, v.out+y.y)
	return -ahead, v.seat.side * out
}

func (v *view) asternOf(y state) float64 {
	astern, _ := v.place(y)
	return astern
}

func (l *lie) tipAnswer() Tip {
	in := l.at(l.entry)
	return Tip{
		Tension: l.top.tension(), Angle: l.top.angle(), AirLength: l.length - l.entry,
		EntryAstern: l.top.x - in.x, EntryAngle: in.angle(),
	}
}

// touch is the place nearest the boat where the line is as deep as the bottom; nil without one.
func (l *lie) touch(bottom float64) (nearest *Touch) {
	if bottom <= 0 {
		return nil
	}
	l.visit(func(v *view, i int) {
		from, to := v.span(i)
		k := v.first[i]
		for ; k < len(v.steps) && v.steps[k].s < math.Min(to, v.entry); k++ {
			st := &v.steps[k]
			deep, high := v.depthOf(st.c[0]), v.depthOf(st.within(1))
			if deep < bottom {
				continue
			}
			q := 1.0
			if high < bottom {
				q = st.find(v.depth - bottom)
			}
			y := st.within(q)
			if t := (Touch{v.pieces[i].name, st.s + q*st.h - from, v.asternOf(y)}); nearest == nil || t.Astern < nearest.Astern {
				nearest = &t
			}
		}
	})
	return nearest
}
