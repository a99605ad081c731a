package rise

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/towline/turn"
)

// underWay is the speed through the water, m/s, from which a line is towed.
const underWay = 0.2

// The spans over which a turn is looked for, s, and what is no turn within them, rad: a boat wanders, and yaws with the seas,
// which a mean over settle seconds evens out; after how many spans a line lies in it. Judgements.
const (
	span    = 10.
	spans   = 3
	old     = 5
	wanders = 0.2
	settle  = 5
)

// course is where she went so long ago.
func (q *Query) course(age float64) float64 {
	c := q.Courses
	if age <= c[0].Age || len(c) == 1 {
		return c[0].Toward
	}
	i := 1
	for i < len(c)-1 && c[i].Age < age {
		i++
	}
	return c[i].Toward + (c[i-1].Toward-c[i].Toward)*math.Max(c[i].Age-age, 0)/(c[i].Age-c[i-1].Age)
}

// steered is where she went on the whole in the seconds before.
func (q *Query) steered(age float64) float64 {
	sum := 0.
	for i := range settle {
		sum += q.course(age + float64(i))
	}
	return sum / settle
}

// turning is how fast she turns to starboard, rad/s; young says that she has not done so for as long as a line takes to come round.
func (q *Query) turning() (rate float64, young bool) {
	newest, oldest := q.Courses[0].Age, q.Courses[len(q.Courses)-1].Age
	var turned, first float64
	for i := 1.; i <= old && newest+i*span+settle <= oldest+1; i++ {
		turned = q.steered(newest) - q.steered(newest+i*span)
		if i == 1 {
			first = turned
		}
		if rate == 0 && i <= spans && math.Abs(turned) > wanders {
			rate = turned / (i * span)
		}
	}
	return rate, math.Abs(turned) < (old-0.5)*math.Abs(first)
}

// legs are the parts of the way from the lure to the boat that are taken for straight.
const legs = 12

// trail tells where a lure is by the courses that the boat went, and by how much its line sinks. The line lies along her path through
// the water, in a turn inside of it; over ground the water has carried it on since she was there: back along her track, and aside of
// it. It takes a while until a line lies in a turn as it will: until then the lure is no farther inside and as far back as on a
// straight course, and the deeper of before and after counts.
func (q *Query) trail(c *Coming, s *towline.Setup, lowest float64) (sunk float64) {
	if rate, young := q.turning(); rate != 0 {
		side := turn.Port
		if rate > 0 {
			side = turn.Starboard
		}
		if q.Sea.CheckUniform("sea") != nil {
			return 0
		}
		swung, ok := turn.Swing(s, side, q.Sea.Speed/math.Abs(rate))
		if !ok {
			return 0
		}
		c.Aside = math.Abs(swung.Inside)
		if sunk = swung.Lowest - lowest; young {
			sunk = math.Max(sunk, 0)
		} else {
			c.Astern = q.Sounder + swung.Arc
		}
	}
	east, north := q.Drift*math.Sin(q.Set), q.Drift*math.Cos(q.Set)
	lag := math.Max(c.Astern, 0) / q.Sea.Speed
	var way, on, across float64
	for i := 0.; i <= legs; i++ {
		course := q.course(lag * i / legs)
		goes, stays := q.Sea.Speed*math.Sin(course)+east, q.Sea.Speed*math.Cos(course)+north
		over := math.Max(math.Hypot(goes, stays), underWay)
		if i > 0 {
			way += over * lag / legs
		}
		// At last, where she was when she was over where the lure is.
		on, across = (east*goes+north*stays)/over, (east*stays-north*goes)/over
	}
	c.Lag = math.Max(way-on*lag, 0) / q.OverGround
	c.Aside += math.Abs(across) * lag
	return sunk
}
