package stat

// Row is one number for each unknown of a fit.
type Row [4]float64

// Dot is the sum of the products.
func (r *Row) Dot(s *Row) (sum float64) {
	for i := range r {
		sum += r[i] * s[i]
	}
	return sum
}

// Equations are the normal equations of a fit with up to four unknowns.
type Equations struct {
	Left  [4]Row // once inverted, the covariance
	Right Row
}

// Add takes in an observation: the derivatives of what is observed, how far that is off, and its weight.
func (q *Equations) Add(r *Row, off, weight float64) {
	for i := range r {
		for j := range r {
			q.Left[i][j] += weight * r[i] * r[j]
		}
		q.Right[i] += weight * r[i] * off
	}
}

// Invert inverts the left sides for so many unknowns, by Gauss and Jordan in place; it is false when the
// observations do not determine them.
func (q *Equations) Invert(unknowns int) bool {
	a := &q.Left
	for i := range unknowns {
		pivot := a[i][i]
		if !(pivot > 1e-9) {
			return false
		}
		a[i][i] = 1
		for j := range unknowns {
			a[i][j] /= pivot
		}
		for k := range unknowns {
			if k == i {
				continue
			}
			f := a[k][i]
			a[k][i] = 0
			for j := range unknowns {
				a[k][j] -= f * a[i][j]
			}
		}
	}
	return true
}

// Times is the left sides times r: the solution, once inverted, for r on the right.
func (q *Equations) Times(r *Row) (product Row) {
	for i := range product {
		product[i] = q.Left[i].Dot(r)
	}
	return product
}
