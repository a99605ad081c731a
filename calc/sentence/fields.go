package sentence

import (
	"math"
	"strconv"

	"wirewake/calc/unit"
)

// reading takes the fields of one sentence.
type reading struct {
	fields                 []string
	out                    *Sentence
	broken, nonsense, void bool
}

// text is a field; "" where there is none.
func (r *reading) text(i int) string {
	if i >= len(r.fields) {
		return ""
	}
	return r.fields[i]
}

// is says whether a field is this letter, great or small.
func (r *reading) is(i int, letter byte) bool {
	text := r.text(i)
	return len(text) == 1 && text[0]&^0x20 == letter
}

// number is a field as a number; ok is false when it is empty, or is none.
func (r *reading) number(i int) (v float64, ok bool) {
	text := r.text(i)
	if text == "" {
		return 0, false
	}
	if v, ok = number(text); !ok {
		r.broken = true
	}
	return v, ok
}

// number reads what the standard lets stand for one: digits, a point, a sign.
func number(text string) (v float64, ok bool) {
	for i := range len(text) {
		if c := text[i]; (c < '0' || c > '9') && c != '.' && (i > 0 || c != '-' && c != '+') {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil
}

// say notes a value that may be; of another the whole sentence counts for nothing.
func (r *reading) say(q Quantity, v float64) {
	b := q.bounds()
	if b.round {
		if v < 0 || v > turn {
			r.nonsense = true
			return
		}
		v = math.Mod(v, turn)
	}
	if !(v >= b.least && v <= b.most) {
		r.nonsense = true
		return
	}
	r.out.Readings = append(r.out.Readings, Reading{q, v, b.holds})
}

// in says a field in this unit, if there is something in it.
func (r *reading) in(i int, q Quantity, size float64) bool {
	v, ok := r.number(i)
	if ok {
		r.say(q, v*size)
	}
	return ok
}

// first says the first of the fields that has something in it, each with its size.
func (r *reading) first(q Quantity, of ...sized) {
	for _, one := range of {
		if r.in(one.field, q, one.size) {
			return
		}
	}
}

type sized struct {
	field int
	size  float64
}

const kmh = 1000. / 3600 // m/s

// toEast is a field in degrees with E or W after it, positive to the east.
func (r *reading) toEast(i int) (v float64, ok bool) {
	if v, ok = r.number(i); !ok {
		return 0, false
	}
	switch {
	case r.is(i+1, 'W'):
		v = -v
	case !r.is(i+1, 'E'):
		r.broken = true
	}
	return v * unit.Degree, true
}

// place says latitude and longitude, each as degrees and minutes in one number and a letter.
func (r *reading) place(i int) {
	lat, okLat := r.angle(i, 'N', 'S')
	lon, okLon := r.angle(i+2, 'E', 'W')
	if okLat && okLon {
		r.say(Latitude, lat)
		r.say(Longitude, lon)
	}
}

func (r *reading) angle(i int, plus, minus byte) (v float64, ok bool) {
	if v, ok = r.number(i); !ok {
		return 0, false
	}
	degrees := math.Floor(v / 100)
	minutes := v - 100*degrees
	if v < 0 || minutes >= 60 {
		r.broken = true
		return 0, false
	}
	v = (degrees + minutes/60) * unit.Degree
	switch {
	case r.is(i+1, minus):
		v = -v
	case !r.is(i+1, plus):
		r.broken = true
	}
	return v, true
}

// clock says a time of the day as hhmmss.ss.
func (r *reading) clock(i int) {
	v, ok := r.number(i)
	if !ok {
		return
	}
	hours, minutes, seconds := math.Floor(v/1e4), math.Mod(math.Floor(v/100), 100), math.Mod(v, 100)
	if v < 0 || hours > 23 || minutes > 59 || seconds >= 61 {
		r.broken = true
		return
	}
	r.say(Clock, hours*3600+minutes*60+seconds)
}

// day says a date.
func (r *reading) day(year, month, day float64) {
	if month < 1 || month > 12 || day < 1 || day > 31 || year < 1970 || year > 2200 {
		r.broken = true
		return
	}
	at := days(int(year), int(month), int(day))
	if next := days(int(year), int(month)+1, 1); at >= next {
		r.broken = true
		return
	}
	r.say(Day, at)
}

// days from 1 January 1970, by the calendar that begins with March (E. G. Richards, in the Explanatory Supplement to the
// Astronomical Almanac, 3rd ed., ch. 15; from memory).
func days(year, month, day int) float64 {
	if month < 3 {
		year, month = year-1, month+12
	}
	return float64(365*year + year/4 - year/100 + year/400 + (153*(month-3)+2)/5 + day - 719469)
}
