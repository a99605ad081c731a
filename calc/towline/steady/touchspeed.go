package steady

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// speedsTried is how many speeds are looked at before the place between two is refined.
const speedsTried = 40

// TouchSpeed finds the highest speed at which some part of the line touches the bottom. Errors are codec.Problems.
func TouchSpeed(q TouchSpeedQuery) (TouchSpeedAnswer, error) {
	if err := towline.Ready(&q, &q.Sea, &q.Rod); err != nil {
		return TouchSpeedAnswer{}, err
	}
	if err := q.Sea.CheckBottom("sea"); err != nil {
		return TouchSpeedAnswer{}, err
	}
	if q.Fastest <= q.Slowest {
		return TouchSpeedAnswer{}, codec.Fault("fastest", "fastestSlow", "must be more than the slowest speed")
	}
	s := towline.Setup{Sea: q.Sea, Rod: q.Rod, Doubt: q.Doubt}
	speed, why := touchSpeed(&s, &q, q.Sea.Bottom, towline.Offsets{}, line.Exact)
	a := TouchSpeedAnswer{Why: why, Speed: speed}
	if why == towline.WhyNeverDown {
		return TouchSpeedAnswer{Why: why}, nil
	}
	s.Sea.Speed = speed
	_, a.Part = s.Lowest(towline.Offsets{}, line.Exact)
	if why == towline.WhyAlways {
		a.Speed = 0
		return a, nil
	}
	a.Low, a.High = touchBand(&s, &q, speed)
	return a, nil
}

// touchSpeed finds it over a bottom, with each input off by so many standard deviations; without one, the end of the
// search beyond which it lies.
func touchSpeed(s *towline.Setup, q *TouchSpeedQuery, bottom float64, off towline.Offsets, tol float64) (float64, towline.Why) {
	clear := func(speed float64) float64 {
		s.Sea.Speed = speed
		depth, _ := s.Lowest(off, tol)
		return bottom - depth
	}
	if clear(q.Fastest) <= 0 {
		return q.Fastest, towline.WhyAlways
	}
	ratio := math.Pow(q.Slowest/q.Fastest, 1.0/speedsTried)
	for k, speed := 0, q.Fastest; k < speedsTried; k++ {
		slower := speed * ratio
		if clear(slower) <= 0 {
			return stat.Root(clear, slower, speed, tol), towline.WhyNone
		}
		speed = slower
	}
	return q.Slowest, towline.WhyNeverDown
}

// touchBand is the 90 % band of the speed at which it touches, the doubt of the bottom in it. How far off the boat's own speed may be read does
// not change where the line lies; it adds to the reading.
func touchBand(s *towline.Setup, q *TouchSpeedQuery, speed float64) (low, high float64) {
	var all towline.Moments
	all.Add(speed-towline.Node*s.Doubt.Speed, speed, speed+towline.Node*s.Doubt.Speed)
	for cause := range int(towline.Inputs) {
		down, up := s.Way(cause, -towline.Node), s.Way(cause, towline.Node)
		if down == up || cause == towline.InputSpeed {
			continue
		}
		slower, _ := touchSpeed(s, q, q.Sea.Bottom, down, line.Rough)
		faster, _ := touchSpeed(s, q, q.Sea.Bottom, up, line.Rough)
		all.Add(slower, speed, faster)
	}
	if off := towline.Node * math.Hypot(q.BottomDoubt, q.TideDoubt); off > 0 {
		shoaler, _ := touchSpeed(s, q, q.Sea.Bottom-off, towline.Offsets{}, line.Rough)
		deeper, _ := touchSpeed(s, q, q.Sea.Bottom+off, towline.Offsets{}, line.Rough)
		all.Add(deeper, speed, shoaler)
	}
	low, high = all.Band(speed)
	return math.Max(low, 0), high
}
