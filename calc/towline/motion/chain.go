package motion

import (
	"math"

	"wirewake/calc/towline/line"
)

// chain is a line in time: masses, from the free ends up, each tied to a later one by a straight piece that can be
// pulled but not stretched nor pushed; the last is the rod tip, whose way is given. Its frame stays with the water at
// the surface: x along the first course, y to starboard of it, z up.
//
// Each step solves the motion implicitly: backward differentiation of second order (Hairer and Wanner, Solving Ordinary
// Differential Equations II, V.1 and VII.3) with the tensions as further unknowns, so that neither how light nor how
// stiff the wire is bounds the step. Newton's equations form a tree and are eliminated from the free ends up.
type chain struct {
	links  []link
	mesh   float64 // rest length of the piece below the tip, m, around which it is held when line goes out or in
	water  *line.Stream
	bottom float64 // depth; 0 for none
	h      float64 // time step, s
	rounds int     // of Newton's iteration so far
	soft   float64 // times slackness, where it is more
}

// link is one mass and the piece of line above it.
type link struct {
	up             int
	p, v, a        line.Vec // place, velocity and acceleration now
	p1, p2, v1, v2 line.Vec // one and two steps before
	rest, pull     float64
	grip           line.Grip
	airWeight      float64
	body           line.Body
	part           string   // what it is, if anything hangs here
	stiff          line.Mat // how the force here changes with the place, and the force
	force          line.Vec
	toUp           [4]line.Vec // how place and tension follow from the place of the one above: minus toUp times that,
	alone          [4]float64
}

// slackness is the product, N, of a piece's tension and the share by which it is shorter than the line in it: what lets
// it go slack without a jump. Where that is too hard to follow, it is tried with so much more.
const (
	slackness = 1e-5
	softer    = 1000
)

// Bounds of Newton's iteration in one step.
const (
	still     = 1e-6 // m that nothing moves any more
	rounds    = 60
	inAll     = 20_000
	undamped  = 10  // after so many rounds each goes but half way
	farthest  = 5   // m that anything may move in one round
	leastPull = 0.1 // of the tension that is left at least by one round
)

// Stiffness of the bottom, N/m, and the half thickness of the surface for a body that passes through it, m.
const (
	bedrock = 500
	skin    = 0.05
)

// step moves the tip to a place and everything else after it by one time step. It is false where the motion could not
// be found.
func (c *chain) step(tip line.Vec) bool {
	for i := range c.links {
		l := &c.links[i]
		l.p2, l.p1, l.v2, l.v1 = l.p1, l.p, l.v1, l.v
	}
	for c.soft = 1; c.soft <= softer; c.soft *= 10 {
		for i := range c.links {
			l := &c.links[i]
			l.p = l.p1.Plus(c.h, l.v1)
			l.pull = max(l.pull, c.soft*slackness)
		}
		c.links[len(c.links)-1].p = tip
		if c.balance(1.5 / c.h) {
			return true
		}
	}
	return false
}

// balance finds places and tensions in balance. A velocity changes by rate times the change of place; at rate 0 it is
// given, and the balance is that of a steady tow.
func (c *chain) balance(rate float64) bool {
	for n := range rounds {
		if c.rounds++; c.rounds > inAll {
			return false
		}
		damping := 1.
		if n >= undamped {
			damping = 0.5
		}
		moved := c.round(rate, damping)
		if moved != moved {
			return false
		}
		if moved < still {
			if rate > 0 {
				c.move(rate)
			}
			return true
		}
	}
	return false
}

// move sets velocities and accelerations to what the places make of them.
func (c *chain) move(rate float64) {
	back := -0.5 / c.h
	for i := range c.links {
		l := &c.links[i]
		for k := range 3 {
			l.v[k] = rate*l.p[k] + back*(4*l.p1[k]-l.p2[k])
			l.a[k] = rate*l.v[k] + back*(4*l.v1[k]-l.v2[k])
		}
	}
}

// round is one round of Newton's iteration; it returns how far anything moved.
func (c *chain) round(rate, damping float64) (moved float64) {
	if rate > 0 {
		c.move(rate)
	}
	last := len(c.links) - 1
	for i := range c.links {
		c.links[i].stiff, c.links[i].force = line.Mat{}, line.Vec{}
	}
	for i := range last {
		c.load(&c.links[i], rate)
		c.eliminate(&c.links[i], rate)
	}
	c.links[last].force = line.Vec{}
	for i := last - 1; i >= 0; i-- {
		l := &c.links[i]
		to := c.links[l.up].force // its move, by now
		d := line.Vec{}
		for k := range d {
			d[k] = l.alone[k] - l.toUp[k].Dot(to)
		}
		dt := l.alone[3] - l.toUp[3].Dot(to)
		size := d.Length()
		if size > farthest {
			d = line.Vec{}.Plus(farthest/size, d)
		}
		l.p = l.p.Plus(damping, d)
		l.force = d
		l.pull = max(l.pull+damping*dt, leastPull*l.pull)
		moved = max(moved, size)
	}
	return moved
}

// load adds what acts on the mass itself: its body, its inertia, the bottom.
func (c *chain) load(l *link, rate float64) {
	b, u := &l.body, c.through(l.p, l.v)
	depth := -l.p[2]
	wet := max(0, min((depth+skin)/(2*skin), 1))
	out := b.Mass*line.Gravity - b.Weight // what more it weighs in the air, near enough
	q := 0.5 * c.water.Rho * wet
	speed := u.Length()
	l.force = l.force.Plus(-q*b.DragArea*speed, u).Plus(-b.Mass, l.a)
	l.force[2] += q*b.LiftArea*(u[0]*u[0]+u[1]*u[1]) - b.Weight - (1-wet)*out
	if speed > 0 {
		l.stiff.Add(-q*b.DragArea*speed*rate, -q*b.DragArea/speed*rate, &u, &u)
	}
	l.stiff[2][0] += 2 * q * b.LiftArea * u[0] * rate
	l.stiff[2][1] += 2 * q * b.LiftArea * u[1] * rate
	l.stiff.Add(-b.Mass*rate*rate, 0, &u, &u)
	if wet > 0 && wet < 1 {
		l.stiff[2][2] -= max(out, 0) / (2 * skin)
	}
	if c.bottom > 0 && depth > c.bottom {
		l.force[2] += bedrock * (depth - c.bottom)
		l.stiff[2][2] -= bedrock
	}
}

// through is the velocity through the water of what moves at v.
func (c *chain) through(p, v line.Vec) line.Vec {
	if c.water.Sheared() {
		v[0] += c.water.At(-p[2]) - c.water.Speed
	}
	return v
}

// eliminate adds the forces of the piece above a mass to it and to the one above, and expresses place and tension by
// the place of that.
func (c *chain) eliminate(l *link, rate float64) {
	o := &c.links[l.up]
	span := o.p.Plus(-1, l.p)
	size := span.Length()
	t := line.Vec{}.Plus(1/size, span)
	gap := 1 - size/l.rest

	wet, byLowest, byHighest := wetPart(l.p[2], o.p[2])
	u := c.through(l.p.Plus(0.5, span), line.Vec{}.Plus(0.5, l.v).Plus(0.5, o.v))
	half := l.rest / 2
	drag, byU, byT := dragOn(&l.grip, u, t)
	weight := l.grip.Weight*wet + l.airWeight*(1-wet)
	added := half * l.grip.Added * wet

	each := line.Vec{}.Plus(-half*wet, drag)
	each[2] -= half * weight
	var byLow, byHigh, across line.Mat // how each half of the forces changes with the two places
	across.Add(1, -1, &t, &t)
	for i := range 3 {
		for j := range 3 {
			v, w := byU[i][j]*rate/2, byT[i][j]/size
			byLow[i][j], byHigh[i][j] = -half*wet*(v-w), -half*wet*(v+w)
		}
	}
	sinks := drag
	sinks[2] += l.grip.Weight - l.airWeight
	for i := range 3 {
		byLow[i][2] -= half * byLowest * sinks[i]
		byHigh[i][2] -= half * byHighest * sinks[i]
	}
	inert := half * l.grip.Mass
	for _, n := range []*link{l, o} {
		n.force = n.force.Plus(1, each).Plus(-inert-added, n.a).Plus(added*t.Dot(n.a), t)
	}
	l.force = l.force.Plus(l.pull, t)
	o.force = o.force.Plus(-l.pull, t)

	var a [4][8]float64 // own place and tension; place of the one above; force
	var down line.Mat   // how the force on the one above changes with this place
	geo := l.pull / size
	for i := range 3 {
		for j := range 3 {
			g, m := geo*across[i][j], added*rate*rate*across[i][j]
			if i == j {
				m += inert * rate * rate
			}
			a[i][j] = l.stiff[i][j] + byLow[i][j] - g - m
			a[i][4+j] = byHigh[i][j] + g
			down[i][j] = byLow[i][j] + g
			o.stiff[i][j] += byHigh[i][j] - g - m
		}
		a[i][3] = t[i]
		a[3][i] = -t[i] / l.rest
		a[3][4+i] = t[i] / l.rest
		a[i][7] = -l.force[i]
	}
	loose := slackness * max(c.soft, 1) / l.pull
	a[3][3] = -max(gap, loose) / l.pull
	a[3][7] = gap - loose
	gauss(&a)
	for i := range 4 {
		l.toUp[i] = line.Vec{a[i][4], a[i][5], a[i][6]}
		l.alone[i] = a[i][7]
	}
	for i := range 3 {
		for k := range 3 {
			o.force[i] += down[i][k] * l.alone[k]
			for j := range 3 {
				o.stiff[i][j] -= down[i][k] * l.toUp[k][j]
			}
		}
		o.force[i] -= t[i] * l.alone[3]
		for j := range 3 {
			o.stiff[i][j] += t[i] * l.toUp[3][j]
		}
	}
}

// wetPart is the share under water of a piece between two heights, and how it changes with each.
func wetPart(a, b float64) (wet, byA, byB float64) {
	switch d := a - b; {
	case max(a, b) <= 0:
		return 1, 0, 0
	case min(a, b) >= 0:
		return 0, 0, 0
	case a < b:
		return a / d, -b / (d * d), a / (d * d)
	default:
		return -b / d, b / (d * d), -a / (d * d)
	}
}

// gauss solves four equations for four right sides, in place.
func gauss(a *[4][8]float64) {
	for i := range 4 {
		best := i
		for k := i + 1; k < 4; k++ {
			if math.Abs(a[k][i]) > math.Abs(a[best][i]) {
				best = k
			}
		}
		a[i], a[best] = a[best], a[i]
		f := 1 / a[i][i]
		for j := i; j < 8; j++ {
			a[i][j] *= f
		}
		for k := range 4 {
			if f := a[k][i]; k != i && f != 0 {
				for j := i; j < 8; j++ {
					a[k][j] -= f * a[i][j]
				}
			}
		}
	}
}

// dragOn is the force per length on a line with tangent t that moves at u through the water, against the motion, and how
// that changes with u and, times the length of the piece, with the place of its upper end.
func dragOn(g *line.Grip, u, t line.Vec) (f line.Vec, byU, byT line.Mat) {
	along := u.Dot(t)
	n := u.Plus(-along, t)
	across := n.Length()
	square := g.Square * across
	cube := g.CubeRoot * line.CubeRoot(across)
	k, rise := square+cube, square+cube/3
	slide := g.Friction * math.Abs(along)
	f = line.Vec{}.Plus(k, n).Plus(slide*along, t)
	if across > 0 {
		n0 := line.Vec{}.Plus(1/across, n)
		byU.Add(0, rise, &n0, &n0)
		byT.Add(0, -rise*along, &n0, &n0)
	}
	byU.Add(k, 2*slide-k, &t, &t)
	byT.Add((slide-k)*along, (k-slide)*along, &t, &t)
	byT.Add(0, 2*slide-k, &t, &n)
	return f, byU, byT
}
