package heard

import (
	"maps"
	"math"
	"slices"
	"time"

	"wirewake/calc/sentence"
	"wirewake/calc/sounder"
)

// Below says from where down a depth is told.
type Below string

// From where. What is below the transducer or the keel of a boat whose Mounts are not known is told as that.
const (
	Surface    Below = "surface"
	Transducer Below = "transducer"
	Keel       Below = "keel"
)

// ping is one reading of a sounder.
type ping struct {
	at    time.Time
	depth float64
	below Below
}

// kept is how far back readings are kept to tell the bottom by.
const (
	kept      = 20 * time.Second
	mostPings = 200
)

// sureness is the order of what is told: what a sounder tells in several sentences at once is one reading, of which the
// surest counts.
var sureness = map[Below]int{Keel: 1, Transducer: 2, Surface: 3}

// ping takes the depth of a sentence, the surest of those that it tells, unless one that is surer still holds.
func (v *voice) ping(readings []sentence.Reading, m Mounts, now time.Time) {
	one, ok := depthOf(readings, m)
	if !ok {
		return
	}
	one.at = now
	if n := len(v.pings); n > 0 {
		last := &v.pings[n-1]
		if sureness[one.below] < sureness[last.below] && now.Sub(last.at).Seconds() < sentence.Holds(sentence.BelowSurface) {
			return
		}
		if last.below != one.below {
			v.pings = nil // another depth: not to be held against it
		} else if now.Sub(last.at) < 100*time.Millisecond {
			*last = one
			return
		}
	}
	v.pings = append(v.pings, one)
	for len(v.pings) > mostPings || now.Sub(v.pings[0].at) > kept {
		v.pings = v.pings[1:]
	}
}

// depthOf is the depth below the surface where that can be told.
func depthOf(readings []sentence.Reading, m Mounts) (one ping, ok bool) {
	of := map[sentence.Quantity]float64{}
	for _, r := range readings {
		of[r.Quantity] = r.Value
	}
	if d, told := of[sentence.BelowSurface]; told {
		return ping{depth: d, below: Surface}, true
	}
	transducer, told := of[sentence.BelowTransducer]
	keel, toldKeel := of[sentence.BelowKeel]
	switch {
	case told && m.Transducer > 0:
		return ping{depth: transducer + m.Transducer, below: Surface}, true
	case toldKeel && m.Keel > 0:
		return ping{depth: keel + m.Keel, below: Surface}, true
	case told:
		return ping{depth: transducer, below: Transducer}, true
	case toldKeel:
		return ping{depth: keel, below: Keel}, true
	}
	return one, false
}

// Depth is the depth of the water under the boat.
type Depth struct {
	Value
	Below Below `json:"below"`
	// State as sounder has it.
	State sounder.State `json:"state"`
	// Doubt is one standard deviation, m.
	Doubt float64 `json:"-"`
	// Echo is what the sounder read last where that is not taken for the bottom.
	Echo float64 `json:"echo,omitempty"`
}

// ofDepth are the quantities that tell a depth.
var ofDepth = []sentence.Quantity{sentence.BelowSurface, sentence.BelowTransducer, sentence.BelowKeel}

// depth is the bottom by the best voice that tells one.
func (p *Picture) depth(now time.Time) *Depth {
	name, others, ok := p.chooseDepth(now)
	if !ok {
		return nil
	}
	v := p.voices[name]
	if len(v.pings) == 0 {
		return nil
	}
	from := v.pings[0].at
	q := sounder.Query{Now: now.Sub(from).Seconds()}
	for _, one := range v.pings {
		q.Pings = append(q.Pings, sounder.Ping{Time: one.at.Sub(from).Seconds(), Depth: one.depth})
	}
	a, err := sounder.Bottom(q)
	if err != nil || a.State == sounder.Lost {
		return nil
	}
	last := v.pings[len(v.pings)-1]
	d := &Depth{Below: last.below, State: a.State, Doubt: a.Doubt, Echo: a.Doubted}
	d.Value = Value{Value: a.Depth, Age: a.Age, Holds: sentence.Holds(sentence.BelowSurface), From: p.label(name), Voice: name.String(), Others: others}
	if a.State != sounder.Known {
		d.Value.Value, d.Age = 0, now.Sub(last.at).Seconds()
	}
	d.Differs = a.State == sounder.Known && p.differsInDepth(name, a.Depth, last.below, now)
	return d
}

// chooseDepth is the voice of the depth: one that tells it below the surface before one that does not.
func (p *Picture) chooseDepth(now time.Time) (name voiceName, others int, ok bool) {
	best := math.Inf(-1)
	before, had := p.chosen[sentence.BelowSurface]
	for _, n := range slices.SortedFunc(maps.Keys(p.voices), byName) {
		v := p.voices[n]
		if len(v.pings) == 0 || now.Sub(v.pings[len(v.pings)-1].at).Seconds() > sentence.Holds(sentence.BelowSurface) {
			continue
		}
		others++
		worth := math.Inf(-1)
		for _, q := range ofDepth {
			if s := v.said[q]; s != nil && s.fresh(q, now) {
				worth = math.Max(worth, s.worth(measures(q, n.talker)))
			}
		}
		if v.pings[len(v.pings)-1].below == Surface {
			worth += 3
		}
		if had && n == before {
			worth += clearly
		}
		if worth > best {
			best, name, ok = worth, n, true
		}
	}
	if ok {
		p.chosen[sentence.BelowSurface] = name
	}
	return name, max(0, others-1), ok
}

// differsInDepth says whether another voice reads another depth, by more than two sounders do.
func (p *Picture) differsInDepth(name voiceName, depth float64, below Below, now time.Time) bool {
	for n, v := range p.voices {
		if n == name || len(v.pings) == 0 {
			continue
		}
		last := v.pings[len(v.pings)-1]
		if now.Sub(last.at).Seconds() <= sentence.Holds(sentence.BelowSurface) && last.below == below && math.Abs(last.depth-depth) > 1+0.1*depth {
			return true
		}
	}
	return false
}
