package chill

import (
	"math"

	"wirewake/calc/seawater"
)

const longest = 10 * day // that ice is followed

// arrival is fish, or ice, that come into the box.
type arrival struct {
	Batch
	ice bool
}

// trip is a box on its way through the hold.
type trip struct {
	slush
	weather
	time, hold float64
	arrivals   []arrival // in the order of their times
	gone       float64   // when the ice was; +Inf as long as there is some
	curve      []Point
	fished     Point   // when the last fish are in
	coldest    float64 // that fish have met; as mixed when there are none
}

// trip is the box with so much ice, when the inputs are off by so much.
func (q *IceQuery) trip(ice float64, off Doubt) *trip {
	leak, lid := q.Box.leak()
	t := trip{hold: q.Hold, gone: math.Inf(1)}
	// The sun on the lid counts as an air that is warmer by what it absorbs over the film outside.
	t.weather = weather{leak * (1 + off.Walls), q.Air + off.Air, q.Sun * q.Absorbs / outside * lid}
	t.slush = slush{sea: ice * q.Mix, salinity: q.Salinity, box: q.Box.Mass * boxHeat / 2}
	t.heat = t.sea*seaHeat*q.seaTemperature() + t.box*q.Air
	t.addIce(ice / (1 + off.Wet))
	for _, b := range q.Fish {
		b.Mass *= 1 + off.Fish
		t.comes(arrival{Batch: b})
	}
	return &t
}

// seaTemperature is that of liquid sea water.
func (q *IceQuery) seaTemperature() float64 {
	return math.Max(q.Sea, seawater.FreezingPoint(q.Salinity, 0))
}

// comes puts an arrival in its place.
func (t *trip) comes(a arrival) {
	t.arrivals = append(t.arrivals, a)
	for i := len(t.arrivals) - 1; i > 0 && t.arrivals[i-1].At > a.At; i-- {
		t.arrivals[i-1], t.arrivals[i] = a, t.arrivals[i-1]
	}
}

// sail goes through the hold.
func (t *trip) sail() {
	t.note()
	t.fished = t.curve[0]
	t.coldest = t.fished.Temperature
	const steps = 48
	next := 0
	for i := 1; i <= steps; i++ {
		end := t.hold * (float64(i) / steps) // the last is hold itself
		for ; next < len(t.arrivals) && t.arrivals[next].At <= end; next++ {
			t.until(t.arrivals[next].At)
			t.note()
			t.receive(&t.arrivals[next])
		}
		t.until(end)
		t.note()
	}
}

// until lets time pass.
func (t *trip) until(time float64) {
	if gone := t.warm(t.weather, time-t.time); gone < math.Inf(1) && t.gone > longest {
		t.gone = t.time + gone
	}
	t.time = time
}

// note adds what there is to the curve, unless it is there.
func (t *trip) note() {
	p := t.point(t.time)
	if n := len(t.curve); n == 0 || t.curve[n-1] != p {
		t.curve = append(t.curve, p)
	}
}

// receive takes an arrival in.
func (t *trip) receive(a *arrival) {
	if a.ice {
		t.addIce(a.Mass)
		t.note()
		return
	}
	first := t.fish == 0
	t.addFish(a.Batch)
	t.note()
	t.fished = t.curve[len(t.curve)-1]
	if first {
		t.coldest = t.fished.Temperature
	}
}

// over is the ice that is left, kg; below 0 what would have been needed besides.
func (t *trip) over() float64 {
	if surplus := t.heat - t.heatAt(t.ice); surplus > 0 {
		return -surplus / melting
	}
	melted, _ := t.settle()
	return t.ice - melted
}

// lasts goes on after the hold until the ice is gone, and says when that was.
func (t *trip) lasts() float64 {
	for t.gone > longest && t.time < longest {
		t.until(t.time + 2*hour)
	}
	return math.Min(t.gone, longest)
}

// heatTaken is where the heat came from that the ice has taken up.
func (t *trip) heatTaken(q *IceQuery) Heat {
	_, temperature := t.settle()
	h := Heat{Water: t.sea * seaHeat * (q.seaTemperature() - temperature), Box: t.box * (q.Air - temperature), Walls: t.walls, Sun: t.sun}
	for i := range q.Fish {
		h.Fish += q.Fish[i].Mass * fishHeat * (q.Fish[i].Temperature - temperature)
	}
	return h
}
