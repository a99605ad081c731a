package towline

import "math"

// vec is a place or another vector in space, mat a matrix of three rows.
type (
	vec [3]float64
	mat [3]vec
)

// plus is a and f times b. Inlined, this and what follows would make the module for the phone larger by 5 KB.
//
//go:noinline
func (a vec) plus(f float64, b vec) vec {
	return vec{a[0] + f*b[0], a[1] + f*b[1], a[2] + f*b[2]}
}
func (a vec) dot(b vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

//go:noinline
func (a vec) length() float64 { return math.Sqrt(a.dot(a)) }

// add adds f times the unit matrix and g times the product of a and b.
//
//go:noinline
func (m *mat) add(f, g float64, a, b *vec) {
	for i := range m {
		s := g * a[i]
		for j := range m[i] {
			m[i][j] += s * b[j]
		}
		m[i][i] += f
	}
}
