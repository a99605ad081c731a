package line

import (
	"math"
)

// Lowest is the depth and name of the deepest of lure, drails, join and sinker.
func (l *Lie) Lowest() (depth float64, part string) {
	v := l.View()
	v.lowest(&depth, &part)
	return depth, part
}

func (v *View) lowest(depth *float64, part *string) {
	for i := range v.Base {
		if v.Base[i] >= v.Length {
			return
		}
		if low := v.Low(i); v.DepthOf(low) >= *depth {
			*depth, *part = v.DepthOf(low), v.Part(i)
		}
		for _, b := range v.Pieces[i].Branches {
			w := v.Onto(i, b)
			w.lowest(depth, part)
		}
	}
}

// View is a settled line, or one of its branches, seen from the rod tip.
type View struct {
	*Climb
	Entry, Length float64 // arc lengths at which it leaves the water and at which it ends
	in            State   // where it leaves the water
	astern        float64 // of the line's free end
	Seat          *Seat
	Branch        bool
}

// Visit shows every piece let out, of the line and of the branches on it, from each free end up.
func (l *Lie) Visit(show func(v *View, i int)) {
	v := l.View()
	v.walk(show)
}

// View is the line as it is seen from the tip.
func (l *Lie) View() View {
	return View{Climb: l.Climb, Entry: l.Entry, Length: l.Length, in: l.in, astern: l.Top.X, Seat: l.Seat}
}

func (v *View) walk(show func(v *View, i int)) {
	for i := range v.Base {
		if v.Base[i] >= v.Length {
			return
		}
		show(v, i)
		for _, b := range v.Pieces[i].Branches {
			w := v.Onto(i, b)
			w.walk(show)
		}
	}
}

// Onto is a branch at the lower end of a piece.
func (v *View) Onto(i int, b *Climb) View {
	b.Depth = v.DepthOf(v.Low(i)) + b.y.Z
	return View{Climb: b, Entry: b.s, Length: b.s, astern: v.astern, Seat: v.Seat, Branch: true}
}

// Part is what is at the lower end of a piece.
func (v *View) Part(i int) string {
	switch {
	case v.Branch:
		return "sinker"
	case i == 0:
		return "lure"
	case v.Pieces[i].Load != Body{}:
		return "drail"
	}
	return "join"
}

// Span is the arc lengths of the lower and upper end of a piece, as far as it is let out.
func (v *View) Span(i int) (from, to float64) {
	return v.Base[i], min(v.Base[i]+v.Pieces[i].Length, v.Length)
}

// Spot is the state at an arc length, in the water or in the air; at a joint, just below it.
func (v *View) Spot(s float64) State {
	if s <= v.Entry {
		return v.at(s)
	}
	y, _ := v.airOn(v.in, v.Entry, s, math.Inf(1))
	return y
}

// DepthAt is the depth at an arc length, in the water or, negative, in the air.
func (v *View) DepthAt(s float64) float64 {
	if s <= v.Entry {
		return v.Depth - v.HeightAt(s)
	}
	rise, _ := v.rise(&v.in, v.Entry, s)
	return v.Depth - v.in.Z - rise
}

// Low is the state just above the lower end of a piece.
func (v *View) Low(i int) State {
	if v.Base[i] <= v.Entry {
		return v.joint[i]
	}
	return v.Spot(v.Base[i])
}

// Upper is the state just below the upper end of a piece.
func (v *View) Upper(i int) State {
	_, to := v.Span(i)
	return v.Spot(to)
}

// DepthOf is the depth of a state; negative in the air.
func (v *View) DepthOf(y State) float64 { return v.Depth - y.Z }

// Place is where a state is: behind the rod tip; in a turn, behind the boat and to starboard of her.
func (v *View) Place(y State) (astern, abeam float64) {
	if v.Seat == nil {
		return v.astern - v.ahead - y.X, 0
	}
	ahead, out := v.Seat.place(v.ahead+y.X, v.out+y.Y)
	return -ahead, v.Seat.Side * out
}

// AsternOf is how far a state is behind the tip.
func (v *View) AsternOf(y State) float64 {
	astern, _ := v.Place(y)
	return astern
}

// TipAnswer is what is felt and seen at the boat.
func (l *Lie) TipAnswer() Tip {
	in := &l.in
	return Tip{
		Tension: l.Top.Tension(), Angle: l.Top.angle(), AirLength: l.Length - l.Entry,
		EntryAstern: l.Top.X - in.X, EntryAngle: in.angle(),
	}
}

// Touch is the place nearest the boat where the line is as deep as the bottom; nil without one.
func (l *Lie) Touch(bottom float64) (nearest *Touch) {
	if bottom <= 0 {
		return nil
	}
	l.Visit(func(v *View, i int) {
		from, to := v.Span(i)
		k := v.first[i]
		for ; k < len(v.steps) && v.steps[k].s < min(to, v.Entry); k++ {
			st := &v.steps[k]
			deep, high := v.Depth-st.c[0].Z, v.Depth-st.heightWithin(1)
			if deep < bottom {
				continue
			}
			q := 1.0
			if high < bottom {
				q = st.find(v.Depth - bottom)
			}
			y := st.within(q)
			if t := (Touch{v.Pieces[i].Name, st.s + q*st.h - from, v.AsternOf(y)}); nearest == nil || t.Astern < nearest.Astern {
				nearest = &t
			}
		}
	})
	return nearest
}
