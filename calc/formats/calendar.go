package formats

import (
	"math"
	"unicode/utf8"
)

// calendar is an iCalendar object.
func calendar(q *Query) string {
	var f file
	f.line("BEGIN:VCALENDAR")
	f.line("VERSION:2.0")
	f.line("PRODID:-//Wirewake//Notes//EN")
	for i := range q.Events {
		e := &q.Events[i]
		f.line("BEGIN:VEVENT")
		f.line("UID:" + escaped(e.ID))
		f.line("DTSTAMP:" + stamp(q.Made))
		f.line("DTSTART:" + stamp(e.From))
		// An event without length has no end: RFC 5545 wants it later than the beginning.
		if e.To > e.From && stamp(e.To) != stamp(e.From) {
			f.line("DTEND:" + stamp(e.To))
		}
		f.line("SUMMARY:" + escaped(e.Name))
		if e.Words != "" {
			f.line("DESCRIPTION:" + escaped(e.Words))
		}
		if e.Placed {
			f.line("GEO:" + degrees(e.Lat) + ";" + degrees(e.Lon))
		}
		f.line("END:VEVENT")
	}
	f.line("END:VCALENDAR")
	return string(f)
}

// lastSecond of the year 9999, s since 1970: a year has four digits.
const lastSecond = 253402300799

// stamp is a time to the nearest second, for RFC 5545 has no parts of one.
func stamp(t float64) string { return clock(math.Min(math.Round(t), lastSecond), "", "") + "Z" }

// escaped is TEXT of RFC 5545, 3.3.11.
func escaped(text string) string {
	var f file
	for _, r := range oneEnd(text) {
		switch {
		case r == '\n':
			f.put("\\n")
		case r == '\\' || r == ';' || r == ',':
			f = append(f, '\\', byte(r))
		case r == 0x7F:
		default:
			f = utf8.AppendRune(f, r)
		}
	}
	return string(f)
}

// line folds one after 75 octets at most, between characters.
func (f *file) line(text string) {
	room := 75
	for _, r := range text {
		size := utf8.RuneLen(r)
		if size > room {
			f.put("\r\n ")
			room = 74
		}
		*f = utf8.AppendRune(*f, r)
		room -= size
	}
	f.put("\r\n")
}
