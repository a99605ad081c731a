package store

import (
	"testing"

	"github.com/google/uuid"
)

// The trip that others became a part of, by hand: chains, circles of two and of three, and a way into a circle.
func TestRoot(t *testing.T) {
	id := func(b byte) uuid.UUID { return uuid.UUID{b} }
	into := map[uuid.UUID]uuid.UUID{
		id(2): id(1),               // a chain
		id(3): id(2),               //
		id(5): id(4), id(4): id(5), // both ways at once
		id(9): id(8), id(8): id(7), id(7): id(9), // round
		id(10): id(9), // into it
	}
	for trip, want := range map[byte]byte{1: 1, 2: 1, 3: 1, 4: 4, 5: 4, 7: 7, 8: 7, 9: 7, 10: 7, 11: 11} {
		if got := Root(into, id(trip)); got != id(want) {
			t.Errorf("%d is a part of %v, want %d", trip, got, want)
		}
	}
}
