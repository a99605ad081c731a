package line

import (
	"math"
	"math/rand/v2"
	"testing"
)

// anyTow is a wire, a leader and now and then a three-way, with loads from a bare lure to pounds of lead, that float or sink.
func anyTow(r *rand.Rand) Tow {
	in := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	q := Tow{
		Sea: Sea{Water: Water{1025, 1.19e-6}, Speed: in(0.7, 2.6)}, TipHeight: in(0.3, 4),
		Sections: []Section{
			{Name: "wire", Length: in(20, 150), Diameter: in(0.35e-3, 0.65e-3), Weight: in(0.004, 0.03), Ct: 0.006, Strum: in(0.7, 2.5)},
			{Name: "leader", On: "wire", Length: in(1, 15), Diameter: in(0.5e-3, 1.1e-3), Weight: in(-0.0005, 0.001), Ct: 0.006, Strum: 1.35,
				End: Body{Weight: in(-0.3, 4), DragArea: in(5e-4, 8e-3), LiftArea: in(-4e-4, 4e-4)}},
		},
	}
	switch r.IntN(3) {
	case 0:
		q.Sections = append(q.Sections, Section{Name: "dropper", On: "wire", Length: in(0.3, 3), Diameter: 0.9e-3, Weight: 0.0007, Ct: 0.006, Strum: 1.35,
			End: Body{Weight: in(1, 9), DragArea: in(3e-4, 1.5e-3)}})
	case 1:
		q.Sections[0].End = Body{Weight: in(0.5, 7), DragArea: in(1e-4, 1e-3)}
	}
	return q
}

// settled is the line solved, as a part of ways where it is one.
func (t *Tow) settled(tb testing.TB, ways *Ways, tol float64) (l Lie, low float64, f Fault) {
	c, err := t.Climb()
	if err != nil {
		tb.Fatal(err)
	}
	c.EachTol(tol)
	c.Water.Ways = ways
	c.Reset(0)
	if l, f = c.Settle(c.Length(), t.TipHeight); f == Fine {
		low, _ = l.Lowest()
	}
	return l, low, f
}

// A line whose pieces are parts of ways lies as it does when it is followed for itself as exactly as can be, and is more exact
// than when that is done roughly; it does not matter what was asked before.
func TestPartsOfWays(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	var shared Ways
	var off, rough, worst float64
	parts, steps, own := 0, 0, 0
	for i := range 3000 {
		q := anyTow(r)
		exact, low, f := q.settled(t, nil, Exact)
		alone, _, _ := q.settled(t, nil, Rough)
		part, lowest, g := q.settled(t, &shared, Rough)
		if f != g {
			t.Errorf("line %d: %v, as a part %v", i, f.At("line"), g.At("line"))
		}
		if f != Fine || g != Fine {
			continue
		}
		own += *alone.Water.Steps
		u, v, w := exact.View(), alone.View(), part.View()
		for k := range 21 {
			s := exact.Length * float64(k) / 20
			x, y, z := u.Spot(s), v.Spot(s), w.Spot(s)
			rough += math.Abs(v.DepthOf(y) - u.DepthOf(x))
			here := math.Abs(w.DepthOf(z) - u.DepthOf(x))
			off += here
			worst = max(worst, here, math.Abs(z.Tension()/x.Tension()-1))
			if d := w.DepthAt(s); math.Abs(d-w.DepthOf(z)) > 1e-9 {
				t.Errorf("line %d: %v m deep, and %v m", i, d, w.DepthOf(z))
			}
			if up, ok := part.Reach(z.Z); s <= part.Entry && z.Z > 0 && (!ok || math.Abs(part.HeightAt(up)-z.Z) > 1e-9) {
				t.Errorf("line %d: it is at %v m, not %v m, at %v", i, part.HeightAt(up), z.Z, up)
			}
		}
		if math.Abs(low-lowest) > 0.01 {
			t.Errorf("line %d: lowest at %v m, as a part %v m", i, low, lowest)
		}
		if i%50 == 0 {
			if first, _, _ := q.settled(t, new(Ways), Rough); first.Depth != part.Depth || first.Top != part.Top {
				t.Errorf("line %d: %v m deep, with what was asked before %v", i, first.Depth, part.Depth)
			}
		}
		if part.parts[1].way != nil {
			parts++
		}
		again, _, _ := q.settled(t, &shared, Rough)
		steps += *again.Water.Steps
	}
	t.Logf("%.2f m off on the whole, roughly for itself %.2f m, at worst %.4f; %d wires were parts, with %d steps in place of %d", off, rough, worst, parts, steps, own)
	if worst > 0.01 || off > rough/3 {
		t.Errorf("at worst %v off, %v on the whole, roughly for itself %v", worst, off, rough)
	}
	if parts < 2000 || steps > own/3 {
		t.Errorf("%d of the wires were parts of a way, with %d steps in place of %d", parts, steps, own)
	}
}

// With next to nothing on it a line is so small a part that the way ends before it does: it is followed for itself.
func TestTooSmallAPart(t *testing.T) {
	q := Tow{Sea: Sea{Water: Water{1025, 1.19e-6}, Speed: 1.6}, TipHeight: 1, Sections: []Section{
		{Name: "wire", Length: 1500, Diameter: 0.5e-3, Weight: 0.0137, Ct: 0.006, Strum: 1, End: Body{Weight: 1e-6, DragArea: 1e-10}},
	}}
	own, _, f := q.settled(t, nil, Rough)
	part, _, g := q.settled(t, new(Ways), Rough)
	if f != Fine || g != Fine || math.Abs(own.Depth/part.Depth-1) > 1e-3 {
		t.Errorf("%v m deep, %v; as a part %v m, %v", own.Depth, f, part.Depth, g)
	}
}
