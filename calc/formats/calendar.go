package formats

import "unicode/utf8"

// calendar is an iCalendar object.
func calendar(q *Query) string {
	out := line(nil, "BEGIN:VCALENDAR")
	out = line(out, "VERSION:2.0")
	out = line(out, "PRODID:-//Wirewake//Notes//EN")
	for i := range q.Events {
		e := &q.Events[i]
		out = line(out, "BEGIN:VEVENT")
		out = line(out, "UID:"+escaped(e.ID))
		out = line(out, "DTSTAMP:"+stamp(q.Made))
		out = line(out, "DTSTART:"+stamp(e.From))
		// An event without length has no end: RFC 5545 wants it later than the beginning.
		if e.To > e.From && stamp(e.To) != stamp(e.From) {
			out = line(out, "DTEND:"+stamp(e.To))
		}
		out = line(out, "SUMMARY:"+escaped(e.Name))
		if e.Words != "" {
			out = line(out, "DESCRIPTION:"+escaped(e.Words))
		}
		if e.Placed {
			out = line(out, "GEO:"+degrees(e.Lat)+";"+degrees(e.Lon))
		}
		out = line(out, "END:VEVENT")
	}
	return string(line(out, "END:VCALENDAR"))
}

func stamp(t float64) string { return clock(t, "", "") + "Z" }

// escaped is TEXT of RFC 5545, 3.3.11.
func escaped(text string) string {
	var out []byte
	for _, r := range text {
		switch {
		case r == '\n':
			out = append(out, '\\', 'n')
		case r == '\\' || r == ';' || r == ',':
			out = append(out, '\\', byte(r))
		case r < 0x20 && r != '\t' || r == 0x7F:
		default:
			out = utf8.AppendRune(out, r)
		}
	}
	return string(out)
}

// line folds one after 75 octets at most, between characters.
func line(out []byte, text string) []byte {
	room := 75
	for _, r := range text {
		size := utf8.RuneLen(r)
		if size > room {
			out = append(out, '\r', '\n', ' ')
			room = 74
		}
		out = utf8.AppendRune(out, r)
		room -= size
	}
	return append(out, '\r', '\n')
}
