package line

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
)

// Stream is the water as the line meets it.
type Stream struct {
	Rho, Nu float64
	Speed   float64
	layers  []Layer
	yaw     float64 // rate of turn, rad/s; 0 on a straight course, and with it what follows
	out     float64 // how much farther than the boat the line's free end is from the centre of the turn, m
	Steps   *int    // taken so far, by all lines that share the count
	Ways    *Ways   // that rough solutions are parts of; nil without
}

// Turn sets the stream on a course.
func (w *Stream) Turn(c Course) { w.yaw, w.out = w.Speed*c.Curve, c.Out }

// Sheared says whether it changes with depth.
func (w *Stream) Sheared() bool { return len(w.layers) > 0 }

// At is the speed of the stream at a depth, in m/s.
func (w *Stream) At(depth float64) float64 {
	n := len(w.layers)
	if n == 0 {
		return w.Speed
	}
	if depth <= w.layers[0].Depth {
		return w.Speed + w.layers[0].Change
	}
	for i := 1; i < n; i++ {
		a, b := w.layers[i-1], w.layers[i]
		if depth < b.Depth {
			return w.Speed + a.Change + (b.Change-a.Change)*(depth-a.Depth)/(b.Depth-a.Depth)
		}
	}
	return w.Speed + w.layers[n-1].Change
}

// whiteExcess is Cn − 1 of White's fit at Reynolds number 1; it falls with Re^(−2/3).
const whiteExcess = 10

// flow is the velocity through the water of a place on the line, m/s: forward and outward, as state has it.
type flow struct{ x, y float64 }

// flow at a state: on a straight course that of the boat, in a turn what the turn about its centre makes of it.
func (c *Climb) flow(y *State) flow {
	w := c.Water
	switch {
	case w.yaw != 0:
		return flow{w.Speed + w.yaw*(w.out+c.out+y.Y), -w.yaw * (c.ahead + y.X)}
	case len(w.layers) > 0:
		return flow{w.At(c.Depth - y.Z), 0}
	}
	return flow{w.Speed, 0}
}

// Grip is what water and inertia do to a line of one kind, per length. With u the velocity through the water, u_n
// and u_t its parts across and along the line, the forces are (square·|u_n| + cubeRoot·∛|u_n|)·u_n and
// friction·|u_t|·u_t. The second term is White's excess drag: Re_n^(−2/3)·|u_n|·u_n is written without dividing by
// u_n, so that a line along the stream is no special case.
type Grip struct{ Square, CubeRoot, Friction, Weight, Mass, Added float64 }

// Grip is what the water does to the piece.
func (p *Piece) Grip(w *Stream) Grip {
	q := 0.5 * w.Rho * p.Diameter
	g := Grip{Square: q * p.Strum, Friction: q * math.Pi * p.Ct, Weight: p.Weight, Mass: p.Mass, Added: p.Added}
	if p.Cn > 0 {
		g.Square *= p.Cn
	} else {
		c := math.Cbrt(p.Diameter / w.Nu)
		g.CubeRoot = g.Square * whiteExcess / (c * c)
	}
	return g
}

// slope sets k to the change of tension and position per length of line.
func (c *Climb) slope(y, k *State) {
	g, u := &c.g, c.flow(y)
	if c.Water.yaw == 0 {
		g.slope(u.x, y, k)
		return
	}
	t := 1 / y.Tension()
	x, out, z := y.Tx*t, y.Ty*t, y.Tz*t
	along := u.x*x + u.y*out
	nx, ny, nz := u.x-along*x, u.y-along*out, -along*z
	across := math.Sqrt(nx*nx + ny*ny + nz*nz)
	n := g.Square * across
	if g.CubeRoot != 0 {
		n += g.CubeRoot * CubeRoot(across)
	}
	// Centripetal acceleration, yaw × u; of the water taken along only the part across the line counts.
	ax, ay := c.Water.yaw*u.y, -c.Water.yaw*u.x
	f := g.Friction*math.Abs(along)*along - g.Added*(ax*x+ay*out)
	k.Tx = n*nx + f*x + (g.Mass+g.Added)*ax
	k.Ty = n*ny + f*out + (g.Mass+g.Added)*ay
	k.Tz = n*nz + f*z + g.Weight
	k.X, k.Y, k.Z = x, out, z
}

// slope is that on a straight course, where all lies in one plane. What need not wait for the root does not.
func (g *Grip) slope(speed float64, y, k *State) {
	square := y.Tx*y.Tx + y.Tz*y.Tz
	t := math.Sqrt(square)
	by := speed * math.Abs(speed) / (square * t)
	x, z := y.Tx/t, y.Tz/t
	f, n := g.Friction*math.Abs(y.Tx), g.Square*math.Abs(y.Tz)
	k.Tx, k.Ty = (n*y.Tz*y.Tz+f*y.Tx*y.Tx)*by, 0
	k.Tz = y.Tx*y.Tz*(f-n)*by + g.Weight
	if g.CubeRoot != 0 {
		across := speed * z
		e := g.CubeRoot * CubeRoot(math.Abs(across)) * across
		k.Tx += e * z
		k.Tz -= e * x
	}
	k.X, k.Y, k.Z = x, 0, z
}

// pull adds the tension that holds a body in the flow: the opposite of all forces on it.
func (b *Body) pull(w *Stream, u flow, y *State) {
	speed := math.Hypot(u.x, u.y)
	q := 0.5 * w.Rho * speed
	y.Tx += q*b.DragArea*u.x + b.Mass*w.yaw*u.y
	y.Ty += q*b.DragArea*u.y - b.Mass*w.yaw*u.x
	y.Tz += b.Weight - q*speed*b.LiftArea
	if speed == 0 {
		y.Tx += b.PullAft
		return
	}
	y.Tx += b.PullAft * u.x / speed
	y.Ty += b.PullAft * u.y / speed
}

// stream sets the tension, so little of it, to the direction in which a bare line streams in balance: normal drag
// equals the normal part of its weight. It is where a free end without any load begins.
func (g *Grip) stream(u flow, y *State, tension float64) {
	speed := math.Hypot(u.x, u.y)
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		mid := (lo + hi) / 2
		c, s := math.Cos(mid), math.Sin(mid)
		if n := s * speed; math.Abs(g.Weight)*c > n*(g.Square*n+g.CubeRoot*math.Cbrt(n)) {
			lo = mid
		} else {
			hi = mid
		}
	}
	y.Tz = math.Copysign(math.Sin(lo)*tension, g.Weight)
	if speed > 0 {
		y.Tx, y.Ty = math.Cos(lo)*tension*u.x/speed, math.Cos(lo)*tension*u.y/speed
	}
}

// CubeRoot of x ≥ 0 in two divisions: an estimate from the exponent, then Halley's iteration twice. It is half the
// cost of a solve, and math.Cbrt takes five; good to 1e-13.
func CubeRoot(x float64) float64 {
	if x < 1e-300 {
		return 0
	}
	y := math.Float64frombits(math.Float64bits(x)/3 + 0x2A9F7893782DA1CE)
	y3 := y * y * y
	y *= (y3 + 2*x) / (2*y3 + x)
	y3 = y * y * y
	return y * (y3 + 2*x) / (2*y3 + x)
}

// Course is the turn a line is solved in: 1 over the radius of the boat's path, and how much farther than the boat the
// line's free end is from its centre. Zero is straight.
type Course struct{ Curve, Out float64 }

// Check is what the ranges of single fields cannot say. Errors are codec.Problems.
func (s *Sea) Check(field string) error {
	for i := 1; i < len(s.Current); i++ {
		if s.Current[i].Depth <= s.Current[i-1].Depth {
			return codec.Fault(field+".current["+strconv.Itoa(i)+"].depth", "depthsMixed", "must be greater than the depth before it")
		}
	}
	return nil
}

// Stream is the water as a line meets it, with a count of steps.
func (s *Sea) Stream(steps *int) Stream {
	return Stream{Rho: s.Water.Density, Nu: s.Water.Viscosity, Speed: s.Speed, layers: s.Current, Steps: steps}
}

// CheckBottom asks for the depth of water.
func (s *Sea) CheckBottom(field string) error {
	if s.Bottom <= 0 {
		return codec.Fault(field+".bottom", "noBottom", "must be given: the depth of water under the line")
	}
	return nil
}

// CheckUniform asks for a current that is the same at every depth.
func (s *Sea) CheckUniform(field string) error {
	if len(s.Current) > 0 {
		return codec.Fault(field+".current", "turnInShear", "must be empty: a turn is steady only in a current that is the same at every depth")
	}
	return nil
}
