package calibrate

import "math"

// reading is the likelihood of one observation as a function of what should be read. Of an Entry and a Pull that is a
// logarithm.
type reading struct {
	clear  bool
	read   float64
	common float64 // one standard deviation of what the instrument is off
	own    float64 // variance of the rest, as told
	extra  float64 // added to it because the others speak against it; infinite of one that is set aside
	trust  float64
}

// readingOf is what an observation reads; its parts not yet checked.
func (q *Query) readingOf(o *Observation) reading {
	r := reading{clear: o.Kind == Clear, trust: o.Trust}
	doubt := o.ReadingDoubt
	or := func(usual float64) {
		if doubt == 0 {
			doubt = usual
		}
	}
	switch o.Kind {
	case Ticks, Clear:
		or(q.BottomDoubt)
		r.read, r.common, r.own = o.Sea.Bottom, q.TideDoubt, doubt*doubt
		return r
	case Known:
		or(q.KnownDoubt)
		r.read = o.Sea.Bottom
	case Angle:
		or(q.AngleDoubt)
		r.read = o.Angle
	case Entry:
		or(q.EntryDoubt)
		r.read = math.Log(o.Entry)
	case Pull:
		or(q.PullDoubt)
		r.read = math.Log(o.Pull)
	}
	// Half of the variance is the instrument's: a judgement.
	r.common, r.own = doubt/math.Sqrt2, doubt*doubt/2
	return r
}

// variance of the reading.
func (r *reading) variance() float64 { return r.own + r.extra }

// aside says that the reading does not count at all.
func (r *reading) aside() bool { return math.IsInf(r.extra, 1) }

// cost is the negative logarithm of the likelihood, up to a constant, where value should be read.
func (r *reading) cost(value float64) float64 {
	z := (r.read - value) / math.Sqrt(r.variance())
	if r.clear {
		return -r.trust * logPhi(z)
	}
	return r.trust * z * z / 2
}

// derivatives are the first and the negative second of the logarithm of the likelihood.
func (r *reading) derivatives(value float64) (first, second float64) {
	sd := math.Sqrt(r.variance())
	z := (r.read - value) / sd
	if !r.clear {
		return r.trust * z / sd, r.trust / r.variance()
	}
	h := hazard(z)
	return -r.trust * h / sd, r.trust * h * (z + h) / r.variance()
}

// farLeft is where the normal distribution is taken by its asymptotic expansion.
const farLeft = -25

// logPhi is the logarithm of the standard normal distribution function.
func logPhi(z float64) float64 {
	if z < farLeft {
		return -z*z/2 - math.Log(-z*math.Sqrt(2*math.Pi)) - 1/(z*z) + 2.5/(z*z*z*z) // Abramowitz and Stegun 26.2.12
	}
	return math.Log(phi(z))
}

// hazard is the standard normal density over its distribution function.
func hazard(z float64) float64 {
	if z < farLeft {
		return -z - 1/z + 2/(z*z*z) // of the same
	}
	return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / phi(z)
}

// phi is the standard normal distribution function.
func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
