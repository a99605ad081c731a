package towline

import "math"

// stream is the water as the line meets it.
type stream struct {
	rho, nu float64
	speed   float64
	layers  []Layer
	steps   int // taken in it so far
}

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

// grip is what the stream does to a line of one kind, per length. With t the tangent, the normal force is
// (square·|tz| + cubeRoot·∛|tz|)·tz and the tangential one friction·|tx|·tx. The second term is White's excess
// drag: Re_n^(−2/3)·|tz|·tz is written without dividing by tz, so that a line along the stream is no special case.
type grip struct{ square, cubeRoot, friction, weight float64 }

func (p *piece) grip(w *stream, depth float64) grip {
	u := w.at(depth)
	q := 0.5 * w.rho * p.diameter * u * math.Abs(u)
	g := grip{square: q * p.strum, friction: q * math.Pi * p.ct, weight: p.weight}
	switch {
	case p.cn > 0:
		g.square *= p.cn
	case u != 0:
		c := math.Cbrt(math.Abs(u) * p.diameter / w.nu)
		g.cubeRoot = g.square * whiteExcess / (c * c)
	}
	return g
}

// slope is the change of tension and position per length of line.
func (g *grip) slope(y *state) state {
	t := 1 / math.Sqrt(y.tx*y.tx+y.tz*y.tz)
	tx, tz := y.tx*t, y.tz*t
	across := math.Abs(tz)
	n := g.square * across * tz
	if g.cubeRoot != 0 {
		n += g.cubeRoot * cubeRoot(across) * tz
	}
	f := g.friction * math.Abs(tx) * tx
	return state{n*tz + f*tx, f*tz - n*tx + g.weight, tx, tz}
}

// pull is the tension vector that holds a body in the stream: the opposite of all forces on it.
func (b *Body) pull(w *stream, depth float64) (tx, tz float64) {
	u := w.at(depth)
	q := 0.5 * w.rho * u * math.Abs(u)
	return q*b.DragArea + b.PullAft, b.Weight - math.Abs(q)*b.LiftArea
}

// criticalTangent is the direction in which a bare line streams in balance: normal drag equals the normal part
// of its weight. It is where a free end without any load begins.
func (g *grip) criticalTangent() (tx, tz float64) {
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		mid := (lo + hi) / 2
		c, s := math.Cos(mid), math.Sin(mid)
		if math.Abs(g.weight)*c > math.Abs(g.square*s*s+g.cubeRoot*math.Cbrt(s)*s) {
			lo = mid
		} else {
			hi = mid
		}
	}
	tx, tz = math.Cos(lo), math.Sin(lo)
	if g.square < 0 {
		tx = -tx
	}
	if g.weight < 0 {
		tz = -tz
	}
	return tx, tz
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
