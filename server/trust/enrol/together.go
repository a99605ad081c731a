package enrol

import (
	"time"

	"wirewake/server/store"
)

// What tries are about.
const (
	aboutCodes = "code"
	aboutAsks  = "ask"
)

// begin counts a try here, and where that lets it through with all servers of the harbour: what one server refuses costs the others
// nothing.
func (e *Enrolment) begin(t *tries, about, address string, code store.Hash, now time.Time) (wait time.Duration, err error) {
	if wait = t.begin(address, code, now); wait > 0 || e.Together == nil {
		return wait, nil
	}
	err = e.Together.Change(keysOfAll(about, address, code), forgotten(now), func(all []*store.Bucket) { wait = judge(all, now) })
	if wait > 0 {
		t.right(address, code) // a try that is not made counts nowhere
	}
	return wait, err
}

// right says that a try was not wrong after all.
func (e *Enrolment) right(t *tries, about, address string, code store.Hash, now time.Time) {
	t.right(address, code)
	if e.Together != nil {
		// Where that fails, so has what was tried, or the phone is aboard all the same.
		_ = e.Together.Change(keysOfAll(about, address, code), forgotten(now), pardon)
	}
}

// keysOfAll are what a try is counted under with all servers: by all, and by its own keys.
func keysOfAll(about, address string, code store.Hash) []string {
	all := []string{about}
	for _, key := range keys(address, code) {
		all = append(all, about+" "+key)
	}
	return all
}

// forgotten is since when nothing must have happened to a bucket for it to be empty.
func forgotten(now time.Time) time.Time { return now.Add(-triesEach * forgetEach) }
