package produced

import (
	"math"

	"wirewake/calc/stat"
)

// gammaBelow is the regularised incomplete gamma function P(a, x): by its series where x is small, by its continued
// fraction after Lentz elsewhere (Abramowitz and Stegun 6.5.29 and 6.5.31).
func gammaBelow(a, x float64) float64 {
	if x <= 0 {
		return 0
	}
	lg, _ := math.Lgamma(a)
	head := math.Exp(a*math.Log(x) - x - lg)
	if x < a+1 {
		term := 1 / a
		sum := term
		for n := a + 1; term > sum*1e-16; n++ {
			term *= x / n
			sum += term
		}
		return sum * head
	}
	return 1 - head*fraction(x+1-a, func(i float64) (float64, float64) { return -i * (i - a), x + 2*i + 1 - a })
}

// fraction is 1/(b0 + a1/(b1 + a2/(b2 + …))).
func fraction(b0 float64, step func(i float64) (a, b float64)) float64 {
	const tiny = 1e-300
	d := 1 / b0
	c, h := 1/tiny, d
	for i := 1.; i < 10_000; i++ {
		a, b := step(i)
		d, c = a*d+b, b+a/c
		if d == 0 {
			d = tiny
		}
		if c == 0 {
			c = tiny
		}
		d = 1 / d
		h *= d * c
		if math.Abs(d*c-1) < 1e-15 {
			break
		}
	}
	return h
}

// gammaQuantile is the x below which a gamma variable of shape a and rate 1 is with chance p. Half of the chi-squared
// quantile with 2a degrees of freedom is the same.
func gammaQuantile(a, p float64) float64 {
	if a <= 0 || p <= 0 {
		return 0
	}
	// The median lies near a; the tails end long before these bounds.
	low, high := -800., math.Log(a+40+20*math.Sqrt(a))
	return math.Exp(stat.Root(func(l float64) float64 { return gammaBelow(a, math.Exp(l)) - p }, low, high, 1e-13))
}

// betaBelow is the regularised incomplete beta function I_x(a, b) (Abramowitz and Stegun 26.5.8).
func betaBelow(a, b, x float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= 1:
		return 1
	case x > (a+1)/(a+b+2):
		return 1 - betaBelow(b, a, 1-x)
	}
	la, _ := math.Lgamma(a)
	lb, _ := math.Lgamma(b)
	lab, _ := math.Lgamma(a + b)
	head := math.Exp(lab - la - lb + a*math.Log(x) + b*math.Log1p(-x))
	return head / a * fraction(1, func(i float64) (float64, float64) {
		m := math.Floor(i / 2)
		if i != 2*m {
			return -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1)), 1
		}
		return m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m)), 1
	})
}

// betaQuantile is the x with I_x(a, b) = p.
func betaQuantile(a, b, p float64) float64 {
	// By the logit, so that both ends are told apart.
	l := stat.Root(func(l float64) float64 { return betaBelow(a, b, 1/(1+math.Exp(-l))) - p }, -500, 500, 1e-12)
	return 1 / (1 + math.Exp(-l))
}

// above is the chance that a standard normal variable exceeds z.
func above(z float64) float64 { return math.Erfc(z/math.Sqrt2) / 2 }

// exceeded is the z that is exceeded with chance p.
func exceeded(p float64) float64 {
	p = math.Min(math.Max(p, 1e-300), 1-1e-15)
	return stat.Root(func(z float64) float64 { return math.Log(above(z) / p) }, -8, 37.5, 1e-9)
}
