package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"slices"

	"github.com/google/uuid"
)

// Trips that were made one are seen as one: what the crew says of a trip's record, `into`, leads from each to the one
// that it became a part of.

// Root is the trip that a trip is a part of by now, itself if it was never made one with another: where into leads.
// Where it leads round in a circle, as when two phones made the same two trips one without knowing of each other, it is
// the least id of the circle.
func Root(into map[uuid.UUID]uuid.UUID, trip uuid.UUID) uuid.UUID {
	var way []uuid.UUID
	for at := trip; ; {
		if i := slices.Index(way, at); i >= 0 {
			return slices.MinFunc(way[i:], func(a, b uuid.UUID) int { return bytes.Compare(a[:], b[:]) })
		}
		way = append(way, at)
		next, ok := into[at]
		if !ok {
			return at
		}
		at = next
	}
}

// Bind fills in which trips a device sees that has one: all that were made one with it.
func (d *Device) Bind(into map[uuid.UUID]uuid.UUID) {
	d.root = Root(into, *d.Trip)
	d.trips = []uuid.UUID{*d.Trip}
	for trip := range into {
		for _, one := range []uuid.UUID{trip, into[trip]} {
			if Root(into, one) == d.root && !slices.Contains(d.trips, one) {
				d.trips = append(d.trips, one)
			}
		}
	}
	slices.SortFunc(d.trips, func(a, b uuid.UUID) int { return bytes.Compare(a[:], b[:]) })
}

// named is one word for the trips that a device is bound to.
func named(trips []uuid.UUID) string {
	if len(trips) == 1 {
		return trips[0].String()
	}
	hash := sha256.New()
	for _, trip := range trips {
		hash.Write(trip[:])
	}
	return hex.EncodeToString(hash.Sum(nil)[:12])
}
