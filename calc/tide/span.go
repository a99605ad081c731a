package tide

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/geodesic"
	"wirewake/calc/stat"
)

// The longest span, and the most points of a curve.
const (
	longest    = 400 * 86400
	mostPoints = 10_000
)

// ToHeights is the tide at a station in a span of time. Errors are codec.Problems.
func ToHeights(t Tables, q Span) (Prediction, error) { return t.tell(&q, KindTide) }

// ToCurrents is the current at a station in a span of time. Errors are codec.Problems.
func ToCurrents(t Tables, q Span) (Prediction, error) { return t.tell(&q, KindCurrent) }

func (t Tables) tell(q *Span, kind Kind) (Prediction, error) {
	table, s, err := t.find(q, kind)
	if err != nil {
		return Prediction{}, err
	}
	p := s.predict(q.From, q.Until)
	a := Prediction{
		Source: table.source(), Station: s.tell(q.Place), Curve: p.along(q), Flood: s.flood.tell(), Ebb: s.ebb.tell(),
	}
	for _, m := range p.marks {
		if m.time >= q.From && m.time < q.Until {
			a.Marks = append(a.Marks, Mark{m.time, s.named(m.event), m.value})
		}
	}
	a.Spread = p.spread(a.Station.Distance)
	return a, nil
}

// What events are called.
var (
	waters  = [...]Turn{HighWater, LowWater}
	streams = [...]Turn{SlackBeforeFlood, Flood, SlackBeforeEbb, Ebb, LeastFlood, LeastEbb}
)

func (s *station) named(of event) Turn {
	if s.tellKind() == KindTide {
		return waters[of]
	}
	return streams[of]
}

// find is the station that a request means, and its table, when it has predictions for all of the span.
func (t Tables) find(q *Span, kind Kind) (*Table, *station, error) {
	if err := codec.Check(q); err != nil {
		return nil, nil, err
	}
	if len(t) == 0 {
		return nil, nil, absent("station")
	}
	table, s := t.station(q.Station)
	var err error
	switch {
	case s == nil:
		err = codec.Fault("station", "stationUnknown", "is not among the stations of these waters")
	case s.tellKind() != kind:
		err = codec.Fault("station", "stationOther", "predicts something else: choose one for what is asked")
	case s.why != WhyNone:
		err = s.why.fault()
	case q.Until < q.From:
		err = codec.Fault("until", "endsBefore", "must not be before the beginning")
	case q.Until-q.From > longest:
		err = codec.Fault("until", "longSpan", "must be within 400 days of the beginning")
	case q.Step > 0 && (q.Until-q.From)/q.Step >= mostPoints:
		err = codec.Fault("step", "stepShort", "is too short for so long a time")
	case !table.serves(q.From):
		err = table.outside("from")
	case !table.serves(q.Until):
		err = table.outside("until")
	}
	return table, s, err
}

// fault is why a station has no predictions, as an error.
func (w Why) fault() error {
	switch w {
	case WhyDatums:
		return codec.Fault("station", "stationDatums", "has heights above no known datum: choose one near by")
	case WhyConstituents:
		return codec.Fault("station", "stationConstituents", "has no constituents: choose one near by")
	case WhyRejected:
		return codec.Fault("station", "stationRejected", "has datums that contradict each other: choose one near by")
	default:
		return codec.Fault("station", "stationReference", "is told from one that has no predictions: choose one near by")
	}
}

// absent says that there are no tables.
func absent(field string) error {
	return codec.Fault(field, "stationsAbsent", "is not known: the tables of tide and current are not on this phone yet")
}

// outside says which years the constants serve.
func (t *Table) outside(field string) error {
	return codec.Fault(field, "outOfYears", "must be in the years that the stations' constants serve: "+strconv.Itoa(t.From)+" to "+strconv.Itoa(t.Until))
}

// serves says whether a time is in the years of the constants.
func (t *Table) serves(time float64) bool {
	return time >= newYear(t.From) && time <= newYear(t.Until+1)
}

// station is the one of this ID and its table, nil if there is none.
func (t Tables) station(id string) (*Table, *station) {
	for _, table := range t {
		for i := range table.stations {
			if table.stations[i].id == id {
				return table, &table.stations[i]
			}
		}
	}
	return nil, nil
}

// along is the curve of the span.
func (p *prediction) along(q *Span) (curve []float64) {
	if q.Step == 0 {
		return nil
	}
	for i := range int((q.Until-q.From)/q.Step) + 1 {
		curve = append(curve, p.at(q.From+float64(i)*q.Step))
	}
	return curve
}

func (t *Table) source() Source {
	return Source{t.Region, t.Source, t.From, t.Until, Computed}
}

// tell is the station as seen from a place.
func (s *station) tell(from *Place) Station {
	out := Station{ID: s.id, Name: s.name, State: s.state, Kind: s.tellKind(), Lat: s.place.Lat, Lon: s.place.Lon, Why: s.why}
	if s.of != nil {
		out.Reference = s.of.name
	}
	if from != nil {
		out.Distance, out.Bearing, _ = geodesic.Between(geodesic.Place(*from), s.place)
	}
	return out
}

func (s *station) tellKind() Kind {
	if s.kind == tideReference || s.kind == tideSubordinate {
		return KindTide
	}
	return KindCurrent
}

func (d direction) tell() *Direction {
	if !d.known {
		return nil
	}
	return &Direction{d.bearing}
}

// What predictions are worth at the station itself: the targets by which NOAA judges its models, nine in ten within
// (from memory). What wind and pressure do is in none of it.
const (
	heightTarget = 0.15
	waterTarget  = 30 * minutes
	speedTarget  = 0.26
	slackTarget  = 15 * minutes
)

// How they lose worth with distance, and at stations told from another: judgements.
const (
	heightFades  = 250e3 // m in which the doubt of a height grows by the tide's own size
	currentFades = 10e3  // m in which a current loses most of what it has in common with that at the station
	delayGrows   = 0.06  // s for every m
	differing    = math.Sqrt2
)

// spread is that of a station's predictions at a distance from it.
func (p *prediction) spread(distance float64) Spread {
	size := 0.
	for _, m := range p.marks {
		size += math.Abs(m.value-p.marks[0].value) / float64(len(p.marks))
	}
	own := 1.
	if p.of != nil {
		own = differing
	}
	if p.tellKind() == KindTide {
		return Spread{
			Value: math.Hypot(own*heightTarget, size*math.Min(1, distance/heightFades)),
			Time:  math.Hypot(own*waterTarget, delayGrows*distance),
		}
	}
	square := 0.
	for _, m := range p.marks {
		square += m.value * m.value / float64(len(p.marks))
	}
	apart := 1 - math.Exp(-distance/currentFades)
	return Spread{
		Value: math.Hypot(own*speedTarget, stat.Z90*math.Sqrt(square*apart)),
		Time:  math.Hypot(own*slackTarget, delayGrows*distance),
	}
}
