package calibrate

import "math"

// matrix is a square matrix.
type matrix struct {
	n int
	v []float64
}

//go:noinline
func newMatrix(n int) matrix { return matrix{n, make([]float64, n*n)} }

//go:noinline
func (m *matrix) row(i int) []float64 { return m.v[i*m.n : (i+1)*m.n] }

// cholesky puts the lower triangular root of a symmetric matrix in its place. Where nothing is left of the diagonal the
// column is zero, so that a matrix that is only semidefinite has a root too.
func (m *matrix) cholesky() {
	for i := range m.n {
		r := m.row(i)
		for j := range i {
			q := m.row(j)
			r[j] = (r[j] - dot(r[:j], q[:j])) * inverse(q[j])
		}
		left := r[i] - dot(r[:i], r[:i])
		if !(left > 1e-12*r[i]) {
			left = 0
		}
		r[i] = math.Sqrt(left)
		clear(r[i+1:])
	}
}

// solve solves for the right side in place, given the root.
func (m *matrix) solve(b []float64) {
	for i := range m.n {
		r := m.row(i)
		b[i] = (b[i] - dot(r[:i], b[:i])) * inverse(r[i])
	}
	for i := m.n - 1; i >= 0; i-- {
		b[i] *= inverse(m.v[i*m.n+i])
		for j, l := range m.row(i)[:i] {
			b[j] -= l * b[i]
		}
	}
}

// times is the product with a vector.
func (m *matrix) times(b []float64) []float64 {
	product := make([]float64, m.n)
	for i := range product {
		product[i] = dot(m.row(i), b)
	}
	return product
}

//go:noinline
func dot(a, b []float64) (sum float64) {
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

//go:noinline
func inverse(v float64) float64 {
	if v == 0 {
		return 0
	}
	return 1 / v
}
