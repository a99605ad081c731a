package tide

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/geodesic"
)

// near is a station found, with the square of its distance by the chord of the unit sphere.
type near struct {
	table  *Table
	s      *station
	square float64
}

// Nearest is the stations nearest to a place. Errors are codec.Problems.
func Nearest(t Tables, q Stations) (StationsAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return StationsAnswer{}, err
	}
	if len(t) == 0 {
		return StationsAnswer{}, absent("place")
	}
	found := t.nearest(geodesic.Place(q.Place), q.Kind, q.Count)
	a := StationsAnswer{Source: t[0].source()}
	for i, n := range found {
		if i == 0 {
			a.Source = n.table.source()
		}
		a.Stations = append(a.Stations, n.s.tell(&q.Place))
		// Found by the sphere, told by the ellipsoid: in order as they are told.
		for k := i; k > 0 && a.Stations[k].Distance < a.Stations[k-1].Distance; k-- {
			a.Stations[k], a.Stations[k-1] = a.Stations[k-1], a.Stations[k]
		}
	}
	a.Use = q.use(a.Stations)
	return a, nil
}

// How far away a station may be that nobody has chosen, m: judgements. A current is another behind the next headland.
const (
	farTide    = 50e3
	farCurrent = 10e3
)

// use is the station to go by.
func (q *Stations) use(all []Station) (nearest string) {
	far := farTide
	if q.Kind == KindCurrent {
		far = farCurrent
	}
	for i := len(all) - 1; i >= 0; i-- {
		switch s := &all[i]; {
		case s.Why != WhyNone:
		case s.ID == q.Wanted:
			return s.ID
		case s.Distance <= far:
			nearest = s.ID
		}
	}
	return nearest
}

// nearest are so many stations of a kind, the nearest first.
func (t Tables) nearest(place geodesic.Place, kind Kind, count int) (found []near) {
	sinLat, cosLat := math.Sincos(place.Lat)
	sinLon, cosLon := math.Sincos(place.Lon)
	x, y, z := cosLat*cosLon, cosLat*sinLon, sinLat
	for _, table := range t {
		for i := range table.stations {
			s := &table.stations[i]
			dx, dy, dz := s.x-x, s.y-y, s.z-z
			n := near{table, s, dx*dx + dy*dy + dz*dz}
			switch {
			case s.tellKind() != kind:
				continue
			case len(found) < count:
				found = append(found, n)
			case n.square < found[count-1].square:
				found[count-1] = n
			default:
				continue
			}
			for k := len(found) - 1; k > 0 && found[k].square < found[k-1].square; k-- {
				found[k], found[k-1] = found[k-1], found[k]
			}
		}
	}
	return found
}
