package heard

import (
	"maps"
	"math"
	"slices"
	"time"

	"wirewake/calc/sentence"
	"wirewake/calc/sounder"
)

// Value is one quantity as it is now, in SI.
type Value struct {
	Value float64 `json:"value"`
	// Age and how long it holds, s.
	Age   float64 `json:"age"`
	Holds float64 `json:"holds"`
	// From is the talker and a label of its source, as phones are told. Voice has the source in full, Others how many more
	// speak of it: for who has the server before him.
	From   string `json:"from"`
	Voice  string `json:"-"`
	Others int    `json:"-"`
	// Differs says that another says something else, Jumped that it cannot have changed so fast.
	Differs bool `json:"differs,omitempty"`
	Jumped  bool `json:"jumped,omitempty"`
}

// Snapshot is all that is known at a moment.
type Snapshot struct {
	Depth  *Depth           `json:"depth,omitempty"`
	Values map[string]Value `json:"values"`
	// Sources in the order of their names; no phone needs the addresses and paths in them.
	Sources []Source `json:"-"`
}

// told are the quantities that are told on, by the names that they have there, and by how much two voices may differ.
var told = []struct {
	name     string
	quantity sentence.Quantity
	apart    float64
}{
	{"waterSpeed", sentence.WaterSpeed, 0.5},
	{"waterTemperature", sentence.WaterWarmth, 2},
	{"heading", sentence.Heading, 0.2},
	{"magnetic", sentence.Magnetic, 0.2},
	{"groundSpeed", sentence.GroundSpeed, 0.5},
	{"groundCourse", sentence.GroundCourse, math.Inf(1)},
	{"latitude", sentence.Latitude, 2e-5},
	{"longitude", sentence.Longitude, 2e-5},
	{"windAngle", sentence.WindAngle, math.Inf(1)},
	{"windSpeed", sentence.WindSpeed, math.Inf(1)},
}

// Names are those of the values, in the order to show them.
func Names() (all []string) {
	for _, t := range told {
		all = append(all, t.name)
	}
	return all
}

// Look is what is known now; changed says that something came since it was last looked at.
func (p *Picture) Look() (s Snapshot, changed bool) {
	now := p.Now()
	p.mu.Lock()
	defer p.mu.Unlock()
	changed, p.changed = p.changed, false
	s.Values = map[string]Value{}
	s.Depth = p.depth(now)
	for _, t := range told {
		name, others, ok := p.choose(t.quantity, now)
		if !ok {
			continue
		}
		one := p.voices[name].said[t.quantity]
		v := Value{Value: one.value, Age: now.Sub(one.at).Seconds(), Holds: sentence.Holds(t.quantity), From: p.label(name), Voice: name.String(), Others: others}
		v.Jumped = !one.jumped.IsZero() && now.Sub(one.jumped) <= shown
		for n, other := range p.voices {
			if o := other.said[t.quantity]; n != name && o != nil && o.fresh(t.quantity, now) && apart(t.quantity, o.value, one.value) > t.apart {
				v.Differs = true
			}
		}
		s.Values[t.name] = v
	}
	if v, ok := p.heading(s.Values, now); ok {
		s.Values["heading"] = v
	}
	for _, name := range slices.Sorted(maps.Keys(p.sources)) {
		one := *p.sources[name]
		one.Silent = -1
		if !one.last.IsZero() {
			one.Silent = math.Floor(now.Sub(one.last).Seconds())
		}
		s.Sources = append(s.Sources, one)
	}
	return s, changed
}

// heading is the true one where only a magnetic compass and the variation are told, by one voice or by two.
func (p *Picture) heading(values map[string]Value, now time.Time) (v Value, ok bool) {
	if _, told := values["heading"]; told {
		return v, false
	}
	v, ok = values["magnetic"]
	from, _, varies := p.choose(sentence.Variation, now)
	if !ok || !varies {
		return v, false
	}
	if v.Value = math.Mod(v.Value+p.voices[from].said[sentence.Variation].value, 2*math.Pi); v.Value < 0 {
		v.Value += 2 * math.Pi
	}
	return v, true
}

// apart is how far two values are from each other, round the circle where they are angles.
func apart(q sentence.Quantity, a, b float64) float64 {
	switch q {
	case sentence.Heading, sentence.Magnetic:
		return math.Abs(math.Remainder(a-b, 2*math.Pi))
	}
	return math.Abs(a - b)
}

// Row is what was known at one second; NaN is what was not. Its depth is below the surface where that can be told, else
// less than that.
type Row struct {
	// Run is how far the boat has gone over ground since the server began, m, where its speed over ground is known.
	Run                                            float64
	At                                             time.Time
	Depth, WaterSpeed, Heading, Warmth             float64
	GroundSpeed, GroundCourse, Latitude, Longitude float64
}

// pastHolds is for how long rows are kept to tell phones that come late.
const pastHolds = 15 * time.Minute

// Keep notes a row: to be called once a second. It is false when nothing at all is known.
func (p *Picture) Keep(s Snapshot) (row Row, any bool) {
	row = Row{At: p.Now(), Depth: math.NaN()}
	if d := s.Depth; d != nil && d.State == sounder.Known && d.Age < 2 {
		row.Depth, any = d.Value.Value, true
	}
	for name, to := range map[string]*float64{
		"waterSpeed": &row.WaterSpeed, "heading": &row.Heading, "waterTemperature": &row.Warmth, "groundSpeed": &row.GroundSpeed,
		"groundCourse": &row.GroundCourse, "latitude": &row.Latitude, "longitude": &row.Longitude,
	} {
		*to = math.NaN()
		if v, ok := s.Values[name]; ok {
			*to, any = v.Value, true
		}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if seconds := row.At.Sub(p.ranAt).Seconds(); !math.IsNaN(row.GroundSpeed) {
		p.run += row.GroundSpeed * math.Max(0, math.Min(seconds, sentence.Holds(sentence.GroundSpeed)))
	}
	p.ranAt, p.counts = row.At, !math.IsNaN(row.GroundSpeed)
	row.Run = p.counted()
	for len(p.past) > 0 && row.At.Sub(p.past[0].At) > pastHolds {
		p.past = p.past[1:]
	}
	if any {
		p.past = append(p.past, row)
	}
	return row, any
}

// Run is how far the boat has gone over ground since the server began, m, by the speed over ground as it was kept; NaN while none
// is heard.
func (p *Picture) Run() float64 {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.counted()
}

func (p *Picture) counted() float64 {
	if !p.counts {
		return math.NaN()
	}
	return p.run
}

// Past are the rows after a moment, the oldest first.
func (p *Picture) Past(after time.Time) []Row {
	p.mu.Lock()
	defer p.mu.Unlock()
	i, _ := slices.BinarySearchFunc(p.past, after, func(r Row, t time.Time) int {
		if r.At.After(t) {
			return 1
		}
		return -1
	})
	return slices.Clone(p.past[i:])
}
