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
func ToIce(q IceQuery) (IceAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return IceAnswer{}, err
	}
	for i := range q.Fish {
		if q.Fish[i].At > q.Hold {
			return IceAnswer{}, codec.Fault("fish["+strconv.Itoa(i)+"].at", "afterHold", "must not be after the end of the hold")
		}
	}
	need, ok := q.need(Doubt{})
	if !ok {
		return IceAnswer{}, codec.Fault("mix", "noIceLeft", "leaves no ice over: take less sea water for each kg of ice")
	}
	holds := q.holds()
	used := math.Min(need, holds)
	if q.Aboard > 0 {
		used = q.Aboard
	}
	t := q.trip(used, Doubt{})
	t.sail()
	a := IceAnswer{
		Water: t.sea, Leak: t.leak, Heat: t.heatTaken(&q), Fill: q.fill(used),
		Mixed: t.curve[0], Fished: t.fished, Frozen: frozen(t.coldest), Curve: t.curve,
	}
	a.Add, a.Enough = q.additions(used)
	gone := t.lasts()
	// One standard deviation of each input, one after the other.
	var needs, lasts [4]float64
	for i, d := range [4]Doubt{{Walls: q.Doubt.Walls}, {Fish: q.Doubt.Fish}, {Air: q.Doubt.Air}, {Wet: q.Doubt.Wet}} {
		needs[i], _ = q.need(d)
		needs[i] -= need
		t := q.trip(used, d)
		t.sail()
		lasts[i] = t.lasts() - gone
	}
	a.Need = around(need, needs[:], math.MaxFloat64)
	a.Load = Interval{math.Min(a.Need.Low, holds), math.Min(need, holds), math.Min(a.Need.High, holds)}
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
func (q *IceQuery) reserve(off Doubt) (ice float64) {
	for i := range q.Fish {
		ice += q.Left * q.Fish[i].Mass
	}
	return ice * (1 + off.Fish)
}

// need is the ice that leaves the reserve, when the inputs are off by so much; false when no ice does.
func (q *IceQuery) need(off Doubt) (ice float64, ok bool) {
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

// additions are what to add to so much ice, each when the ice falls to the reserve, so that it is left at the end; false
// when it is not. No more goes in at a time than the box holds once it is drained of what has melted.
func (q *IceQuery) additions(used float64) (all []Addition, enough bool) {
	const (
		most  = 24
		tiny  = 0.001 // kg
		exact = 1e-4  // kg
	)
	reserve := q.reserve(Doubt{})
	room := q.holds() - reserve
	with := func(all []Addition) *trip {
		t := q.trip(used, Doubt{})
		for _, a := range all {
			t.comes(arrival{Batch: Batch{At: a.At, Mass: a.Ice}, ice: true})
		}
		t.sail()
		return t
	}
	for {
		t := with(all)
		if t.over() > reserve-tiny {
			return all, true
		}
		if len(all) == most || room <= tiny {
			return all, false
		}
		all = append(all, Addition{At: fallsTo(reserve, t.curve)})
		last := &all[len(all)-1].Ice
		spare := func(ice float64) float64 {
			*last = ice
			return with(all).over() - reserve
		}
		if spare(room) > 0 {
			*last = stat.Root(spare, 0, room, exact)
		}
	}
}

// fallsTo is when the ice last falls to so much; 0 when there never was more.
func fallsTo(ice float64, curve []Point) float64 {
	for i := len(curve) - 1; i > 0; i-- {
		before, after := &curve[i-1], &curve[i]
		if before.Ice > ice && after.Ice <= ice {
			return before.Time + (after.Time-before.Time)*(before.Ice-ice)/(before.Ice-after.Ice)
		}
	}
	return 0
}

const (
	iceDensity  = 917 // kg/m³, handbook
	seaDensity  = 1025
	fishDensity = 1040
)

// holds is the most ice that fits into the box together with its sea water and all fish.
func (q *IceQuery) holds() float64 {
	each := math.Max(q.Ice.stowage(), 1./iceDensity+q.Mix/seaDensity)
	return math.Max(0, q.Box.volume()-q.fill(0).Fish) / each
}

// fill is the room that everything takes at first, all fish included.
func (q *IceQuery) fill(ice float64) Fill {
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
