package towline

import "math"

// seat turns places on a line, which are from its free end, to places from the boat.
type seat struct {
	radius   float64 // of the boat's path; 0 on a straight course
	out      float64 // of the free end from that path
	sin, cos float64 // of the angle from the free end's bearing to the boat's, about the centre
	shift    float64 // ahead, on a straight course
	side     float64 // 1 where the outer side is starboard, −1 where it is port
}

func (b *bend) seat(l *lie) *seat {
	if b.at.curve == 0 {
		return &seat{out: b.at.out, cos: 1, shift: b.ahead - l.top.x, side: b.side}
	}
	radius := 1 / b.at.curve
	angle := math.Atan2(b.ahead, radius+b.out) - math.Atan2(l.top.x, radius+b.at.out+l.top.y)
	return &seat{radius, b.at.out, math.Sin(angle), math.Cos(angle), 0, b.side}
}

// place is where it is from the boat: ahead of her and away from the centre of the turn.
func (s *seat) place(x, y float64) (ahead, out float64) {
	y += s.out
	return (s.radius+y)*s.sin + x*s.cos + s.shift, y*s.cos - x*s.sin - s.radius*(1-s.cos)
}
