package plan

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/towline/steady"
)

// compare finds the two lines that come closest, of the rods that are set.
func (p *planner) compare(set []int, rods []steady.RodAnswer) {
	for k, i := range set {
		for l, j := range set[:k] {
			if rods[k].Trouble != nil || rods[l].Trouble != nil {
				continue
			}
			a, b := &p.q.Rods[j], &p.q.Rods[i]
			upright, astern := closestApproach(&rods[l].Curve, &rods[k].Curve, a.Ahead-b.Ahead)
			pair := Pair{j, i, math.Hypot(a.Abeam-b.Abeam, upright), astern - a.Ahead}
			if p.a.Closest == nil || pair.Distance < p.a.Closest.Distance {
				p.a.Closest = &pair
			}
		}
	}
}

// closestApproach is the least distance of two curves seen from the side, of which the second begins so much farther
// abaft, and how far behind the first tip that is.
func closestApproach(a, b *towline.Curve, abaft float64) (distance, astern float64) {
	distance = math.Inf(1)
	near := func(x, y float64, c *towline.Curve, shift, back float64) {
		for m := 1; m < len(c.Astern); m++ {
			px, py := x-shift-c.Astern[m-1], y-c.Depth[m-1]
			dx, dy := c.Astern[m]-c.Astern[m-1], c.Depth[m]-c.Depth[m-1]
			q := 0.
			if square := dx*dx + dy*dy; square > 0 {
				q = math.Max(0, math.Min(1, (px*dx+py*dy)/square))
			}
			if d := math.Hypot(px-q*dx, py-q*dy); d < distance {
				distance, astern = d, x+back
			}
		}
	}
	for m := range a.Astern {
		near(a.Astern[m], a.Depth[m], b, abaft, 0)
	}
	for m := range b.Astern {
		near(b.Astern[m], b.Depth[m], a, -abaft, abaft)
	}
	return distance, astern
}
