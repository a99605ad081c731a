package store

import (
	"testing"
	"time"
)

// Of two servers whose clocks differ the one that is behind puts nothing in by looking, and lets nothing out twice.
func TestAClockThatIsBehindChangesNoBucket(t *testing.T) {
	noon := time.Date(2030, 6, 1, 12, 0, 0, 0, time.UTC)
	b := Bucket{Wrong: 5, At: noon}
	for range 10 {
		for _, now := range []time.Time{noon.Add(-30 * time.Second), noon} {
			if b.Leak(now, time.Minute); b.Wrong != 5 || !b.At.Equal(noon) {
				t.Fatalf("%+v", b)
			}
		}
	}
	if b.Leak(noon.Add(2*time.Minute), time.Minute); b.Wrong != 3 {
		t.Errorf("two minutes later: %+v", b)
	}
}
