package tide

import (
	"math"

	"wirewake/calc/unit"
)

const degree = unit.Degree

// orbit is the mean longitudes of moon, sun, the moon's perigee, its ascending node and the sun's perigee, rad.
type orbit struct{ s, h, p, n, p1 float64 }

// Their motions, ° in a Julian century, and those with the hour angle's in rad/s.
const (
	moon, sun, perigee, ascending, solar = 481267.88123421, 36000.76983, 4069.0137287, -1934.1362891, 1.71946

	century     = 36525 * 86400.
	rateHour    = 2 * math.Pi / 86400
	rateMoon    = moon * degree / century
	rateSun     = sun * degree / century
	ratePerigee = perigee * degree / century
	rateSolar   = solar * degree / century
)

// orbitAt is at a time in seconds since 1970, by J. Meeus, Astronomical Algorithms, 2nd ed., ch. 25 and 47.
func orbitAt(time float64) orbit {
	t := (time - 946728000) / century // from 2000 January 1, 12h
	return orbit{
		s:  degree * (218.3164477 + t*(moon-t*0.0015786)),
		h:  degree * (280.46646 + t*(sun+t*0.0003032)),
		p:  degree * (83.3532465 + t*(perigee-t*0.0103200)),
		n:  degree * (125.0445479 + t*(ascending+t*0.0020754)),
		p1: degree * (282.93735 + t*(solar+t*0.00046)),
	}
}

// node is what the moon's node makes of the lunar terms: factors f and angles u, after P. Schureman, Manual of
// Harmonic Analysis and Prediction of Tides, 1940 (equation numbers in the code).
type node struct{ f, u float64 }

// nodes are those of all constituents that are not made of others.
type nodes [last]node

// The kinds of node.
const (
	still = iota // f = 1, u = 0: the sun's
	m2
	o1
	k1
	j1
	oo1
	k2
	l2
	m1
	mm
	mf
	last
)

// nodesAt are Schureman's for one time.
func nodesAt(time float64) (of nodes) {
	// The obliquity of 1900 and the moon's inclination, on which his mean values rest.
	const omega, inclination = 23.452 * degree, 5.145 * degree
	o := orbitAt(time)
	sin, cos := math.Sin, math.Cos
	// The moon's orbit against the equator: its inclination I, and ν and ξ (equations 16 and 17 of Napier's analogies).
	i := math.Acos(cos(inclination)*cos(omega) - sin(inclination)*sin(omega)*cos(o.n))
	half := math.Tan(o.n / 2)
	sum := math.Atan(cos((omega-inclination)/2) / cos((omega+inclination)/2) * half)
	difference := math.Atan(sin((omega-inclination)/2) / sin((omega+inclination)/2) * half)
	xi, nu := o.n-sum-difference, sum-difference // ξ but for whole turns

	sinI, sin2I := sin(i), sin(2*i)
	cosHalf, sinHalf := cos(i/2), sin(i/2)
	nuK1 := math.Atan(sin2I * sin(nu) / (sin2I*cos(nu) + 0.3347))               // 224
	nuK2 := math.Atan(sinI * sinI * sin(2*nu) / (sinI*sinI*cos(2*nu) + 0.0727)) // 232, twice ν″
	p := o.p - xi                                                               // 191
	tan := sinHalf / cosHalf
	r := math.Atan2(sin(2*p), 1/(6*tan*tan)-cos(2*p)) // 214
	q := math.Atan2(0.483*sin(p), cos(p))             // 203

	of[still] = node{1, 0}
	of[m2] = node{math.Pow(cosHalf, 4) / 0.9154, 2 * (xi - nu)}                                      // 78
	of[o1] = node{sinI * cosHalf * cosHalf / 0.3800, 2*xi - nu}                                      // 75
	of[k1] = node{math.Sqrt(0.8965*sin2I*sin2I + 0.6001*sin2I*cos(nu) + 0.1006), -nuK1}              // 227
	of[j1] = node{sin2I / 0.7214, -nu}                                                               // 76
	of[oo1] = node{sinI * sinHalf * sinHalf / 0.0164, -2*xi - nu}                                    // 77
	of[k2] = node{math.Sqrt(19.0444*math.Pow(sinI, 4) + 2.7702*sinI*sinI*cos(2*nu) + 0.0981), -nuK2} // 235
	of[l2] = node{of[m2].f * math.Sqrt(1-12*tan*tan*cos(2*p)+36*math.Pow(tan, 4)), 2*(xi-nu) - r}    // 215
	of[m1] = node{of[o1].f * math.Sqrt(2.310+1.435*cos(2*p)), xi - nu + q}                           // 206, 207
	of[mm] = node{(2./3 - sinI*sinI) / 0.5021, 0}                                                    // 73
	of[mf] = node{sinI * sinI / 0.1578, -2 * xi}                                                     // 74
	return of
}
