package produced

import (
	"math"

	"wirewake/calc/stat"
)

// counted is what one level counted, worth so many events in so long.
type counted struct{ events, time float64 }

// The grid over which the standard deviation of the logarithms of the levels' rates is averaged, and that of its
// half-normal prior: a judgement, by which a factor of two between levels is usual enough.
const (
	narrowest, widest = 0.03, 2.
	widths            = 14
	usual             = 0.5
)

// draw is the levels' rates drawn towards each other, with their intervals. The rates are gamma with mean m and shape
// 1/w²; m is fitted for each width w, and w averaged over.
func draw(levels []counted, alpha float64) []Interval {
	var all counted
	for _, l := range levels {
		all.events += l.events
		all.time += l.time
	}
	rates := make([]Interval, len(levels))
	if all.events == 0 {
		for i, l := range levels {
			rates[i] = rateOf(0, l.time, 0, 0, alpha)
		}
		return rates
	}
	shapes, times, weights := make([]float64, widths), make([]float64, widths), make([]float64, widths)
	best := math.Inf(-1)
	for i := range widths {
		w := narrowest * math.Pow(widest/narrowest, float64(i)/(widths-1))
		shape := 1 / (w * w)
		mean := meanRate(levels, all.events/all.time, shape)
		shapes[i], times[i] = shape, shape/mean
		// The grid is even in log w: the width is its weight.
		weights[i] = marginal(levels, shape, shape/mean) - w*w/(2*usual*usual) + math.Log(w)
		best = math.Max(best, weights[i])
	}
	sum := 0.
	for i := range weights {
		weights[i] = math.Exp(weights[i] - best)
		sum += weights[i]
	}
	for i, l := range levels {
		mid := 0.
		for j, w := range weights {
			mid += w / sum * (l.events + shapes[j]) / (l.time + times[j])
		}
		quantile := func(p float64) float64 {
			below := func(log float64) float64 {
				chance := 0.
				for j, w := range weights {
					if w > sum*1e-9 {
						chance += w / sum * gammaBelow(l.events+shapes[j], math.Exp(log)*(l.time+times[j]))
					}
				}
				return chance - p
			}
			return math.Exp(stat.Root(below, math.Log(mid)-15, math.Log(mid)+8, 1e-6))
		}
		rates[i] = Interval{quantile(alpha / 2), mid, quantile(1 - alpha/2)}
	}
	return rates
}

// meanRate is the mean of the prior of this shape that makes the counts likeliest: where
// sum of (k - mt)/(1 + mt/shape) is 0.
func meanRate(levels []counted, guess, shape float64) float64 {
	log := stat.Root(func(log float64) float64 {
		m, slope := math.Exp(log), 0.
		for _, l := range levels {
			slope += (l.events - m*l.time) / (1 + m*l.time/shape)
		}
		return slope
	}, math.Log(guess)-20, math.Log(guess)+20, 1e-9)
	return math.Exp(log)
}

// marginal is the logarithm of the chance of the counts, negative binomial, but for what is the same for every prior.
func marginal(levels []counted, shape, time float64) float64 {
	sum := 0.
	lg, _ := math.Lgamma(shape)
	for _, l := range levels {
		la, _ := math.Lgamma(shape + l.events)
		sum += la - lg + shape*math.Log(time/(time+l.time)) - l.events*math.Log(time+l.time)
	}
	return sum
}
