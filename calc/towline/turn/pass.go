package turn

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// run is the course of a line, or of the dropper on it, and the rod it belongs to.
type run struct {
	rod int
	*towline.Curve
}

// dry says whether the part of the run up to a point is in the air; where it leaves the water there is a point.
func (r *run) dry(k int) bool { return min(r.Depth[k-1], r.Depth[k]) < -line.AtTip }

func (r *run) point(k int) line.Vec { return line.Vec{r.Astern[k], r.Abeam[k], r.Depth[k]} }

// closest is where the lines of two rods come nearest to each other under water; nil without two lines.
func closest(runs []run) (near *Pass) {
	best := math.Inf(1)
	for i := range runs {
		for j := range i {
			if a, b := &runs[j], &runs[i]; a.rod != b.rod {
				a.pass(b, &best, &near)
			}
		}
	}
	return near
}

// pass looks for a place where two runs are nearer than the best so far, which is the square of a distance.
func (r *run) pass(o *run, best *float64, near **Pass) {
	for i := 1; i < len(r.Depth); i++ {
		if r.dry(i) {
			continue
		}
		p, q := r.point(i-1), r.point(i)
		u := q.Plus(-1, p)
		for j := 1; j < len(o.Depth); j++ {
			if o.dry(j) {
				continue
			}
			a, b := o.point(j-1), o.point(j)
			if apart(&p, &q, &a, &b, *best) {
				continue
			}
			v := b.Plus(-1, a)
			s, t := nearest(u, v, p.Plus(-1, a))
			m, n := p.Plus(s, u), a.Plus(t, v)
			w := n.Plus(-1, m)
			if d := w.Dot(w); d < *best {
				*best = d
				m = m.Plus(0.5, w)
				*near = &Pass{r.rod, o.rod, math.Sqrt(d), m[2], m[0], m[1]}
			}
		}
	}
}

// apart says whether the boxes about two pieces, from p to q and from a to b, are farther from each other than best,
// squared.
func apart(p, q, a, b *line.Vec, best float64) bool {
	for k := range p {
		gap := max(min(a[k], b[k])-max(p[k], q[k]), min(p[k], q[k])-max(a[k], b[k]))
		if gap > 0 && gap*gap > best {
			return true
		}
	}
	return false
}

// nearest is where on two straight pieces with the directions u and v, w from the start of the second to that of the
// first, these are nearest to each other, as shares of their lengths.
func nearest(u, v, w line.Vec) (s, t float64) {
	unit := func(x float64) float64 { return max(0, min(x, 1)) }
	uu, uv, vv, uw, vw := u.Dot(u), u.Dot(v), v.Dot(v), u.Dot(w), v.Dot(w)
	if uu == 0 || vv == 0 {
		if uu > 0 {
			s = unit(-uw / uu)
		} else if vv > 0 {
			t = unit(vw / vv)
		}
		return s, t
	}
	if area := uu*vv - uv*uv; area > 1e-12*uu*vv {
		s = unit((uv*vw - vv*uw) / area)
	}
	if t = (uv*s + vw) / vv; t < 0 || t > 1 {
		t = unit(t)
		s = unit((t*uv - uw) / uu)
	}
	return s, t
}
