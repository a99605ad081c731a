package store

// Amount is so many entries, and so many bytes of their content.
type Amount struct {
	Entries int64 `json:"entries"`
	Bytes   int64 `json:"bytes"`
}

// Plus is both together.
func (a Amount) Plus(b Amount) Amount { return Amount{a.Entries + b.Entries, a.Bytes + b.Bytes} }

// Beyond says that it is more than the most.
func (a Amount) Beyond(most Amount) bool { return a.Entries > most.Entries || a.Bytes > most.Bytes }

// Bounds are how much a phone may bring: of one trip what it wrote itself and what others wrote, and how much in a
// minute. They are far above what anybody notes, and keep one phone from filling the boat's disk and every other phone.
// What a guest brings counts as its own, whoever is said to have written it, unless the server knows that it is the
// crew's.
type Bounds struct{ Own, Others, Minute Amount }

var (
	crewBounds  = Bounds{Own: Amount{200_000, 200 << 20}, Others: Amount{1_000_000, 1 << 30}, Minute: Amount{60_000, 60 << 20}}
	guestBounds = Bounds{Own: Amount{2_000, 2 << 20}, Others: crewBounds.Own, Minute: Amount{600, 1 << 20}}
)

// MostOfGuests is the most entries of their own that all guests of one trip bring together.
const MostOfGuests = 20_000

// Bounds are those of a device.
func (d Device) Bounds() Bounds {
	if d.Only() == nil {
		return crewBounds
	}
	return guestBounds
}

// Of is the bound of what a device wrote itself, or of what others did.
func (b Bounds) Of(others bool) Amount {
	if others {
		return b.Others
	}
	return b.Own
}
