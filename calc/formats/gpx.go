package formats

import "unicode/utf8"

// gpx is GPX 1.1: waypoints for what was noted somewhere, and the track.
func gpx(q *Query) string {
	var f file
	f.put("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx version=\"1.1\" creator=\"Wirewake\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n",
		"<metadata><name>", xml(q.Name), "</name><time>", iso(q.Made), "</time></metadata>\n")
	for i := range q.Notes {
		n := &q.Notes[i]
		if !n.Placed {
			continue
		}
		f.put("<wpt")
		f.at(n.Lat, n.Lon, n.Time)
		f.put("<name>", xml(n.Kind), "</name>")
		words := n.words()
		if len(n.Rods) > 0 {
			if words != "" {
				words += "; "
			}
			words += "spread: " + n.spread()
		}
		if words != "" {
			f.put("<desc>", xml(words), "</desc>")
		}
		f.put("<type>", xml(n.Kind), "</type></wpt>\n")
	}
	if len(q.Track) > 0 {
		f.put("<trk><name>", xml(q.Name), "</name>\n")
		for _, segment := range q.segments() {
			f.put("<trkseg>\n")
			for _, p := range segment {
				f.put("<trkpt")
				f.at(p.Lat, p.Lon, p.Time)
				f.put("</trkpt>\n")
			}
			f.put("</trkseg>\n")
		}
		f.put("</trk>\n")
	}
	f.put("</gpx>\n")
	return string(f)
}

// at has longitudes below 180°, as the schema wants them.
func (f *file) at(lat, lon, time float64) {
	east := degrees(lon)
	if east == "180" {
		east = "-180"
	}
	f.put(" lat=\"", degrees(lat), "\" lon=\"", east, "\"><time>", iso(time), "</time>")
}

// xml is text as XML 1.0 can hold it: what it cannot, is left out.
func xml(text string) string {
	var f file
	for _, r := range oneEnd(text) {
		switch {
		case r == '&':
			f.put("&amp;")
		case r == '<':
			f.put("&lt;")
		case r == '>':
			f.put("&gt;")
		case r == '"':
			f.put("&quot;")
		case r == utf8.RuneError, r == 0xFFFE, r == 0xFFFF:
		default:
			f = utf8.AppendRune(f, r)
		}
	}
	return string(f)
}
