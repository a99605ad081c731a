package line

import (
	"math"

	"wirewake/calc/stat"
)

// Ways are lines that were followed from straight down, or up, once for each kind of line and stream, to be used again and
// again. In a uniform stream on a straight course the change of the tension hangs on the line's direction alone. So all
// lines of a kind are parts of one, that from straight down or that from straight up, each on its own scale: what the
// cable functions tabulate (L. Pode, David Taylor Model Basin report 687, 1951; from memory). They do not hang on what was
// asked before.
type Ways struct {
	kept []*Climb
	next int
}

// part is what a piece of a line is of a way: from an arc length of that on, larger by scale, and moved. Without a way it
// is none.
type part struct {
	way               *Climb
	from, scale, x, z float64
	looked            int // the step of the way that was looked at last
}

// at is the state so far up the piece.
func (p *part) at(s float64) State {
	st, q := p.stepAt(s)
	y := st.within(q)
	return State{Tx: p.scale * y.Tx, Tz: p.scale * y.Tz, X: p.x + p.scale*y.X, Z: p.z + p.scale*y.Z}
}

const (
	// manyWays is how many are kept: 14 for the bands of a rod of wire and leader, for the lines of a few rods.
	manyWays = 64
	// wayTol is finer than Rough, as one serves many lines and on larger scales; wayLoad is the tension that it begins with,
	// N, and mostScale how much larger than it a line may be.
	wayTol    = 2e-4
	wayLoad   = 10
	mostScale = 4
	// A line that turns less than turning, against what it pulls more, is followed for itself: it is nearly straight.
	turning = 0.1
	// farSteps is how many steps a way may take to come to a direction, farAway where it ends in any case, m: a line smaller
	// than leastScale may need more of it.
	farSteps   = 40
	farAway    = 1e7
	leastScale = 1e-3
)

// of is the way of a line in a stream, from straight down, or up.
func (a *Ways) of(g *Grip, w *Stream, down bool) *Climb {
	from := math.Copysign(wayLoad, -1)
	if down {
		from = wayLoad
	}
	for _, c := range a.kept {
		if c.g.Square == g.Square && c.g == *g && c.Water.Speed == w.Speed && c.from == from && c.Failed == Fine {
			return c
		}
	}
	c := &Climb{Water: &Stream{Speed: w.Speed, Steps: w.Steps}, Tol: wayTol}
	if len(a.kept) < manyWays {
		a.kept = append(a.kept, c)
	} else { // lines may be parts of the one before still
		a.kept[a.next] = c
		a.next = (a.next + 1) % manyWays
	}
	c.Reset(0)
	c.g, c.from, c.y.Tz = *g, from, from
	c.slope(&c.y, &c.k)
	c.h = 0.1 * wayLoad / c.k.Tension()
	return c
}

// stepAt is the step of the way that falls there, and where in it.
func (p *part) stepAt(s float64) (st *step, q float64) {
	return p.way.stepAt(p.from+s/p.scale, &p.looked)
}

// partOfWay is what the piece that begins is of a way; without one it is climbed for itself. One that floats is: it may
// rise and fall again.
func (c *Climb) partOfWay() (p part) {
	if c.Water.Ways == nil || c.Water.yaw != 0 || c.Water.Sheared() || c.y.Tx <= 0 || c.g.Weight < 0 {
		return p
	}
	x, z := c.y.Tx, c.y.Tz
	turn := z*c.k.Tx - x*c.k.Tz // positive where it comes down to the stream's direction
	if !(math.Abs(turn) > turning*math.Hypot(x, z)*c.k.Tension()) {
		return p
	}
	w := c.Water.Ways.of(&c.g, c.Water, turn > 0)
	to := plane{Tx: x * w.from, Tz: z * w.from}
	for i := range farSteps {
		if i == len(w.steps) {
			if w.advance(farAway); w.Failed != Fine {
				return p
			}
		}
		st := &w.steps[i]
		end := plane{Tx: w.y.Tx, Tz: w.y.Tz}
		if i+1 < len(w.steps) {
			end = w.steps[i+1].c[0]
		}
		if to.across(&end) < 0 {
			continue
		}
		var of [1 + exactly]float64
		for k := range st.degree + 1 {
			of[k] = to.across(&st.c[k])
		}
		q := stat.Root(func(q float64) (off float64) {
			for k := st.degree; k >= 0; k-- {
				off = of[k] + q*off
			}
			return off
		}, 0, 1, 1e-8)
		y := st.within(q)
		if scale := math.Sqrt((x*x + z*z) / (y.Tx*y.Tx + y.Tz*y.Tz)); scale >= leastScale && scale <= mostScale {
			p = part{w, st.s + q*st.h, scale, c.y.X - scale*y.X, c.y.Z - scale*y.Z, i}
		}
		return p
	}
	return p
}

// across is positive where the other is beyond the direction.
func (y *plane) across(o *plane) float64 { return o.Tx*y.Tz - o.Tz*y.Tx }

// follow goes on along the way as far as that is known, or by a step of it, not beyond the end of the piece.
func (c *Climb) follow(p *part, base, length float64) {
	*c.Water.Steps++
	known := (p.way.s - p.from) * p.scale
	if known < (c.s-base)*1.0000001+1e-9 { // it was followed so far already
		p.way.advance(farAway)
		known = (p.way.s - p.from) * p.scale
	}
	if c.Failed = p.way.Failed; c.Failed != Fine {
		return
	}
	c.s = base + min(known, length)
	c.y = p.at(c.s - base)
}
