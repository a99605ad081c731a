package store

import (
	"errors"
	"time"

	"github.com/google/uuid"
)

// Invitation lets phones come aboard.
type Invitation struct {
	// Hash is that of the invitation itself, Code that of the code to type, which works once, until CodeEnds.
	Hash, Code Hash
	CodeEnds   time.Time
	Role       Role
	// Trip is the one trip of a guest, nil for others.
	Trip *uuid.UUID
	// Ends is when it is over, Uses how many phones it is for.
	Ends time.Time
	Uses int
	// Maker is the name of the phone that made it, "" if that was done in the terminal.
	Maker string
}

// MostInvitations is how many can be open at a time.
const MostInvitations = 100

// OpenInvitation is one that still lets phones aboard.
type OpenInvitation struct {
	// ID is the beginning of its hash: who knows it cannot come aboard by it.
	ID   uuid.UUID
	Role Role
	Trip *uuid.UUID
	// Made is nil, and Maker "", where that is not known.
	Made  *time.Time
	Maker string
	Ends  time.Time
	// Uses is how many phones it still lets aboard.
	Uses int
}

// Newcomer is a phone that asks to come aboard.
type Newcomer struct {
	// Invitation or Code is the hash of what it has; the other is nil.
	Invitation, Code *Hash
	// ID is that of its key; of a phone without one, any that is new.
	ID uuid.UUID
	// Token is the hash of the token it will have.
	Token Hash
	Name  string
	// Former is the token of the device it was so far, nil if it was none: that one ends.
	Former *Hash
}

// AgainFor is for how long after it came aboard a phone whose answer was lost can come once more as the same.
const AgainFor = time.Hour

// ErrAlike says that a phone aboard, or one that was told yes, has a name that cannot be told from this one.
var ErrAlike = errors.New("a phone aboard has a name that looks the same")
