package current

import (
	"math"

	"wirewake/calc/stat"
)

// The rules of the fit.
const (
	begins  = 100  // circles through three samples to begin with
	looks   = 100  // samples that judge them
	passes  = 10   // of setting samples aside and fitting the others
	newtons = 30   // steps of one fit
	farOff  = 4    // robust standard deviations beyond which a sample is set aside
	grain   = 0.02 // of the radius: so much a sample may always be off
	huge    = 1e6  // m/s: no circle but a line
)

// fit is one current and one speed through the water, or two with a change between them, fitted to velocities over
// ground in the order of time.
type fit struct {
	velocities []vec
	times      []float64 // s; only where the speed wanders
	wander     float64   // standard deviation of that, relative
	centre     vec
	radius     [2]float64 // before and after the change
	split      int        // first sample after it
	out        []bool     // set aside
	offs       []float64  // how far each lies outside its circle
	rows       []stat.Row // the derivatives of that, by what the fit moves
}

// newFit has nothing fitted yet.
func newFit(velocities []vec, times []float64, wander float64) *fit {
	n := len(velocities)
	return &fit{velocities: velocities, times: times, wander: wander, split: n, out: make([]bool, n), offs: make([]float64, n), rows: make([]stat.Row, n)}
}

// unknowns is 3, or 4 with a change.
func (f *fit) unknowns() int {
	if f.split < len(f.velocities) {
		return 4
	}
	return 3
}

// measure finds how far the samples are off.
func (f *fit) measure() {
	for i, v := range f.velocities {
		k := 0
		if i >= f.split {
			k = 1
		}
		d := v.minus(f.centre)
		r := d.speed()
		f.offs[i] = r - f.radius[k]
		d = d.times(1 / math.Max(r, math.SmallestNonzeroFloat64))
		f.rows[i] = stat.Row{d.east, d.north}
		f.rows[i][2+k] = 1
	}
}

// begin takes, of many circles through three samples, the one from which all are off by the least sum: neither a
// few wild samples nor many on one heading move it.
func (f *fit) begin() {
	n := len(f.velocities)
	least := math.Inf(1)
	dice := uint32(1)
	var three [3]vec
	var none [3]bool
	for range begins {
		for i := range three {
			dice = dice*1664525 + 1013904223 // Numerical Recipes' generator: the same circles each time
			three[i] = f.velocities[uint64(dice)*uint64(n)>>32]
		}
		centre, radius, ok := taubin(three[:], none[:])
		if !ok {
			continue
		}
		sum := 0.
		for i := 0; i < n; i += 1 + n/looks {
			sum += math.Abs(f.velocities[i].minus(centre).speed() - radius)
		}
		if sum < least {
			least, f.centre, f.radius[0] = sum, centre, radius
		}
	}
}

// settle sets samples aside and fits the others, until that changes no more; it is false when they determine no
// circle.
func (f *fit) settle() bool {
	for pass := range passes {
		f.measure()
		limit := math.Max(farOff*f.scale(), grain*f.radius[0])
		same := pass > 0
		for i, off := range f.offs {
			out := math.Abs(off) > limit
			same = same && out == f.out[i]
			f.out[i] = out
		}
		if same {
			break
		}
		if !f.refine() {
			return false
		}
	}
	return true
}

// scale is the standard deviation of a sample by the median, with a correction for few (Rousseeuw and Leroy,
// Robust Regression and Outlier Detection, 1987, ch. 5; from memory).
func (f *fit) scale() float64 {
	sizes := make([]float64, len(f.offs))
	for i, off := range f.offs {
		sizes[i] = math.Abs(off)
	}
	return 1.4826 * (1 + 5/float64(len(sizes)-4)) * stat.Median(sizes)
}

// refine fits the samples that count: Taubin's circle, then least squares of the distances from it after Gauss and
// Newton, of which the bias is half as large.
func (f *fit) refine() bool {
	if f.unknowns() == 3 {
		var ok bool
		if f.centre, f.radius[0], ok = taubin(f.velocities, f.out); !ok {
			return false
		}
	}
	for range newtons {
		q, ok := f.equations()
		if !ok {
			return false
		}
		step := q.Times(&q.Right)
		f.centre = f.centre.plus(vec{step[0], step[1]})
		f.radius[0] += step[2]
		f.radius[1] += step[3]
		if math.Abs(step[0])+math.Abs(step[1]) < 1e-8*f.radius[0] {
			break
		}
	}
	return f.radius[0] > 0 && f.radius[0] < huge && f.radius[f.unknowns()-3] > 0
}

// equations of the samples that count, inverted.
func (f *fit) equations() (q stat.Equations, ok bool) {
	f.measure()
	for i, out := range f.out {
		if !out {
			q.Add(&f.rows[i], f.offs[i], 1)
		}
	}
	return q, q.Invert(f.unknowns())
}

// estimate is the fit with its variances, from that of a sample; the speed is the last one.
func (f *fit) estimate(variance, reach float64) *estimate {
	q, _ := f.equations() // determined, as in the last refine
	n := f.unknowns()
	own := f.wandering(&q)
	of := func(i, j int) float64 { return q.Left[i][j]*variance + own[i][j] }
	return &estimate{
		current:  f.centre,
		of:       spread{of(0, 0), of(0, 1), of(1, 1)},
		speed:    f.radius[n-3],
		variance: of(n-1, n-1),
		reach:    reach,
	}
}

// independent is the variance of the residuals and their degrees of freedom, counted as if each told something of its
// own. Residuals that follow each other go together, so they count as fewer: by the correlation of each with the next,
// corrected for the unknowns that were fitted, and taken half a standard deviation higher, so that the intervals hold
// what they say. With all, the samples that were set aside count too.
func (f *fit) independent(unknowns int, all bool) (variance, dof float64) {
	n, k := 0., float64(unknowns)
	var squares, products, last float64
	for i, off := range f.offs {
		if f.out[i] && !all {
			continue
		}
		n++
		squares += off * off
		products += off * last
		last = off
	}
	tied := (products/math.Max(squares, math.SmallestNonzeroFloat64)+k/n)/(1-(k+2)/n) + 0.5/math.Sqrt(n)
	tied = math.Min(math.Max(tied, 0), 0.95)
	share := math.Min(1, math.Max((1-tied)/(1+tied), (k+1)/n)) // of the residuals, independent
	dof = n*share - k
	return squares / dof, dof
}
