package day

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/current"
	"wirewake/calc/light"
	"wirewake/calc/stat"
	"wirewake/calc/tide"
	"wirewake/calc/towline"
	"wirewake/calc/towline/steady"
)

const mostRows = 200

// Ahead is a day at a place. Errors are codec.Problems.
func Ahead(t tide.Tables, q Query) (a Answer, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	switch {
	case q.Until < q.From:
		return a, codec.Fault("until", "endsBefore", "must not be before the beginning")
	case (q.Until-q.From)/q.Step > mostRows:
		return a, codec.Fault("step", "stepShort", "is too short for so long a time")
	}
	a.Caution = tide.Computed
	if a.Light, err = light.At(light.Query{Place: light.Place(q.Place), From: q.From, Until: q.Until}); err != nil {
		return a, err
	}
	if a.Tide, err = q.ask(t, q.Tide, "tide", tide.ToHeights); err != nil {
		return a, err
	}
	if a.Stream, err = q.ask(t, q.Stream, "stream", tide.ToCurrents); err != nil {
		return a, err
	}
	spread, err := q.spread()
	if err != nil {
		return a, err
	}
	setups := make([]towline.Setup, len(spread.Rods))
	for i := range int((q.Until-q.From)/q.Step) + 1 {
		r := Row{Time: q.From + float64(i)*q.Step}
		if a.Tide != nil {
			r.Water = &Water{Height: a.Tide.Curve[i]}
			if q.Depth > 0 {
				r.Water.Depth = math.Max(0, q.Depth+r.Water.Height)
				for rod := range setups {
					r.LineOut = append(r.LineOut, spread.BestLine(&setups[rod], rod, r.Water.Depth, a.Tide.Spread.Value/stat.Z90))
				}
			}
		}
		if a.Stream != nil {
			r.Flow = flow(a.Stream, a.Stream.Curve[i])
		}
		if r.Flow != nil {
			r.Holds, r.Run = q.run(r.Flow)
		}
		a.Rows = append(a.Rows, r)
	}
	for _, p := range []*tide.Prediction{a.Tide, a.Stream} {
		if p != nil {
			p.Curve = nil
		}
	}
	return a, nil
}

// ask is a station's prediction with the values of the rows; nil when none is wanted.
func (q *Query) ask(t tide.Tables, station, field string, tell func(tide.Tables, tide.Span) (tide.Prediction, error)) (*tide.Prediction, error) {
	if station == "" {
		return nil, nil
	}
	p, err := tell(t, tide.Span{Station: station, Place: &q.Place, From: q.From, Until: q.Until, Step: q.Step})
	if err != nil {
		problems := codec.ProblemsOf(err)
		for i := range problems {
			if problems[i].Field == "station" {
				problems[i].Field = field
			}
		}
		return nil, problems
	}
	return &p, nil
}

// flow is a signed speed with its direction; nil where that is not known.
func flow(p *tide.Prediction, speed float64) *Flow {
	towards := p.Flood
	if speed < 0 {
		towards = p.Ebb
	}
	if towards == nil {
		return nil
	}
	return &Flow{speed, towards.Towards}
}

// run is how to go at the wanted speed, and whether on the wanted track.
func (q *Query) run(f *Flow) (holds bool, run *Run) {
	// The middle of what is made good is told, and that hangs on no doubt.
	stream := &current.Predicted{Set: f.Set, Drift: math.Abs(f.Speed), Doubt: 0.01}
	for i, track := range [...]float64{q.Track, math.Remainder(q.Track+math.Pi, 2*math.Pi), math.Remainder(f.Set, 2*math.Pi)} {
		a, err := current.ToSteer(current.Steer{Predicted: stream, Track: track, Speed: q.Speed})
		if err == nil && a.Why == current.SteerFine && a.Made.Mid >= q.Slowest {
			return i == 0, &Run{track, a.Heading.Mid, a.Made.Mid}
		}
	}
	return false, nil
}

// spread is that of the request at the wanted speed, one without rods where there is none.
func (q *Query) spread() (s steady.Spread, err error) {
	if q.Spread == nil {
		return s, nil
	}
	s = *q.Spread
	s.Sea.Speed = q.Speed
	if err := s.Sea.Check("spread.sea"); err != nil {
		return s, err
	}
	if err := s.Wanted.Check("spread.wanted", math.Inf(1)); err != nil {
		return s, err
	}
	for i := range s.Rods {
		if err := s.Rods[i].Check("spread.rods[" + strconv.Itoa(i) + "]"); err != nil {
			return s, err
		}
	}
	return s, nil
}
