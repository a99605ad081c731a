package formats

import "unicode/utf8"

// gpx is GPX 1.1: waypoints for what was noted somewhere, and the track.
func gpx(q *Query) string {
	out := []byte("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" +
		"<gpx version=\"1.1\" creator=\"Wirewake\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n" +
		"<metadata><name>" + xml(q.Name) + "</name><time>" + iso(q.Made) + "</time></metadata>\n")
	for i := range q.Notes {
		n := &q.Notes[i]
		if !n.Placed {
			continue
		}
		out = append(out, "<wpt"+at(n.Lat, n.Lon)+"><time>"+iso(n.Time)+"</time><name>"+xml(n.Kind)+"</name>"...)
		if words := n.words(); words != "" {
			out = append(out, "<desc>"+xml(words)+"</desc>"...)
		}
		out = append(out, "<type>"+xml(n.Kind)+"</type></wpt>\n"...)
	}
	if len(q.Track) > 0 {
		out = append(out, "<trk><name>"+xml(q.Name)+"</name>\n"...)
		for _, segment := range q.segments() {
			out = append(out, "<trkseg>\n"...)
			for _, p := range segment {
				out = append(out, "<trkpt"+at(p.Lat, p.Lon)+"><time>"+iso(p.Time)+"</time></trkpt>\n"...)
			}
			out = append(out, "</trkseg>\n"...)
		}
		out = append(out, "</trk>\n"...)
	}
	return string(append(out, "</gpx>\n"...))
}

// at has longitudes below 180°, as the schema wants them.
func at(lat, lon float64) string {
	if lon == 180 {
		lon = -180
	}
	return " lat=\"" + degrees(lat) + "\" lon=\"" + degrees(lon) + "\""
}

// xml is text as XML 1.0 can hold it: what it cannot, is left out.
func xml(text string) string {
	var out []byte
	for _, r := range text {
		switch {
		case r == '&':
			out = append(out, "&amp;"...)
		case r == '<':
			out = append(out, "&lt;"...)
		case r == '>':
			out = append(out, "&gt;"...)
		case r == '"':
			out = append(out, "&quot;"...)
		case r < 0x20 && r != '\t' && r != '\n', r == utf8.RuneError, r == 0xFFFE, r == 0xFFFF:
		default:
			out = utf8.AppendRune(out, r)
		}
	}
	return string(out)
}
