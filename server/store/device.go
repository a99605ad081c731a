package store

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"wirewake/server/log/contract"

	"github.com/google/uuid"
)

// Role is what a phone may do.
type Role string

// The skipper owns the boat's server, a mate sees the whole log, a guest one trip.
const (
	Skipper Role = "skipper"
	Mate    Role = "mate"
	Guest   Role = "guest"
)

// Roles are all there are, the one that may do most first.
func Roles() (all []Role) {
	for r := range contract.The.Roles {
		all = append(all, Role(r))
	}
	slices.SortFunc(all, func(a, b Role) int {
		return cmp.Or(len(b.Rights())-len(a.Rights()), strings.Compare(string(a), string(b)))
	})
	return all
}

// Rights are what a phone of the role may do: of a role that is not known, the least.
func (r Role) Rights() []contract.Right { return contract.The.Roles[string(r)] }

// May says whether a phone of the role has a right.
func (r Role) May(right contract.Right) bool { return slices.Contains(r.Rights(), right) }

// Hash is the SHA-256 of a secret: the store never has the secret itself.
type Hash [32]byte

// Device is a phone that is or was aboard.
type Device struct {
	ID   uuid.UUID
	Name string
	// Berth is what hangs on it whatever key it takes: what it has brought and sent. It is the id that it came aboard with.
	Berth uuid.UUID
	Role  Role
	// Trip is the one trip of a guest, nil for others.
	Trip *uuid.UUID
	// Enrolled, Seen and Revoked are to the millisecond; Seen is that of the last exchange, to the minute.
	Enrolled, Seen time.Time
	Revoked        *time.Time

	// Holds is how many entries and photos it holds back by its own word; nil until it has told.
	Holds *int64

	// Turn counts how often the log turned out older than what this phone had seen.
	Turn int64

	// trips are those that were made one with its own, root the one that they are by now; nil until it is bound.
	trips []uuid.UUID
	root  uuid.UUID
}

// Unseen is how long a device that does not exchange stays aboard: as long as browsers keep any cookie.
const Unseen = 400 * 24 * time.Hour

// KeysPerPhone is how many keys a device may take after that which it came aboard with: browsers lose one now and then.
const KeysPerPhone = 10

// often is how often the last sight of a device is written down.
const often = time.Minute

// Due says that it is time to write down that the device was seen.
func (d Device) Due(now time.Time) bool { return now.Sub(d.Seen) >= often }

// Only are the trips that the device is bound to: its own and those that were made one with it; nil if it may see all of
// them. One that is bound to none sees none. The server at home, which is no phone of this one, is no device: it has
// them all.
func (d Device) Only() []uuid.UUID {
	switch {
	case d.ID == uuid.Nil || d.Role.May(contract.Trips):
		return nil
	case d.Trip == nil:
		return []uuid.UUID{{}}
	case d.trips != nil:
		return d.trips
	}
	return []uuid.UUID{*d.Trip}
}

// Trips are the trips that a guest's device sees, beginning with the one that they are by now; nil of others.
func (d Device) Trips() []uuid.UUID {
	only := d.Only()
	if len(only) < 2 {
		return only
	}
	all := []uuid.UUID{d.root}
	for _, trip := range only {
		if trip != d.root {
			all = append(all, trip)
		}
	}
	return all
}

// Sees says whether the device may see a trip.
func (d Device) Sees(trip uuid.UUID) bool {
	only := d.Only()
	return only == nil || slices.Contains(only, trip)
}

// Epoch names the numbering of the log as this device sees it.
func (d Device) Epoch(ofLog string) string {
	if only := d.Only(); only != nil {
		return fmt.Sprintf("%s.%d.%s", ofLog, d.Turn, named(only))
	}
	return fmt.Sprintf("%s.%d", ofLog, d.Turn)
}

// Listed is a device with what it has not brought.
type Listed struct {
	Device
	// Missing is how many entries it has counted and not yet brought; of a guest, who may count what it likes, 0.
	Missing int64
	// Ready is nil until the phone has told.
	Ready *Ready
	// Invited is the invitation by which it came, nil if it asked, or that is not known.
	Invited *uuid.UUID
}

// Ready is what a phone lacks for sea by its own word, and when it told so.
type Ready struct {
	Lacks []string
	Told  time.Time
}
