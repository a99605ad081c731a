package chill

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

const (
	hour = 3600.
	day  = 24 * hour
)

// ToIce plans the ice of a day. Errors are codec.Problems.
func ToIce(q Plan) (PlanAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return PlanAnswer{}, err
	}
	for i := range q.Fish {
		if q.Fish[i].At > q.Hold {
			return PlanAnswer{}, codec.Fault("fish["+strconv.Itoa(i)+"].at", "must not be after the end of the hold")
		}
	}
	load, ok := q.load(Doubt{})
	if !ok {
		return PlanAnswer{}, codec.Fault("mix", "leaves no ice over: take less sea water for each kg of ice")
	}
	used := load
	if q.Aboard > 0 {
		used = q.Aboard
	}
	t := q.trip(used, Doubt{})
	t.sail()
	a := PlanAnswer{
		Water: t.sea, Leak: t.leak, Heat: t.heatTaken(&q), Fill: q.fill(used),
		Mixed: t.curve[0], Fished: t.fished, Frozen: frozen(t.coldest), Curve: t.curve,
	}
	if t.over() < q.reserve(Doubt{}) {
		a.Add = q.addition(used, t.curve)
	}
	gone := t.lasts()
	// One standard deviation of each input, one after the other.
	var loads, lasts [4]float64
	for i, d := range [4]Doubt{{Walls: q.Doubt.Walls}, {Fish: q.Doubt.Fish}, {Air: q.Doubt.Air}, {Wet: q.Doubt.Wet}} {
		loads[i], _ = q.load(d)
		loads[i] -= load
		t := q.trip(used, d)
		t.sail()
		lasts[i] = t.lasts() - gone
	}
	a.Load = around(load, loads[:], math.MaxFloat64)
	a.Lasts = around(gone, lasts[:], longest)
	return a, nil
}

// around is the interval of a value that these changes of one standard deviation make doubtful, from 0 to the greatest.
func around(mid float64, changes []float64, greatest float64) Interval {
	squares := 0.
	for _, c := range changes {
		squares += c * c
	}
	half := stat.Z90 * math.Sqrt(squares)
	return Interval{math.Max(0, mid-half), mid, math.Min(greatest, mid+half)}
}

// reserve is the ice that shall be left at the end.
func (q *Plan) reserve(off Doubt) (ice float64) {
	for i := range q.Fish {
		ice += q.Left * q.Fish[i].Mass
	}
	return ice * (1 + off.Fish)
}

// load is the ice that leaves the reserve, when the inputs are off by so much; false when no ice does.
func (q *Plan) load(off Doubt) (ice float64, ok bool) {
	reserve := q.reserve(off)
	spare := func(ice float64) float64 {
		t := q.trip(ice, off)
		t.sail()
		return t.over() - reserve
	}
	if spare(0) >= 0 {
		return 0, true
	}
	const most = 1e6 // kg
	enough := 10.
	for spare(enough) < 0 {
		if enough *= 2; enough > most {
			return 0, false
		}
	}
	return stat.Root(spare, 0, enough, 1e-4), true
}

// addition is the ice to add when what there is falls to the reserve, so that it is left at the end.
func (q *Plan) addition(used float64, curve []Point) *Addition {
	reserve := q.reserve(Doubt{})
	var a Addition
	for i := range curve[1:] {
		before, after := &curve[i], &curve[i+1]
		if before.Ice <= reserve {
			break
		}
		a.At = after.Time
		if after.Ice <= reserve {
			a.At = before.Time + (after.Time-before.Time)*(before.Ice-reserve)/(before.Ice-after.Ice)
			break
		}
	}
	spare := func(ice float64) float64 {
		t := q.trip(used, Doubt{})
		t.comes(arrival{Batch: Batch{At: a.At, Mass: ice}, ice: true})
		t.sail()
		return t.over() - reserve
	}
	enough := 1.
	for spare(enough) < 0 {
		enough *= 2
	}
	a.Ice = stat.Root(spare, 0, enough, 1e-4)
	return &a
}

// fill is the room that everything takes at first, all fish included.
func (q *Plan) fill(ice float64) Fill {
	const (
		iceDensity  = 917 // kg/m³, handbook
		seaDensity  = 1025
		fishDensity = 1040
	)
	f := Fill{Ice: ice * q.Ice.stowage(), Water: ice * q.Mix / seaDensity, Box: q.Box.volume()}
	for i := range q.Fish {
		f.Fish += q.Fish[i].Mass / fishDensity
	}
	f.Taken = f.Fish + math.Max(f.Ice, ice/iceDensity+f.Water)
	return f
}

// frozen is the share of its water that freezes in flesh at a temperature: by the ideal lowering of the freezing point,
// from about −1 °C on, which gives the 55 % at −2.2 °C of FAO Fisheries Technical Paper 340, ch. 19.
func frozen(temperature float64) float64 {
	const starts = -1
	if temperature >= starts {
		return 0
	}
	return 1 - starts/temperature
}
