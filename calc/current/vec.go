package current

import "math"

// vec is a velocity by its components, m/s.
type vec struct{ east, north float64 }

// polar is the velocity with this speed and bearing.
func polar(speed, bearing float64) vec {
	return vec{speed * math.Sin(bearing), speed * math.Cos(bearing)}
}

func (v vec) plus(w vec) vec      { return vec{v.east + w.east, v.north + w.north} }
func (v vec) minus(w vec) vec     { return vec{v.east - w.east, v.north - w.north} }
func (v vec) times(k float64) vec { return vec{v.east * k, v.north * k} }
func (v vec) dot(w vec) float64   { return v.east*w.east + v.north*w.north }
func (v vec) speed() float64      { return math.Sqrt(v.dot(v)) }

// right is the velocity turned by 90° to the right.
func (v vec) right() vec { return vec{v.north, -v.east} }

// bearing is from 0 to 2π.
func (v vec) bearing() float64 {
	b := math.Atan2(v.east, v.north)
	if b < 0 {
		b += 2 * math.Pi
	}
	return b
}

// spread is the covariance of a velocity, (m/s)².
type spread struct{ ee, en, nn float64 }

// times is the covariance, as a matrix, times v.
func (s spread) times(v vec) vec {
	return vec{s.ee*v.east + s.en*v.north, s.en*v.east + s.nn*v.north}
}

// along is the standard deviation in the direction of v.
func (s spread) along(v vec) float64 {
	square := v.dot(v)
	if square == 0 {
		return math.Sqrt(s.ee + s.nn)
	}
	return math.Sqrt(math.Max(0, s.ee*v.east*v.east+2*s.en*v.east*v.north+s.nn*v.north*v.north) / square)
}
