package light

import (
	"math"

	"wirewake/calc/unit"
)

const (
	degree = unit.Degree
	day    = 86400.
	// dynamical time is ahead of UTC by so much between 2010 and 2040, to some seconds.
	ahead = 70.
)

// position is where a body stands as seen from the middle of the Earth.
type position struct {
	longitude, latitude float64 // by the ecliptic
	parallax            float64 // of the horizon
}

// since2000 is the time since 2000 January 1, 12h, in Julian centuries.
func since2000(time float64) float64 { return (time - 946728000) / (36525 * day) }

// nutation in longitude, by its largest term (Meeus, ch. 25).
func nutation(t float64) float64 {
	return -0.00478 * degree * math.Sin(degree*(125.04-1934.136*t))
}

// sun is its apparent place (Meeus, ch. 25).
func sun(time float64) position {
	t := since2000(time + ahead)
	m := degree * (357.52911 + t*(35999.05029-t*0.0001537))
	centre := (1.914602-t*0.004817)*math.Sin(m) + 0.019993*math.Sin(2*m) + 0.000289*math.Sin(3*m)
	const aberration = 0.00569
	return position{longitude: degree*(280.46646+t*(36000.76983+t*0.0003032)+centre-aberration) + nutation(t)}
}

// wave is a term of the moon's series: the multiples of its arguments D, M, M′ and F, and its size in 10⁻⁶ degrees.
type wave struct {
	d, m, n, f int8
	size       int32
}

// The larger terms of the moon's longitude and latitude (Meeus, tables 47.A and 47.B).
var (
	inLongitude = [...]wave{
		{0, 0, 1, 0, 6288774}, {2, 0, -1, 0, 1274027}, {2, 0, 0, 0, 658314}, {0, 0, 2, 0, 213618}, {0, 1, 0, 0, -185116},
		{0, 0, 0, 2, -114332}, {2, 0, -2, 0, 58793}, {2, -1, -1, 0, 57066}, {2, 0, 1, 0, 53322}, {2, -1, 0, 0, 45758},
		{0, 1, -1, 0, -40923}, {1, 0, 0, 0, -34720}, {0, 1, 1, 0, -30383}, {2, 0, 0, -2, 15327}, {0, 0, 1, 2, -12528},
		{0, 0, 1, -2, 10980}, {4, 0, -1, 0, 10675}, {0, 0, 3, 0, 10034},
	}
	inLatitude = [...]wave{
		{0, 0, 0, 1, 5128122}, {0, 0, 1, 1, 280602}, {0, 0, 1, -1, 277693}, {2, 0, 0, -1, 173237}, {2, 0, -1, 1, 55413},
		{2, 0, -1, -1, 46271}, {2, 0, 0, 1, 32573}, {0, 0, 2, 1, 17198},
	}
)

// moon is its apparent place (Meeus, ch. 47).
func moon(time float64) position {
	t := since2000(time + ahead)
	d := degree * (297.8501921 + t*445267.1114034)
	m := degree * (357.5291092 + t*35999.0502909)
	n := degree * (134.9633964 + t*477198.8675055)
	f := degree * (93.2720950 + t*483202.0175233)
	sum := func(waves []wave) (sum float64) {
		for _, w := range waves {
			sum += float64(w.size) * math.Sin(float64(w.d)*d+float64(w.m)*m+float64(w.n)*n+float64(w.f)*f)
		}
		return sum * 1e-6 * degree
	}
	distance := 385000.56 - 20905.355*math.Cos(n) - 3699.111*math.Cos(2*d-n) - 2955.968*math.Cos(2*d) - 569.925*math.Cos(2*n) // km
	return position{
		longitude: degree*(218.3164477+t*481267.88123421) + sum(inLongitude[:]) + nutation(t),
		latitude:  sum(inLatitude[:]),
		parallax:  math.Asin(6378.14 / distance),
	}
}

// altitude is how high a body's centre stands above the horizon of the middle of the Earth.
func (p *position) altitude(time float64, at *Place) float64 {
	t := since2000(time)
	obliquity := degree * (23.439291 - 0.0130042*t)
	sinE, cosE := math.Sincos(obliquity)
	sinL, cosL := math.Sincos(p.longitude)
	sinB, cosB := math.Sincos(p.latitude)
	ascension := math.Atan2(sinL*cosB*cosE-sinB*sinE, cosL*cosB)
	sinD := sinB*cosE + cosB*sinE*sinL
	// Sidereal time at Greenwich (Meeus, ch. 12).
	sidereal := degree*(280.46061837+360.98564736629*36525*t) + nutation(t)*cosE
	sinLat, cosLat := math.Sincos(at.Lat)
	return math.Asin(sinLat*sinD + cosLat*math.Sqrt(1-sinD*sinD)*math.Cos(sidereal+at.Lon-ascension))
}
