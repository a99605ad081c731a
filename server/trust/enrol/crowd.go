package enrol

import "sync/atomic"

// Crowd are the requests with a body that a harbour's server reads at a time for all its boats together, each of which has bounds of
// its own besides: however many boats are busy, they take no more memory than that.
type Crowd struct {
	// Most is how many may come from phones that are aboard.
	Most int64

	strangers strangers
	bodies    atomic.Int64
}

// mostStrangersOfAll is how many may come from strangers, of which the slowest gives way.
const mostStrangersOfAll = 512

// sharesOfAll is of how many boats each may have as much as it may while others find room: what one has may take minutes.
const sharesOfAll = 16

// share is how many may come from phones that are aboard of one boat.
func (c *Crowd) share() int {
	if c == nil {
		return mostOfAll
	}
	return max(1, int(c.Most)/sharesOfAll)
}

func nothing() {}

// enter lets a request in of which it is not known whose it is; leave takes it out again.
func (c *Crowd) enter(hurry func()) (leave func()) {
	if c == nil {
		return nothing
	}
	return c.strangers.enter(mostStrangersOfAll, hurry)
}

// open gives a request a place that comes from a phone aboard, until it is closed.
func (c *Crowd) open() (close func(), ok bool) {
	if c == nil {
		return nothing, true
	}
	if c.bodies.Add(1) > c.Most {
		c.bodies.Add(-1)
		return nil, false
	}
	return func() { c.bodies.Add(-1) }, true
}
