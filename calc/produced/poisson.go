package produced

import "math"

// garwood is the exact interval of a Poisson mean of which k events were counted; alpha lies outside. k need not be whole:
// so many events as would tell as much.
func garwood(k, alpha float64) (low, high float64) {
	return gammaQuantile(k, alpha/2), gammaQuantile(k+1, 1-alpha/2)
}

// rateOf is events for time, with their interval. spread is the relative variance by which the rate differs between trips,
// as it reaches this count: 0 of a count that many trips share. mean is the number of events to expect, which is what
// widens an interval of none.
func rateOf(k, time, mean, spread, alpha float64) Interval {
	worth := 1.
	if k > 0 {
		worth = 1 / (1 + k*spread)
	} else {
		worth = 1 / (1 + mean*spread)
	}
	low, high := garwood(k*worth, alpha)
	return Interval{low / (time * worth), k / time, high / (time * worth)}
}

// beats is the chance that the first of two rates is the higher one, given events and times of both and a gamma prior of
// that shape and time.
func beats(k1, t1, k2, t2, shape, time float64) float64 {
	return 1 - betaBelow(k1+shape, k2+shape, (t1+time)/(t1+t2+2*time))
}

// ratio is the ratio of two rates with its exact conditional interval (of k1 out of k1 + k2, after Clopper and Pearson
// 1934) and the central p-value: twice the smaller tail, which never contradicts that interval. An upper end that there is
// not, is +Inf.
func ratio(k1, t1, k2, t2, alpha float64) (r Interval, p float64) {
	low, high := 0., math.Inf(1)
	if k1 > 0 {
		x := betaQuantile(k1, k2+1, alpha/2)
		low = x / (1 - x) * t2 / t1
	}
	if k2 > 0 {
		x := betaQuantile(k1+1, k2, 1-alpha/2)
		high = x / (1 - x) * t2 / t1
	}
	share := t1 / (t1 + t2)
	atLeast, atMost := 1., 1.
	if k1 > 0 {
		atLeast = betaBelow(k1, k2+1, share)
	}
	if k2 > 0 {
		atMost = 1 - betaBelow(k1+1, k2, share)
	}
	return Interval{low, k1 / t1 / (k2 / t2), high}, math.Min(1, 2*math.Min(atLeast, atMost))
}
