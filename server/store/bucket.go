package store

import "time"

// Bucket holds wrong tries, which leak out of it with time.
type Bucket struct {
	Wrong float64
	At    time.Time
}

// Leak lets out of it what has leaked until now, where one try takes so long to be forgotten. A clock that is behind that of the
// server which was here last lets nothing out, and puts nothing in.
func (b *Bucket) Leak(now time.Time, forget time.Duration) {
	if now.After(b.At) {
		b.Wrong = max(0, b.Wrong-float64(now.Sub(b.At))/float64(forget))
		b.At = now
	}
}

// Wait is how long until one more try fits, where so many do.
func (b *Bucket) Wait(most float64, forget time.Duration) time.Duration {
	return time.Duration(max(0, b.Wrong+1-most) * float64(forget))
}

// Buckets are those that many servers share.
type Buckets interface {
	// Change reads the buckets of some keys, and writes them down as do leaves them; no other server changes them meanwhile. do may
	// be asked more than once. Those to which nothing happened since a moment are forgotten.
	Change(keys []string, forgotten time.Time, do func(all []*Bucket)) error
}
