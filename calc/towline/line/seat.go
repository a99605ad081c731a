package line

import ()

// Seat turns places on a line, which are from its free end, to places from the boat.
type Seat struct {
	Radius   float64 // of the boat's path; 0 on a straight course
	Out      float64 // of the free end from that path
	Sin, Cos float64 // of the angle from the free end's bearing to the boat's, about the centre
	Shift    float64 // ahead, on a straight course
	Side     float64 // 1 where the outer side is starboard, −1 where it is port
}

// place is where it is from the boat: ahead of her and away from the centre of the turn.
func (s *Seat) place(x, y float64) (ahead, out float64) {
	y += s.Out
	return (s.Radius+y)*s.Sin + x*s.Cos + s.Shift, y*s.Cos - x*s.Sin - s.Radius*(1-s.Cos)
}
