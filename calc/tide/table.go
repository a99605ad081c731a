package tide

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/geodesic"
	"wirewake/calc/unit"
)

// Table is the stations of a region with their constants. It is read once and never changed.
type Table struct {
	Region, Source string
	From, Until    int // years that its constants serve, both included

	stations []station
}

// Tables are those there are, of one region each.
type Tables []*Table

// kind is what a station predicts and how.
type kind uint8

// The numbers are those of the form.
const (
	tideReference kind = iota
	tideSubordinate
	currentReference
	currentSubordinate
	kinds
)

// station is a place with constants of its own, or with what it differs by from another.
type station struct {
	id, name, state string
	place           geodesic.Place
	x, y, z         float64 // the same on the unit sphere
	kind            kind
	why             Why
	of              *station // the reference of a subordinate one

	constants []constant // of a reference
	mean      float64    // of heights above the datum, m, or along the flood, m/s

	flood, ebb direction

	delays [4]float64 // of high and low water, or of a current's events in the order of their kinds, s
	scale  [2]float64 // of high and low water, or of flood and ebb
	fixed  bool       // scale is added, in m
}

// constant is one constituent at a reference station.
type constant struct {
	of        *constituent
	amplitude float64 // m, or m/s
	phase     float64 // of Greenwich, rad
}

// direction is where a current flows to; it may not be known.
type direction struct {
	known   bool
	bearing float64 // rad
}

// The units of the form.
const (
	lengths  = 0.001
	knots    = unit.Knot
	speeds   = 0.001 * knots
	tenths   = 0.1 * degree
	minutes  = 60.
	hundreds = 0.01
	grid     = 1e-4 * degree
)

// Read reads a table: the columns that tools/tides writes. The error is of type codec.Problems.
func Read(data []byte) (*Table, error) {
	c := columns{left: data}
	t := &Table{}
	if !c.begins("WWT1") {
		return nil, codec.Fault("", "stationsNot", "is not a table of tide and current stations of this version")
	}
	t.Region, t.Source = c.text(), c.text()
	t.From, t.Until = c.count(), c.count()
	var used []*constituent
	for _, name := range c.texts() {
		used = append(used, find(name))
	}
	t.stations = make([]station, c.size())
	c.identify(t.stations)
	var groups [kinds][]*station
	for i := range t.stations {
		s := &t.stations[i]
		groups[s.kind] = append(groups[s.kind], s)
	}
	for _, s := range groups[tideReference] {
		s.mean = lengths * c.number()
	}
	c.differences(t.stations, groups[tideSubordinate])
	c.directions(groups[currentReference])
	for _, s := range groups[currentReference] {
		s.mean = speeds * c.number()
	}
	c.relations(t.stations, groups[currentSubordinate])
	c.constants(used, groups[tideReference], lengths)
	c.constants(used, groups[currentReference], speeds)
	if c.broken || len(c.left) > 0 {
		return nil, codec.Fault("", "stationsDamaged", "is damaged: load the table of stations again")
	}
	return t, nil
}

// find is the constituent of this name, nil if there is none.
func find(name string) *constituent {
	for i := range constituents {
		if constituents[i].name == name {
			return &constituents[i]
		}
	}
	return nil
}

// refusals are the reasons in the order of the form.
var refusals = [...]Why{WhyNone, WhyDatums, WhyConstituents, WhyRejected}

// identify reads what every station has.
func (c *columns) identify(stations []station) {
	for i := range stations {
		code := c.count()
		stations[i].kind = kind(code % int(kinds))
		if code /= int(kinds); code < len(refusals) {
			stations[i].why = refusals[code]
		} else {
			c.broken = true
		}
	}
	ids, names, states := c.texts(), c.texts(), c.texts()
	if len(ids) != len(stations) || len(names) != len(stations) {
		c.broken = true
		return
	}
	for i := range stations {
		s := &stations[i]
		s.id, s.name = ids[i], names[i]
		if at := c.count(); at < len(states) {
			s.state = states[at]
		}
	}
	lat, lon := 0., 0.
	for i := range stations {
		lat += c.number()
		stations[i].place.Lat = lat * grid
	}
	for i := range stations {
		lon += c.number()
		s := &stations[i]
		s.place.Lon = lon * grid
		sin, cos := math.Sincos(s.place.Lat)
		s.x, s.y, s.z = cos*math.Cos(s.place.Lon), cos*math.Sin(s.place.Lon), sin
	}
}

// refer reads which references the subordinate stations have.
func (c *columns) refer(stations []station, group []*station, to kind) {
	at := 0
	for _, s := range group {
		at += int(c.number())
		if at < 0 || at >= len(stations) || stations[at].kind != to {
			c.broken = true
			at = 0
			continue
		}
		s.of = &stations[at]
		if s.why == WhyNone && s.of.why != WhyNone {
			s.why = WhyReference
		}
	}
}

// differences are those of high and low water.
func (c *columns) differences(stations []station, group []*station) {
	c.refer(stations, group, tideReference)
	for _, s := range group {
		s.delays[high] = minutes * c.number()
	}
	for _, s := range group {
		s.delays[low] = s.delays[high] + minutes*c.number()
	}
	for _, of := range [...]event{high, low} {
		for _, s := range group {
			s.scale[of] = hundreds * c.number()
		}
	}
	for _, s := range group {
		s.fixed = c.count() == 1
	}
}

// relations are those of the four events of a current.
func (c *columns) relations(stations []station, group []*station) {
	c.directions(group)
	c.refer(stations, group, currentReference)
	for event := range 4 {
		for _, s := range group {
			s.delays[event] = minutes * c.number()
		}
	}
	for side := range 2 {
		for _, s := range group {
			s.scale[side] = hundreds * float64(c.count())
		}
	}
}

// directions of flood and ebb.
func (c *columns) directions(group []*station) {
	read := func() direction {
		n := c.count()
		return direction{n > 0, tenths * float64(n-1)}
	}
	for _, s := range group {
		s.flood = read()
	}
	for _, s := range group {
		s.ebb = read()
	}
}

// constants of a group's stations.
func (c *columns) constants(used []*constituent, group []*station, unit float64) {
	amplitudes := make([]int, len(used)*len(group))
	for i := range amplitudes {
		amplitudes[i] = c.count()
	}
	for k, of := range used {
		if of == nil {
			c.broken = true
			return
		}
		phase := 0.
		for i, s := range group {
			if amplitude := amplitudes[k*len(group)+i]; amplitude > 0 {
				phase += c.number()
				if s.constants == nil {
					s.constants = make([]constant, 0, len(used))
				}
				s.constants = append(s.constants, constant{of, unit * float64(amplitude), tenths * phase})
			}
		}
	}
}
