package store

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Named is what the log says of a photo to one device.
type Named struct {
	// Whole says that its file is there, and that the device may see it.
	Whole bool
	// Room says that a trip that names it, and that the device sees, has fewer photos than fit.
	Room bool
}

// Part is a photo on its way from one phone. Each phone has a part of its own, so that nobody can spoil what
// another one sends.
type Part struct {
	Photo entry.Photo
	// By is the berth of the phone.
	By uuid.UUID
}

// PartOf is a photo on its way from a device.
func PartOf(photo entry.Photo, d Device) Part { return Part{photo, d.Berth} }

const (
	// PhotosPerTrip is how many photos the server keeps of one trip, those on their way with them.
	PhotosPerTrip = 200
	// GuestPhotos is how many photos the server keeps that one guest has sent, whoever is said to have taken them,
	// those on their way with them.
	GuestPhotos = 60
	// GuestsPhotos is how many of a trip's photos all its guests together send: the others are the crew's.
	GuestsPhotos = PhotosPerTrip / 2
	// PartsPerPhone is how many photos of one phone may be on their way: it sends one after the other, and
	// a few are left from lines that broke.
	PartsPerPhone = 8
	// PartLife is how long a photo on its way is kept after the last of it came.
	PartLife = 24 * time.Hour
)

// Place says whether there is room for a photo, and whose bound it is if not.
type Place int

// What may be said of the room for a photo.
const (
	Roomy Place = iota
	TripFull
	GuestFull
	GuestsFull
)
