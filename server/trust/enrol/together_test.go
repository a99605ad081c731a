package enrol

import (
	"testing"
	"time"

	"wirewake/server/store"
)

// full are buckets of other servers into which nothing fits.
type full struct{}

func (full) Change(keys []string, _ time.Time, do func(all []*store.Bucket)) error {
	all := make([]*store.Bucket, len(keys))
	for i := range all {
		all[i] = &store.Bucket{Wrong: triesAll, At: time.Date(2030, 6, 1, 12, 0, 0, 0, time.UTC)}
	}
	do(all)
	return nil
}

// What all servers together refuse was not tried, and is held against nobody here, either.
func TestATryRefusedTogetherIsNotCountedHere(t *testing.T) {
	now := time.Date(2030, 6, 1, 12, 0, 0, 0, time.UTC)
	e, mine := &Enrolment{Together: full{}}, &tries{}
	for range 3 * triesEach {
		if wait, err := e.begin(mine, aboutCodes, "192.0.2.1", store.Hash{}, now); err != nil || wait == 0 {
			t.Fatal(wait, err)
		}
	}
	e.Together = nil
	for n := range triesEach {
		if wait, err := e.begin(mine, aboutCodes, "192.0.2.1", store.Hash{}, now); err != nil || wait > 0 {
			t.Fatal(n, wait, err)
		}
	}
}
