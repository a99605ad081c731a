package sentence

import (
	"math"

	"wirewake/calc/unit"
)

// read takes what is wanted of one kind of sentence. The fields are those of NMEA 0183, counted from 0 after the address.
func (r *reading) read(formatter string) {
	switch formatter {
	case "DPT":
		r.depth()
	case "DBT":
		r.depthIn(BelowTransducer)
	case "DBS":
		r.depthIn(BelowSurface)
	case "DBK":
		r.depthIn(BelowKeel)
	case "VHW":
		r.in(0, Heading, unit.Degree)
		r.in(2, Magnetic, unit.Degree)
		r.first(WaterSpeed, sized{4, unit.Knot}, sized{6, kmh})
	case "MTW":
		r.warmth(0, r.text(1))
	case "XDR":
		r.transducers()
	case "HDT":
		r.in(0, Heading, unit.Degree)
	case "HDM":
		r.in(0, Magnetic, unit.Degree)
	case "HDG":
		r.compass()
	case "RMC":
		r.minimum()
	case "VTG":
		r.course()
	case "GGA":
		if r.text(5) == "0" || r.text(5) == "6" || r.text(5) == "7" || r.text(5) == "8" {
			r.void = true // no fix, reckoned, typed or simulated
			return
		}
		r.clock(0)
		r.place(1)
	case "GLL":
		r.void = r.text(5) != "" && !r.is(5, 'A') || r.unsure(6)
		if !r.void {
			r.clock(4)
			r.place(0)
		}
	case "ZDA":
		r.clock(0)
		day, ok := r.number(1)
		month, okMonth := r.number(2)
		if year, okYear := r.number(3); ok && okMonth && okYear {
			r.day(year, month, day)
		}
	case "MWV":
		r.wind()
	}
}

// inDepth is one depth in three units, each with its letter after it; metres first: they have the digits that feet and
// fathoms were made from.
var inDepth = [...]struct {
	sized
	letter string
}{{sized{2, 1}, "M"}, {sized{0, unit.Foot}, "f"}, {sized{4, fathom}, "F"}}

const fathom = 6 * unit.Foot

// depthIn says the first of these depths that is there. One with the letter of another unit cannot be read. Where two of
// them are not the same depth, apart from what whole fathoms cut off, nobody knows which is meant.
func (r *reading) depthIn(q Quantity) {
	first, said := 0., false
	for _, one := range inDepth {
		v, ok := r.number(one.field)
		if !ok {
			continue
		}
		if letter := r.text(one.field + 1); letter != "" && letter != one.letter {
			r.broken = true
			return
		}
		switch v *= one.size; {
		case !said:
			first, said = v, true
			r.say(q, v)
		case math.Abs(v-first) > fathom+0.02*first:
			r.nonsense = true
			return
		}
	}
}

// depth takes DPT. Its offset is from the transducer up to the water where it is positive, and down to the keel where it
// is negative; 0 is mostly one that nobody has set, and says nothing.
func (r *reading) depth() {
	v, ok := r.number(0)
	if !ok {
		return
	}
	r.say(BelowTransducer, v)
	offset, ok := r.number(1)
	switch {
	case !ok || offset == 0:
	case math.Abs(offset) > 20:
		r.nonsense = true
	case offset > 0:
		r.say(BelowSurface, v+offset)
	case v+offset >= BelowKeel.bounds().least:
		r.say(BelowKeel, v+offset)
	}
}

// warmth says the temperature of the water in °C, °F or K.
func (r *reading) warmth(i int, in string) {
	v, ok := r.number(i)
	if !ok {
		return
	}
	switch in {
	case "C", "c":
	case "F", "f":
		v = (v - 32) / 1.8
	case "K", "k":
		v -= 273.15
	default:
		r.broken = true
		return
	}
	r.say(WaterWarmth, v)
}

// transducers takes from XDR the temperatures that are the water's by their name, which no standard gives.
func (r *reading) transducers() {
	for i := 0; i+3 < len(r.fields); i += 4 {
		if r.is(i, 'C') && isOfWater(r.text(i+3)) {
			r.warmth(i+1, r.text(i+2))
		}
	}
}

// isOfWater says whether a transducer's name is the sea's alone, whatever its case, number and marks: an engine's cooling
// water and a heater have the word too.
func isOfWater(name string) bool {
	var letters []byte
	for i := range len(name) {
		if c := name[i] &^ 0x20; c >= 'A' && c <= 'Z' {
			letters = append(letters, c)
		}
	}
	switch without(without(string(letters), "TEMPERATURE"), "TEMP") {
	case "WATER", "WAT", "WTR", "SEA", "SEAWATER":
		return true
	}
	return false
}

// without is the text but for the first place where the word stands.
func without(text, word string) string {
	for i := 0; i+len(word) <= len(text); i++ {
		if text[i:i+len(word)] == word {
			return text[:i] + text[i+len(word):]
		}
	}
	return text
}

// compass takes HDG: the sensor's heading, to which easterly deviation and variation are added.
func (r *reading) compass() {
	v, ok := r.number(0)
	if !ok {
		return
	}
	if v < 0 || v > 360 {
		r.nonsense = true
		return
	}
	v *= unit.Degree
	if deviation, ok := r.toEast(1); ok {
		v += deviation
	}
	r.say(Magnetic, around(v))
	if variation, ok := r.toEast(3); ok {
		r.say(Variation, variation)
		r.say(Heading, around(v+variation))
	}
}

// around is the angle from 0 to 2π.
func around(v float64) float64 {
	if v = math.Mod(v, turn); v < 0 {
		v += turn
	}
	return v
}

// unsure says whether the mode of a position says that it was not measured: reckoned, typed, simulated, not valid.
func (r *reading) unsure(i int) bool {
	return r.is(i, 'E') || r.is(i, 'M') || r.is(i, 'S') || r.is(i, 'N')
}

func (r *reading) minimum() {
	if !r.is(1, 'A') || r.unsure(11) {
		r.void = true
		return
	}
	r.clock(0)
	r.place(2)
	r.in(6, GroundSpeed, unit.Knot)
	r.in(7, GroundCourse, unit.Degree)
	if v, ok := r.number(8); ok {
		year := 2000 + math.Mod(v, 100)
		if year >= 2080 {
			year -= 100 // as in the standard's own examples
		}
		r.day(year, math.Mod(math.Floor(v/100), 100), math.Floor(v/1e4))
	}
	if variation, ok := r.toEast(9); ok {
		r.say(Variation, variation)
	}
}

// course takes VTG. Before its version 2 it had no letters between the numbers: that one is passed over.
func (r *reading) course() {
	if r.unsure(8) {
		r.void = true
		return
	}
	if r.is(1, 'T') {
		r.in(0, GroundCourse, unit.Degree)
		r.first(GroundSpeed, sized{4, unit.Knot}, sized{6, kmh})
	}
}

// inSpeed is the size of a unit of speed by its letter; 0 of another.
func inSpeed(letter string) float64 {
	switch letter {
	case "N":
		return unit.Knot
	case "K":
		return kmh
	case "M":
		return 1
	}
	return 0
}

// wind takes MWV: relative to the bow as it is felt, or as it would be without the boat's motion.
func (r *reading) wind() {
	if !r.is(4, 'A') {
		r.void = true
		return
	}
	size := inSpeed(r.text(3))
	angle, speed := WindAngle, WindSpeed
	switch {
	case r.is(1, 'T'):
		angle, speed = TrueWindAngle, TrueWindSpeed
	case !r.is(1, 'R'):
		r.broken = true
		return
	}
	if size == 0 {
		r.broken = true
		return
	}
	r.in(0, angle, unit.Degree)
	r.in(2, speed, size)
}
