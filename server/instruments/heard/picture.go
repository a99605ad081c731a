// Package heard holds what the boat's instruments say now: of every quantity one voice, chosen by quality, and never two
// mixed. A voice is one talker of one source. What it says holds for as long as its kind may (calc/sentence); what jumps, or
// differs from another voice, is shown and marked; the bottom is told from false echoes (calc/sounder).
package heard

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"sync"
	"time"

	"wirewake/calc/sentence"
)

// How many voices there are at once, and how many sources: whoever invents more makes the longest silent give way.
const (
	mostVoices  = 64
	mostSources = 64
)

// Mounts are where on the boat the sounder is, in m; 0 is not known.
type Mounts struct {
	// Transducer and Keel are how far they are below the water.
	Transducer, Keel float64
}

// Picture is what is known now. Its fields are set before use.
type Picture struct {
	Now    func() time.Time
	Mounts Mounts
	// Heard is called when something of use came; it may be nil.
	Heard func()

	mu      sync.Mutex
	voices  map[voiceName]*voice
	chosen  map[sentence.Quantity]voiceName
	sources map[string]*Source
	past    []Row
	run     float64
	ranAt   time.Time
	counts  bool
	behind  behind
	changed bool
}

type voiceName struct{ source, talker string }

func (v voiceName) String() string { return v.talker + " " + v.source }

// voice is one talker of one source.
type voice struct {
	said  map[sentence.Quantity]*said
	pings []ping
	last  time.Time
}

// said is what a voice said last of a quantity.
type said struct {
	value float64
	at    time.Time
	// often is the mean time between, s; faults how often of late it jumped, fading.
	often, faults float64
	// jumped is when it did last.
	jumped time.Time
}

// Source is how one source does.
type Source struct {
	Name string
	// On says that it is listened to.
	On bool
	// Lines, and how many of them were sentences that are of use, none of ours, or broken.
	Lines, Taken, Broken int
	// Silent is for how long nothing came, s; -1: nothing came yet.
	Silent float64
	// Why the last broken line was not taken.
	Why   sentence.Why
	last  time.Time
	label string
}

// Tell notes that a source begins to be listened to, or not to be.
func (p *Picture) Tell(source string, on bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.source(source).On = on
	p.changed = true
}

func (p *Picture) source(name string) *Source {
	if p.sources == nil {
		p.sources = map[string]*Source{}
	}
	s := p.sources[name]
	if s == nil {
		if len(p.sources) >= mostSources {
			delete(p.sources, slices.MinFunc(slices.Collect(maps.Keys(p.sources)), func(a, b string) int {
				return p.sources[a].last.Compare(p.sources[b].last)
			}))
		}
		s = &Source{Name: name, label: p.newLabel(name)}
		p.sources[name] = s
	}
	return s
}

// newLabel is how a new source is called before phones: its kind, with a number where there are several of it.
func (p *Picture) newLabel(name string) string {
	used := map[string]bool{}
	for _, s := range p.sources {
		used[s.label] = true
	}
	kind, _, _ := strings.Cut(name, ":")
	label := kind
	for n := 2; used[label]; n++ {
		label = fmt.Sprintf("%s %d", kind, n)
	}
	return label
}

// label is how a voice is called before phones, without its address or path.
func (p *Picture) label(v voiceName) string { return v.talker + " " + p.source(v.source).label }

// Hear takes a line.
func (p *Picture) Hear(source, line string) {
	if p.take(source, sentence.Parse(line)) && p.Heard != nil {
		p.Heard()
	}
}

// take takes what a line says; fresh is false when it is of no use.
func (p *Picture) take(source string, s sentence.Sentence) (fresh bool) {
	now := p.Now()
	p.mu.Lock()
	defer p.mu.Unlock()
	from := p.source(source)
	from.Lines++
	from.last = now
	switch s.Why {
	case sentence.WhyNone:
		from.Taken++
	case sentence.WhyOther, sentence.WhyEmpty, sentence.WhyVoid:
		return false
	default:
		from.Broken++
		from.Why = s.Why
		return false
	}
	talker := s.Talker
	if s.Source != "" {
		talker = s.Source + " " + talker
	}
	name := voiceName{source, talker}
	v := p.voice(name, now)
	v.last = now
	for _, r := range s.Readings {
		v.take(r, now)
	}
	v.ping(s.Readings, p.Mounts, now)
	p.behind.tell(s.Readings, now)
	p.changed = true
	return true
}

func (p *Picture) voice(name voiceName, now time.Time) *voice {
	if p.voices == nil {
		p.voices, p.chosen = map[voiceName]*voice{}, map[sentence.Quantity]voiceName{}
	}
	v := p.voices[name]
	if v == nil {
		if len(p.voices) >= mostVoices {
			delete(p.voices, slices.MinFunc(slices.Collect(maps.Keys(p.voices)), func(a, b voiceName) int {
				return p.voices[a].last.Compare(p.voices[b].last)
			}))
		}
		v = &voice{said: map[sentence.Quantity]*said{}}
		p.voices[name] = v
	}
	return v
}

// How fast what a voice did wrong is forgotten, and for how long a jump is shown.
const (
	forgiven = 60.
	shown    = 5 * time.Second
)

func (v *voice) take(r sentence.Reading, now time.Time) {
	s := v.said[r.Quantity]
	if s == nil {
		v.said[r.Quantity] = &said{value: r.Value, at: now, often: r.Holds}
		return
	}
	passed := now.Sub(s.at).Seconds()
	s.faults *= math.Exp(-passed / forgiven)
	if passed < r.Holds && sentence.Jumps(r.Quantity, s.value, r.Value, passed) {
		s.faults++
		s.jumped = now
	}
	s.often += (min(passed, r.Holds) - s.often) / 8
	s.value, s.at = r.Value, now
}

// fresh says whether what was said still holds.
func (s *said) fresh(q sentence.Quantity, now time.Time) bool {
	return now.Sub(s.at).Seconds() <= sentence.Holds(q)
}

// What a voice is worth: how often it speaks, and what it did wrong. Another takes its place only when it is clearly better:
// judgements.
const (
	clearly   = 1.
	perFault  = 0.5
	mostFault = 3.
)

// worth is higher for the better voice.
func (s *said) worth(own bool) float64 {
	w := 1/math.Max(s.often, 0.2) - math.Min(perFault*s.faults, mostFault)
	w = min(w, 2)
	if own {
		w += 2 // from an instrument that measures it, and not handed on by another
	}
	return w
}

// measures are the talkers that measure a quantity themselves (the standard's list of talkers; from memory).
func measures(q sentence.Quantity, talker string) bool {
	if len(talker) > 2 {
		talker = talker[len(talker)-2:]
	}
	switch q {
	case sentence.BelowTransducer, sentence.BelowSurface, sentence.BelowKeel:
		return talker == "SD"
	case sentence.WaterSpeed:
		return talker == "VW" || talker == "VD" || talker == "VM"
	case sentence.WaterWarmth:
		return talker == "YX" || talker == "SD" || talker == "VW"
	case sentence.Heading, sentence.Magnetic:
		return talker == "HC" || talker == "HE" || talker == "HN" || talker == "HF"
	case sentence.WindAngle, sentence.WindSpeed, sentence.TrueWindAngle, sentence.TrueWindSpeed:
		return talker == "WI"
	}
	return talker == "GP" || talker == "GN" || talker == "GL" || talker == "GA" || talker == "GB"
}

// choose is the voice to believe of a quantity, and how many others speak of it; ok is false when none does.
func (p *Picture) choose(q sentence.Quantity, now time.Time) (name voiceName, others int, ok bool) {
	best := math.Inf(-1)
	before, had := p.chosen[q]
	for _, n := range slices.SortedFunc(maps.Keys(p.voices), byName) {
		s := p.voices[n].said[q]
		if s == nil || !s.fresh(q, now) {
			continue
		}
		others++
		worth := s.worth(measures(q, n.talker))
		if had && n == before {
			worth += clearly
		}
		if worth > best {
			best, name, ok = worth, n, true
		}
	}
	if ok {
		p.chosen[q] = name
	}
	return name, max(0, others-1), ok
}

func byName(a, b voiceName) int {
	return cmp.Or(cmp.Compare(a.source, b.source), cmp.Compare(a.talker, b.talker))
}
