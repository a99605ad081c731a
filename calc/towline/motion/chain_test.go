package motion

import (
	"math"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/towline/turn"
)

// afloat is a rod's line as a chain that many times finer, under way, with the steady line it was made from.
func afloat(t testing.TB, sea line.Sea, rod towline.Rod, finer float64) (*chain, line.Lie) {
	s := towline.Setup{Sea: sea}
	s.Take(rod)
	l, f := s.Settle(towline.Offsets{}, line.Exact)
	if f != line.Fine {
		t.Fatal(f.At("line"))
	}
	c, ok := newChain(&l, line.Vec{0, 0, rod.TipHeight}, 0, finer)
	if !ok {
		t.Fatal("no balance")
	}
	return c, l
}

// On a straight course the chain's balance is the steady line, the closer the finer its pieces.
func TestChainAtRestIsTheSteadyLine(t *testing.T) {
	sheared := sample.Sea(3)
	sheared.Current = []line.Layer{{Depth: 0, Change: 0}, {Depth: 15, Change: -0.5}}
	for name, rod := range map[string]towline.Rod{"bare": sample.Rod(200, 5, 0), "drail": sample.Rod(200, 0, 8), "three-way": sample.ThreeWay(), "long": sample.Rod(700, 5, 4)} {
		for _, sea := range []line.Sea{sample.Sea(3.25), sheared} {
			for finer, within := range map[float64]float64{1: 0.02, 4: 0.004} {
				c, l := afloat(t, sea, rod, finer)
				if d := math.Hypot(-c.links[0].p[2]-l.Depth, -c.links[0].p[0]-l.Top.X); d > within {
					t.Errorf("%s, %v times finer: the lure is %v m from its place", name, finer, d)
				}
				expect.Near(t, name+" tension", c.links[len(c.links)-2].pull, l.Top.Tension(), 0.02)
			}
		}
	}
}

// turningBoat steers a chain's tip round a circle to starboard.
func turningBoat(c *chain, rod towline.Rod, speed, radius, seconds float64, each func()) {
	height := rod.TipHeight
	for n := 1; float64(n)*c.h <= seconds; n++ {
		angle := speed / radius * float64(n) * c.h
		if !c.step(line.Vec{radius * math.Sin(angle), radius * (1 - math.Cos(angle)), height}) {
			panic("no motion")
		}
		if each != nil {
			each()
		}
	}
}

// Turning on and on the line comes to the steady turn: depth, distance from the centre, tension.
func TestMotionSettlesToTheSteadyTurn(t *testing.T) {
	sea := sample.Sea(3.25)
	for _, radius := range []float64{60, 45} {
		for name, rod := range map[string]towline.Rod{"bare": sample.Rod(150, 5, 0), "drail": sample.Rod(150, 5, 8), "three-way": sample.ThreeWay()} {
			c, _ := afloat(t, sea, rod, 1)
			c.begin(0.25)
			turningBoat(c, rod, sea.Speed, radius, 300, nil)
			steady := turning(t, turn.Turn{Caution: towline.NowAndThen, Sea: sea, Toward: turn.Starboard, Radius: radius, Rods: []towline.Rod{rod}}).Rods[0]
			lure := c.links[0].p
			expect.Near(t, name+" depth", -lure[2], steady.Depth.Mid, 3e-3)
			expect.Near(t, name+" distance from the centre", math.Hypot(lure[0], lure[1]-radius), math.Hypot(radius-steady.Abeam, steady.Astern), 1e-3)
			expect.Near(t, name+" tension", c.links[len(c.links)-2].pull, steady.Tension, 0.02)
		}
	}
}

// A finer time step changes little, and half of it about a quarter of that: the method is of second order. So do finer
// pieces.
func TestMotionConverges(t *testing.T) {
	sea, rod := sample.Sea(3.25), sample.Rod(200, 5, 8)
	deepest := func(h, finer float64) (depth float64) {
		c, _ := afloat(t, sea, rod, finer)
		c.begin(h)
		turningBoat(c, rod, sea.Speed, 40, 40, func() { depth = math.Max(depth, -c.links[0].p[2]) })
		return depth
	}
	steps := []float64{deepest(0.5, 2), deepest(0.25, 2), deepest(0.125, 2)}
	if a, b := math.Abs(steps[1]-steps[0]), math.Abs(steps[2]-steps[1]); b > 0.01 || b > a/2.5 {
		t.Errorf("depth by time step: %v", steps)
	}
	finest := deepest(0.25, 4)
	rough, usual, fine := deepest(0.25, 0.25)-finest, deepest(0.25, 1)-finest, deepest(0.25, 2)-finest
	if math.Abs(usual) > 0.01 || math.Abs(usual) > math.Abs(rough)/4 || math.Abs(fine) > math.Abs(usual)/2 {
		t.Errorf("depth off by pieces: %v, %v, %v", rough, usual, fine)
	}
}

// hanging is a line of n pieces that hangs in the air.
func hanging(n int, length, weight float64) *chain {
	c := &chain{water: &line.Stream{Rho: 1025, Nu: 1.19e-6}}
	for i := range n {
		k := c.link()
		k.up, k.rest, k.airWeight = i+1, length/float64(n), weight
		k.grip.Mass = weight / line.Gravity
		k.p = line.Vec{0, 0, 30 - length + length*float64(i)/float64(n)}
		k.pull = weight * length * (float64(i) + .5) / float64(n)
	}
	c.link().p = line.Vec{0, 0, 30}
	return c
}

// A chain that hangs from its upper end swings, in its lowest mode, with the shape J0(j·√(z/L)) at the angular velocity
// (j/2)·√(g/L), j = 2.404826 the first zero of the Bessel function J0 (D. Bernoulli 1733; any text on vibrations). It
// keeps its energy, and so its reach, as nothing brakes it.
func TestHangingChainSwings(t *testing.T) {
	const j, length, weight, far = 2.404826, 10., 0.05, 0.05
	c := hanging(40, length, weight)
	for i := 39; i >= 0; i-- {
		k, above := &c.links[i], &c.links[i+1]
		k.p[0] = far * math.J0(j*math.Sqrt(float64(i)/40))
		dx := k.p[0] - above.p[0]
		k.p[2] = above.p[2] - math.Sqrt(k.rest*k.rest-dx*dx)
	}
	c.begin(0.02)
	last, crossed, reach := c.links[0].p[0], []float64{}, 0.
	for n := 1; n < 1200; n++ {
		if !c.step(line.Vec{0, 0, 30}) {
			t.Fatal("no motion")
		}
		if x := c.links[0].p[0]; x*last < 0 {
			crossed = append(crossed, 0.02*(float64(n)-x/(x-last)))
		}
		last = c.links[0].p[0]
		if n > 900 {
			reach = math.Max(reach, last)
		}
	}
	half := (crossed[len(crossed)-1] - crossed[0]) / float64(len(crossed)-1)
	expect.Near(t, "period", 2*half, 2*math.Pi/(j/2*math.Sqrt(line.Gravity/length)), 5e-3)
	expect.Near(t, "reach after three swings", reach, far, 5e-3)
}

// In the water what the tip's pull puts in goes into motion, height and drag.
func TestEnergyBalancesInATurn(t *testing.T) {
	sea, rod := sample.Sea(3.25), sample.Rod(200, 0, 8)
	c, _ := afloat(t, sea, rod, 2)
	c.begin(0.05)
	last := len(c.links) - 1
	stored := func() (e float64) {
		for i := range last {
			a, b := &c.links[i], &c.links[i+1]
			e += a.body.Weight*a.p[2] + a.body.Mass*a.v.Dot(a.v)/2
			tangent := b.p.Plus(-1, a.p)
			tangent = line.Vec{}.Plus(1/tangent.Length(), tangent)
			for _, k := range []*link{a, b} {
				across := k.v.Plus(-k.v.Dot(tangent), tangent)
				e += a.rest / 2 * (a.grip.Weight*k.p[2] + a.grip.Mass*k.v.Dot(k.v)/2 + a.grip.Added*across.Dot(across)/2)
			}
		}
		return e
	}
	put, lost, begun := 0., 0., stored()
	turningBoat(c, rod, sea.Speed, 40, 40, func() {
		for i := range last {
			a, b := &c.links[i], &c.links[i+1]
			span := b.p.Plus(-1, a.p)
			u := line.Vec{}.Plus(0.5, a.v).Plus(0.5, b.v)
			drag, _, _ := dragOn(&a.grip, u, line.Vec{}.Plus(1/span.Length(), span))
			lost += c.h * (a.rest*drag.Dot(u) + 0.5*1025*a.body.DragArea*math.Pow(a.v.Length(), 3))
		}
		// The pull of the tip: that of the piece below it and what its own half weighs, drags and weighs down.
		a, b := &c.links[last-1], &c.links[last]
		span := b.p.Plus(-1, a.p)
		tangent := line.Vec{}.Plus(1/span.Length(), span)
		drag, _, _ := dragOn(&a.grip, line.Vec{}.Plus(0.5, a.v).Plus(0.5, b.v), tangent)
		force := line.Vec{}.Plus(a.pull, tangent).Plus(a.rest/2, drag).Plus(a.rest/2*(a.grip.Mass+a.grip.Added), b.a)
		put += c.h * force.Dot(b.v)
	})
	if off := put - lost - (stored() - begun); math.Abs(off) > 0.003*put {
		t.Errorf("%v J put in, %v lost, %v stored", put, lost, stored()-begun)
	}
}
