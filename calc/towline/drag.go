package towline

import "math"

// stream is the water as the line meets it.
type stream struct {
	rho, nu float64
	speed   float64
	layers  []Layer
	yaw     float64 // rate of turn, rad/s; 0 on a straight course, and with it what follows
	out     float64 // how much farther than the boat the line's free end is from the centre of the turn, m
	steps   int     // taken in it so far
}

// turn sets the stream on a course.
func (w *stream) turn(c course) { w.yaw, w.out = w.speed*c.curve, c.out }

func (w *stream) sheared() bool { return len(w.layers) > 0 }

// at is the speed of the stream at a depth, in m/s.
func (w *stream) at(depth float64) float64 {
	n := len(w.layers)
	if n == 0 {
		return w.speed
	}
	if depth <= w.layers[0].Depth {
		return w.speed + w.layers[0].Change
	}
	for i := 1; i < n; i++ {
		a, b := w.layers[i-1], w.layers[i]
		if depth < b.Depth {
			return w.speed + a.Change + (b.Change-a.Change)*(depth-a.Depth)/(b.Depth-a.Depth)
		}
	}
	return w.speed + w.layers[n-1].Change
}

// whiteExcess is Cn − 1 of White's fit at Reynolds number 1; it falls with Re^(−2/3).
const whiteExcess = 10

// flow is the velocity through the water of a place on the line, m/s: forward and outward, as state has it.
type flow struct{ x, y float64 }

// flow at a state: on a straight course that of the boat, in a turn what the turn about its centre makes of it.
func (c *climb) flow(y *state) flow {
	w := c.water
	switch {
	case w.yaw != 0:
		return flow{w.speed + w.yaw*(w.out+c.out+y.y), -w.yaw * (c.ahead + y.x)}
	case len(w.layers) > 0:
		return flow{w.at(c.depth - y.z), 0}
	}
	return flow{w.speed, 0}
}

// grip is what water and inertia do to a line of one kind, per length. With u the velocity through the water, u_n
// and u_t its parts across and along the line, the forces are (square·|u_n| + cubeRoot·∛|u_n|)·u_n and
// friction·|u_t|·u_t. The second term is White's excess drag: Re_n^(−2/3)·|u_n|·u_n is written without dividing by
// u_n, so that a line along the stream is no special case.
type grip struct{ square, cubeRoot, friction, weight, mass, added float64 }

func (p *piece) grip(w *stream) grip {
	q := 0.5 * w.rho * p.diameter
	g := grip{square: q * p.strum, friction: q * math.Pi * p.ct, weight: p.weight, mass: p.mass, added: p.added}
	if p.cn > 0 {
		g.square *= p.cn
	} else {
		c := math.Cbrt(p.diameter / w.nu)
		g.cubeRoot = g.square * whiteExcess / (c * c)
	}
	return g
}

// slope sets k to the change of tension and position per length of line.
func (c *climb) slope(y, k *state) {
	g, u := &c.g, c.flow(y)
	t := 1 / y.tension()
	x, out, z := y.tx*t, y.ty*t, y.tz*t
	along := u.x*x + u.y*out
	nx, ny, nz := u.x-along*x, u.y-along*out, -along*z
	across := math.Sqrt(nx*nx + ny*ny + nz*nz)
	n := g.square * across
	if g.cubeRoot != 0 {
		n += g.cubeRoot * cubeRoot(across)
	}
	f := g.friction * math.Abs(along) * along
	ax, ay := 0., 0.
	if yaw := c.water.yaw; yaw != 0 {
		// Centripetal acceleration, yaw × u; of the water taken along only the part across the line counts.
		ax, ay = yaw*u.y, -yaw*u.x
		f -= g.added * (ax*x + ay*out)
	}
	k.tx = n*nx + f*x + (g.mass+g.added)*ax
	k.ty = n*ny + f*out + (g.mass+g.added)*ay
	k.tz = n*nz + f*z + g.weight
	k.x, k.y, k.z = x, out, z
}

// pull adds the tension that holds a body in the flow: the opposite of all forces on it.
func (b *Body) pull(w *stream, u flow, y *state) {
	speed := math.Hypot(u.x, u.y)
	q := 0.5 * w.rho * speed
	y.tx += q*b.DragArea*u.x + b.Mass*w.yaw*u.y
	y.ty += q*b.DragArea*u.y - b.Mass*w.yaw*u.x
	y.tz += b.Weight - q*speed*b.LiftArea
	if w.yaw == 0 || speed == 0 {
		y.tx += b.PullAft
		return
	}
	y.tx += b.PullAft * u.x / speed
	y.ty += b.PullAft * u.y / speed
}

// stream sets the tension, so little of it, to the direction in which a bare line streams in balance: normal drag
// equals the normal part of its weight. It is where a free end without any load begins.
func (g *grip) stream(u flow, y *state, tension float64) {
	speed := math.Hypot(u.x, u.y)
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		mid := (lo + hi) / 2
		c, s := math.Cos(mid), math.Sin(mid)
		if n := s * speed; math.Abs(g.weight)*c > n*(g.square*n+g.cubeRoot*math.Cbrt(n)) {
			lo = mid
		} else {
			hi = mid
		}
	}
	y.tz = math.Copysign(math.Sin(lo)*tension, g.weight)
	if speed > 0 {
		y.tx, y.ty = math.Cos(lo)*tension*u.x/speed, math.Cos(lo)*tension*u.y/speed
	}
}

// cubeRoot of x ≥ 0 in two divisions: an estimate from the exponent, then Halley's iteration twice. It is half the
// cost of a solve, and math.Cbrt takes five; good to 1e-13.
func cubeRoot(x float64) float64 {
	if x < 1e-300 {
		return 0
	}
	y := math.Float64frombits(math.Float64bits(x)/3 + 0x2A9F7893782DA1CE)
	y3 := y * y * y
	y *= (y3 + 2*x) / (2*y3 + x)
	y3 = y * y * y
	return y * (y3 + 2*x) / (2*y3 + x)
}
