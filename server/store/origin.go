package store

import "time"

// Origin is an address under which the app has been served: scheme, host and port. A phone keeps
// what its user enters under the origin it loaded the app from, and under no other.
type Origin struct {
	URL         string
	First, Last time.Time
}
