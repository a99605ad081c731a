package line

import (
	"math"
)

// Vec is a place or another vector in space, mat a matrix of three rows.
type (
	Vec [3]float64
	Mat [3]Vec
)

// Plus is a and f times b. Inlined, this and what follows would make the module for the phone larger by 5 KB.
//
//go:noinline
func (a Vec) Plus(f float64, b Vec) Vec {
	return Vec{a[0] + f*b[0], a[1] + f*b[1], a[2] + f*b[2]}
}

// Dot is the scalar product.
func (a Vec) Dot(b Vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// Length is its size.
//
//go:noinline
func (a Vec) Length() float64 { return math.Sqrt(a.Dot(a)) }

// Add adds f times the unit matrix and g times the product of a and b.
//
//go:noinline
func (m *Mat) Add(f, g float64, a, b *Vec) {
	for i := range m {
		s := g * a[i]
		for j := range m[i] {
			m[i][j] += s * b[j]
		}
		m[i][i] += f
	}
}
