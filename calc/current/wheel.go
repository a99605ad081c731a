package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// The rules of a paddle wheel: judgements.
const (
	firstFactor = 0.12      // one standard deviation of the factor of a wheel that nobody has looked at
	firstZero   = 0.05      // the same of its zero, m/s
	leastFactor = 0.01      // of the factor, however much was learned: a wheel is not quite straight
	toldOf      = 0.9       // of the variance of the speed by the wheel: samples that leave more tell nothing of it by themselves
	openCurrent = 1e3       // m/s: one standard deviation of a current of which nothing is known, so that hundreds of runs tell nothing by it
	fouling     = 0.02      // by so much the factor may have changed in a day
	wheelNoise  = 0.07      // m/s: one standard deviation of a wheel's reading beside a fix
	huber       = 1.5       // standard deviations beyond which a sample pulls no harder (P. J. Huber, Robust Statistics, 1981)
	wheelSteps  = 20        // of the fit
	wheelLeast  = 8         // samples
	wheelTurns  = 0.1       // m/s: less is a wheel that stands
	wheelSlow   = 0.7       // of what it should read: less is weed
	wheelOdds   = 2.        // standard deviations from what it should read
	wheelWindow = 15.       // s: by the mean of so long it is judged
	tiedMost    = 0.9       // correlation of one sample with the next: more cannot be told
	together    = 7.5       // s on each side over which samples are taken together, lest their noise pass for changes of speed and heading
	tinyStep    = 1e-7      // m/s
	oneDay      = 24 * 3600 // s
)

// ToWheel learns what a paddle wheel reads wrong, together with the current: the speed through the water is zero + factor ×
// reading, and the velocity over ground less the current has that size. On a circle or on legs the samples tell both;
// steady on one heading they tell one combination of them, and the rest stays as it was known: that counts now, and is not
// kept, since the current's error is the same in the next run. The fit is least squares
// with what was known before as its prior (Gauss and Newton), of which large residuals pull no harder than moderate ones
// (Huber); samples that follow each other closely tell less than independent ones, by the correlation of their residuals
// (G. V. Bayley and J. M. Hammersley, Supplement to the Journal of the Royal Statistical Society 8 (1946) 184). A wheel
// that stands or turns too slowly teaches nothing, and is told. Errors are codec.Problems.
func ToWheel(q Wheel) (WheelAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return WheelAnswer{}, err
	}
	stream, of, _ := weigh(q.Current, q.Predicted)
	w := newWheelFit(&q, stream, of)
	a := WheelAnswer{State: w.state(), Used: len(w.ground)}
	last := w.read[max(0, len(w.read)-5):]
	w.leaveStanding()
	if a.State == WheelRuns && len(w.ground) >= wheelLeast {
		a.Learned = w.fit()
	}
	if a.Learned {
		// What a receiver smooths, all samples have in common.
		w.of[0][0] += smoothed * smoothed / 2
		w.of[1][1] += smoothed * smoothed / 2
		w.of[3][3] += leastFactor * leastFactor
	}
	w.tell(&a, last)
	alone := newWheelFit(&q, stream, spread{openCurrent * openCurrent, 0, openCurrent * openCurrent})
	a.Keep = alone.known()
	if a.Learned {
		alone.leaveStanding()
		alone.keep(&a)
	}
	return a, nil
}

// keep keeps what the samples tell of the wheel by themselves, if that is anything: what noise tells of it on one heading is
// little, and always wrong in the same direction.
func (w *wheelFit) keep(a *WheelAnswer) {
	row := stat.Row{0, 0, 1}
	for _, read := range w.read {
		row[3] += read / float64(len(w.read))
	}
	before := w.variance(&row)
	if w.fit() && w.variance(&row) < toldOf*before {
		a.Keep = w.known()
		a.Keep.FactorDoubt = math.Max(a.Keep.FactorDoubt, leastFactor)
	}
}

// wheelFit has the unknowns east, north, zero, factor, with their prior.
type wheelFit struct {
	ground []vec
	read   []float64
	times  []float64
	mean   stat.Row
	prior  stat.Equations // its left sides are the inverse of the prior's covariance
	now    stat.Row
	of     [4]stat.Row // covariance of now
}

// newWheelFit begins with what is known of the wheel, and of the current.
func newWheelFit(q *Wheel, stream vec, of spread) *wheelFit {
	w := &wheelFit{}
	last := math.Inf(-1)
	for i := range q.Samples {
		s := &q.Samples[i]
		if s.Accuracy > q.Poorest || s.Time <= last {
			continue
		}
		last = s.Time
		w.ground, w.read, w.times = append(w.ground, polar(s.Speed, s.Course)), append(w.read, s.Wheel), append(w.times, s.Time)
	}
	zero, factor := 0., 1.
	zz, ff, zf := firstZero*firstZero, firstFactor*firstFactor, 0.
	if k := q.Known; k != nil {
		days := k.Age / oneDay
		zero, factor = k.Zero, k.Factor
		zz, ff = k.ZeroDoubt*k.ZeroDoubt, k.FactorDoubt*k.FactorDoubt
		zf = k.Tied * k.ZeroDoubt * k.FactorDoubt
		// It knows no less than nothing.
		ff = math.Min(ff+fouling*fouling*days, firstFactor*firstFactor)
	}
	w.mean = stat.Row{stream.east, stream.north, zero, factor}
	w.now = w.mean
	w.of[0], w.of[1] = stat.Row{of.ee, of.en}, stat.Row{of.en, of.nn}
	w.of[2], w.of[3] = stat.Row{0, 0, zz, zf}, stat.Row{0, 0, zf, ff}
	stream2, wheel2 := of.ee*of.nn-of.en*of.en, zz*ff-zf*zf
	w.prior.Left[0], w.prior.Left[1] = stat.Row{of.nn / stream2, -of.en / stream2}, stat.Row{-of.en / stream2, of.ee / stream2}
	w.prior.Left[2], w.prior.Left[3] = stat.Row{0, 0, ff / wheel2, -zf / wheel2}, stat.Row{0, 0, -zf / wheel2, zz / wheel2}
	return w
}

// state judges the wheel by its last readings and what it should read by the velocity over ground and the prior.
func (w *wheelFit) state() WheelState {
	if len(w.ground) == 0 {
		return WheelUnknown
	}
	from := len(w.times) - 1
	for from > 0 && w.times[len(w.times)-1]-w.times[from-1] <= wheelWindow {
		from--
	}
	n := float64(len(w.times) - from)
	read, through := 0., 0.
	var row stat.Row
	for i := from; i < len(w.times); i++ {
		d := w.ground[i].minus(vec{w.now[0], w.now[1]})
		speed := math.Max(d.speed(), math.SmallestNonzeroFloat64)
		read += w.read[i] / n
		through += speed / n
		row[0] -= d.east / speed / n
		row[1] -= d.north / speed / n
	}
	row[2], row[3] = -1, -read
	by := through - w.now[2] - w.now[3]*read
	doubt := math.Sqrt(w.variance(&row) + smoothed*smoothed)
	should := (through - w.now[2]) / w.now[3]
	switch {
	case by > wheelOdds*doubt && read < wheelTurns:
		return WheelStands
	case by > wheelOdds*doubt && read < wheelSlow*should:
		return WheelDrags
	case read < wheelTurns:
		return WheelUnknown
	}
	return WheelRuns
}

// variance of what has this derivative.
func (w *wheelFit) variance(row *stat.Row) (v float64) {
	for i := range row {
		v += row[i] * w.of[i].Dot(row)
	}
	return math.Max(v, 0)
}

// leaveStanding leaves out what was read while the wheel stood: until it is judged to stand, that is no speed either.
func (w *wheelFit) leaveStanding() {
	ground, read, times := w.ground, w.read, w.times
	w.ground, w.read, w.times = nil, nil, nil
	for i := range read {
		if read[i] >= wheelTurns {
			w.ground, w.read, w.times = append(w.ground, ground[i]), append(w.read, read[i]), append(w.times, times[i])
		}
	}
}

// fit moves what is known to where prior and samples agree best; false: it stays as it was.
func (w *wheelFit) fit() bool {
	offs := make([]float64, len(w.ground))
	rows := make([]stat.Row, len(w.ground))
	sizes := make([]float64, len(w.ground))
	before := w.now
	read, towards := w.together()
	for step := range wheelSteps {
		for i, g := range w.ground {
			d := g.minus(vec{w.now[0], w.now[1]})
			speed := math.Max(d.speed(), 1e-6)
			offs[i] = speed - w.now[2] - w.now[3]*read[i]
			d = towards[i].minus(vec{w.now[0], w.now[1]})
			d = d.times(1 / math.Max(d.speed(), 1e-6))
			rows[i] = stat.Row{d.east, d.north, 1, read[i]}
			sizes[i] = math.Abs(offs[i])
		}
		sigma := math.Max(1.4826*stat.Median(sizes), wheelNoise)
		inflation := inflationOf(offs)
		q := w.prior
		for i := range q.Right {
			left := stat.Row{}
			for j := range left {
				left[j] = w.mean[j] - w.now[j]
			}
			q.Right[i] = w.prior.Left[i].Dot(&left)
		}
		for i := range rows {
			weight := 1 / (sigma * sigma * inflation)
			if size := math.Abs(offs[i]); size > huber*sigma {
				weight *= huber * sigma / size
			}
			q.Add(&rows[i], offs[i], weight)
		}
		if !q.Invert(4) {
			w.now = before
			return false
		}
		by := q.Times(&q.Right)
		for i := range by {
			w.now[i] += by[i]
		}
		w.of = q.Left
		if math.Abs(by[0])+math.Abs(by[1])+math.Abs(by[2])+math.Abs(by[3]) < tinyStep && step > 0 {
			break
		}
	}
	return w.now[3] > 0
}

// together is each reading, and each velocity for its direction, with those about it: on a circle their mean has the same
// direction.
func (w *wheelFit) together() (read []float64, towards []vec) {
	read, towards = make([]float64, len(w.read)), make([]vec, len(w.read))
	for i, at := range w.times {
		n := 0.
		for j, t := range w.times {
			if math.Abs(t-at) <= together {
				read[i] += w.read[j]
				towards[i] = towards[i].plus(w.ground[j])
				n++
			}
		}
		read[i] /= n
		towards[i] = towards[i].times(1 / n)
	}
	return read, towards
}

// inflationOf is by how much more a mean of such residuals varies than one of independent ones.
func inflationOf(offs []float64) float64 {
	var square, next float64
	for i, off := range offs {
		square += off * off
		if i > 0 {
			next += off * offs[i-1]
		}
	}
	r := math.Max(0, math.Min(tiedMost, next/math.Max(square, math.SmallestNonzeroFloat64)))
	return (1 + r) / (1 - r)
}

// known is what is known of the wheel now.
func (w *wheelFit) known() WheelKnown {
	zero, factor := math.Sqrt(w.of[2][2]), math.Sqrt(w.of[3][3])
	return WheelKnown{
		Zero: w.now[2], Factor: w.now[3], ZeroDoubt: zero, FactorDoubt: factor,
		Tied: math.Max(-1, math.Min(1, w.of[2][3]/(zero*factor))),
	}
}

// tell fills in the answer from what is known now, and what was read last.
func (w *wheelFit) tell(a *WheelAnswer, last []float64) {
	a.Known = w.known()
	zero, factor := a.Known.ZeroDoubt, a.Known.FactorDoubt
	a.Factor = Interval{w.now[3] - stat.Z90*factor, w.now[3], w.now[3] + stat.Z90*factor}
	a.Zero = Interval{w.now[2] - stat.Z90*zero, w.now[2], w.now[2] + stat.Z90*zero}
	c := vec{w.now[0], w.now[1]}
	east, north := math.Sqrt(w.of[0][0]), math.Sqrt(w.of[1][1])
	a.Current = Current{Set: c.bearing(), Drift: c.speed(), DoubtEast: east, DoubtNorth: north, Tied: math.Max(-1, math.Min(1, w.of[0][1]/(east*north)))}
	if n := float64(len(last)); n > 0 && a.State == WheelRuns {
		sum := 0.
		for _, read := range last {
			sum += read / n
		}
		row := stat.Row{0, 0, 1, sum}
		a.Water = speedAbout(w.now[2]+w.now[3]*sum, stat.Z90*math.Sqrt(w.variance(&row)+wheelNoise*wheelNoise/n))
	}
}
