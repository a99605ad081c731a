package tide

import "math"

// constituent is a harmonic of the tide: how its argument V is made of the hour angle of the mean sun, counted from
// midnight, and the mean longitudes, and which nodes it follows (Schureman, table 2).
type constituent struct {
	name           string
	t, s, h, p, p1 float64
	quarters       float64 // of a turn added to V
	m2             float64 // times the node of M2 goes in
	other          int     // one more node
	times          float64 // that it goes in
}

// constituents are all that the stations have.
var constituents = [...]constituent{
	{"M2", 2, -2, 2, 0, 0, 0, 1, still, 0},
	{"S2", 2, 0, 0, 0, 0, 0, 0, still, 0},
	{"N2", 2, -3, 2, 1, 0, 0, 1, still, 0},
	{"K1", 1, 0, 1, 0, 0, 1, 0, k1, 1},
	{"M4", 4, -4, 4, 0, 0, 0, 2, still, 0},
	{"O1", 1, -2, 1, 0, 0, -1, 0, o1, 1},
	{"M6", 6, -6, 6, 0, 0, 0, 3, still, 0},
	{"MK3", 3, -2, 3, 0, 0, 1, 1, k1, 1},
	{"S4", 4, 0, 0, 0, 0, 0, 0, still, 0},
	{"MN4", 4, -5, 4, 1, 0, 0, 2, still, 0},
	{"NU2", 2, -3, 4, -1, 0, 0, 1, still, 0},
	{"S6", 6, 0, 0, 0, 0, 0, 0, still, 0},
	{"MU2", 2, -4, 4, 0, 0, 0, 1, still, 0},
	{"2N2", 2, -4, 2, 2, 0, 0, 1, still, 0},
	{"OO1", 1, 2, 1, 0, 0, 1, 0, oo1, 1},
	{"LAM2", 2, -1, 0, 1, 0, 2, 1, still, 0},
	{"S1", 1, 0, 0, 0, 0, 2, 0, still, 0},
	{"M1", 1, -1, 1, 0, 0, 1, 0, m1, 1},
	{"J1", 1, 1, 1, -1, 0, 1, 0, j1, 1},
	{"MM", 0, 1, 0, -1, 0, 0, 0, mm, 1},
	{"SSA", 0, 0, 2, 0, 0, 0, 0, still, 0},
	{"SA", 0, 0, 1, 0, 0, 0, 0, still, 0},
	{"MSF", 0, 2, -2, 0, 0, 0, -1, still, 0},
	{"MF", 0, 2, 0, 0, 0, 0, 0, mf, 1},
	{"RHO", 1, -3, 3, -1, 0, -1, 0, o1, 1},
	{"Q1", 1, -3, 1, 1, 0, -1, 0, o1, 1},
	{"T2", 2, 0, -1, 0, 1, 0, 0, still, 0},
	{"R2", 2, 0, 1, 0, -1, 2, 0, still, 0},
	{"2Q1", 1, -4, 1, 2, 0, -1, 0, o1, 1},
	{"P1", 1, 0, -1, 0, 0, -1, 0, still, 0},
	{"2SM2", 2, 2, -2, 0, 0, 0, -1, still, 0},
	{"M3", 3, -3, 3, 0, 0, 2, 1.5, still, 0},
	{"L2", 2, -1, 2, -1, 0, 2, 0, l2, 1},
	{"2MK3", 3, -4, 3, 0, 0, -1, 2, k1, -1},
	{"K2", 2, 0, 2, 0, 0, 0, 0, k2, 1},
	{"M8", 8, -8, 8, 0, 0, 0, 4, still, 0},
	{"MS4", 4, -2, 2, 0, 0, 0, 1, still, 0},
}

// argument is V of Schureman at a time at midnight UTC.
func (c *constituent) argument(o *orbit) float64 {
	return c.s*o.s + c.h*o.h + c.p*o.p + c.p1*o.p1 + c.quarters*math.Pi/2
}

// speed is how fast V goes on, rad/s.
func (c *constituent) speed() float64 {
	if c.name == "M1" {
		// Its perigee is in u at New Year and in the speed after.
		return c.t*rateHour + c.s*rateMoon + c.h*rateSun + ratePerigee
	}
	return c.t*rateHour + c.s*rateMoon + c.h*rateSun + c.p*ratePerigee + c.p1*rateSolar
}

// node is the factor and the angle of the constituent.
func (c *constituent) node(of *nodes) (f, u float64) {
	main, other := of[m2], of[c.other]
	f, u = math.Pow(main.f, math.Abs(c.m2)), c.m2*main.u
	if c.other != still {
		f, u = f*other.f, u+c.times*other.u
	}
	return f, u
}
