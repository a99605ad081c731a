package day

import (
	"wirewake/calc/codec"
	"wirewake/calc/light"
	"wirewake/calc/stat"
	"wirewake/calc/tide"
)

// around is how far, s, to look for the turns before and after a moment.
const around = 24 * 3600.

// Of is the hour of the tide of moments: from the station chosen, or that nearest to each that predicts. Errors are
// codec.Problems.
func Of(t tide.Tables, q Moments) (a Hours, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	a.Caution = tide.Computed
	for _, m := range q.Moments {
		var h Hour
		if h.Tide, err = m.phase(t, tide.KindTide, m.Tide, tide.ToHeights); err != nil {
			return a, err
		}
		if h.Stream, err = m.phase(t, tide.KindCurrent, m.Stream, tide.ToCurrents); err != nil {
			return a, err
		}
		sky, err := light.At(light.Query{Place: light.Place(m.Place), From: m.Time, Until: m.Time})
		if err != nil {
			return a, err
		}
		h.Sky = sky.Sky
		a.Hours = append(a.Hours, h)
	}
	return a, nil
}

// phase is where a moment lies between the turns at the station to go by; nil where there is none.
func (m *Moment) phase(
	t tide.Tables, kind tide.Kind, wanted string, tell func(tide.Tables, tide.Span) (tide.Prediction, error),
) (*Phase, error) {
	near, err := tide.Nearest(t, tide.Stations{Place: m.Place, Kind: kind, Count: tide.Choice, Wanted: wanted})
	if err != nil {
		return nil, err
	}
	s := near.Of(near.Use)
	if s == nil {
		return nil, nil
	}
	p, err := tell(t, tide.Span{Station: s.ID, Place: &m.Place, From: m.Time - around, Until: m.Time + around, Step: around})
	if err != nil {
		return nil, nil // outside the years
	}
	f := Phase{Station: s.Name, ID: s.ID, Distance: s.Distance, Value: p.Curve[1], Doubt: p.Spread.Value / stat.Z90}
	if kind == tide.KindCurrent {
		if of := flow(&p, f.Value); of != nil {
			f.Set, f.Directed = of.Set, true
		}
	}
	for _, mark := range p.Marks {
		if mark.Time <= m.Time {
			f.Last, f.Since = mark.Turn, m.Time-mark.Time
		} else if f.Next == "" {
			f.Next, f.Until = mark.Turn, mark.Time-m.Time
		}
	}
	return &f, nil
}
