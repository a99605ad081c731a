package store

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Another server of the same boat is called home here: this one keeps its log equal to that one as a phone
// does. What it knows of home is how far it has come in its log, and which of its own entries home has.

// FromHome is an answer of home's.
type FromHome struct {
	// At is how far this server is with it; More says that there is more.
	At   Cursor
	More bool
	// Taken are the numbers that home has given to entries that were sent, Refused why it took others not.
	Taken   map[uuid.UUID]int64
	Refused map[uuid.UUID]string
	// Spoilt are numbers of entries that home's disk has spoilt.
	Spoilt []int64
	// Entries are what home has, with its numbers.
	Entries []entry.Numbered
}

// HomeStands is how the exchange with home stands.
type HomeStands struct {
	URL string
	// Together is when all of it last went well, Apart since when it does not; nil if never.
	Together, Apart *time.Time
	// Why says what somebody has to do about it, "" if home is only out of reach.
	Why string
	// Waiting is how many entries home does not have.
	Waiting int64
}
