package towline

import "math"

// Law is the distribution of a depth. What is in doubt multiplies a depth more than it adds to it, so it is reckoned in
// the fourth root of the depth over a base, which lies above the rod tip: there the causes add up, and no depth is beyond
// it. A logarithm would do as well where the lure is deep, but not near the surface.
type Law struct {
	base float64 // how far above the surface the base lies, m
	root shape
}

// rootOf is the fourth root of a depth over the base, and depthOf the way back.
func rootOf(depth, base float64) float64 {
	if depth += base; depth < 0 {
		return 0
	}
	return math.Sqrt(math.Sqrt(depth))
}
func depthOf(root, base float64) float64 { root *= root; return root*root - base }

// Below is the chance to be less deep than x, m.
func (l *Law) Below(x float64) float64 { return l.root.below(rootOf(x, l.base)) }

// At is the depth below which it stays with the chance that a standard normal number stays below z, m.
func (l *Law) At(z float64) float64 { return depthOf(max(l.root.at(z), 0), l.base) }

// shape is a distribution by mean, standard deviation and skewness: the logarithmic normal one with an origin of its own,
// mirrored where the skewness is negative, normal where there is none. Unlike an expansion it is one at any skewness.
type shape struct {
	mean, sd, skew       float64
	width, scale, origin float64
}

// shapeOf has these moments.
func shapeOf(mean, variance, third float64) shape {
	s := shape{mean: mean, sd: math.Sqrt(variance)}
	if s.sd == 0 {
		return s
	}
	g := math.Abs(third / (variance * s.sd))
	if g < 1e-6 {
		return s
	}
	s.skew = third / (variance * s.sd)
	// With w the exponential of the width's square the skewness is (w + 2)·√(w − 1) (Johnson, Kotz and Balakrishnan,
	// Continuous Univariate Distributions 1, 14.3; from memory), a cubic equation in w.
	c := math.Cbrt(1 + g*g/2 + g*math.Sqrt(1+g*g/4))
	w := c + 1/c - 1
	s.width = math.Sqrt(math.Log(w))
	s.scale = s.sd / math.Sqrt(w*(w-1))
	s.origin = s.scale * math.Sqrt(w) // so far from the mean
	return s
}

func (s *shape) below(x float64) float64 {
	switch {
	case s.sd == 0:
		if x > s.mean {
			return 1
		}
		return 0
	case s.skew == 0:
		return normalBelow((x - s.mean) / s.sd)
	case s.skew < 0:
		return 1 - s.side(s.mean-x)
	}
	return s.side(x - s.mean)
}

// side is the chance to be less than d from the mean, on the side of the longer tail.
func (s *shape) side(d float64) float64 {
	if d += s.origin; d <= 0 {
		return 0
	}
	return normalBelow(math.Log(d/s.scale) / s.width)
}

func (s *shape) at(z float64) float64 {
	switch {
	case s.skew == 0:
		return s.mean + z*s.sd
	case s.skew < 0:
		return s.mean + s.origin - s.scale*math.Exp(-s.width*z)
	}
	return s.mean - s.origin + s.scale*math.Exp(s.width*z)
}

// normalBelow is the standard normal distribution function.
func normalBelow(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// times is the law of a multiple of the depth, nearly.
func (l *Law) times(by float64) Law {
	mean := l.root.mean
	scaled := rootOf(by*depthOf(mean, l.base), l.base)
	ratio := mean / scaled
	sd := l.root.sd * by * ratio * ratio * ratio
	return Law{l.base, shapeOf(scaled, sd*sd, l.root.skew*sd*sd*sd)}
}

// between is the law that lies by a share on the way to another, with the doubt of the bottom put to it as it is at the
// bottom's depth, if there is one.
func (l *Law) between(o *Law, share float64, bottom *Target) Law {
	way := func(a, b float64) float64 { return a + share*(b-a) }
	base, sd := way(l.base, o.base), max(way(l.root.sd, o.root.sd), 0)
	third := way(l.root.skew, o.root.skew) * sd * sd * sd
	square := sd * sd
	if bottom != nil {
		root := rootOf(bottom.Bottom, base)
		doubt := bottom.Doubt / (4 * root * root * root)
		square += doubt * doubt
	}
	return Law{base, shapeOf(way(l.root.mean, o.root.mean), square, third)}
}
