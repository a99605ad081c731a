package enrol

import (
	"net/netip"
	"sync"
	"time"
)

// How many wrong tries are free, and how long one takes to be forgotten: from one address, and from all.
const (
	triesEach  = 10
	forgetEach = time.Minute
	triesAll   = 100
	forgetAll  = 6 * time.Second
)

// tries counts wrong tries to come aboard.
type tries struct {
	mu   sync.Mutex
	each map[string]*bucket
	all  bucket
}

// bucket holds wrong tries, which leak out of it with time.
type bucket struct {
	wrong float64
	at    time.Time
}

func (b *bucket) leak(now time.Time, forget time.Duration) {
	b.wrong = max(0, b.wrong-float64(now.Sub(b.at))/float64(forget))
	b.at = now
}

// wait is how long until one more try fits.
func (b *bucket) wait(most float64, forget time.Duration) time.Duration {
	return time.Duration(max(0, b.wrong+1-most) * float64(forget))
}

// begin counts a try as wrong before it is made, so that many at once are counted too; right takes that
// back. wait is how long to wait if there were too many.
func (t *tries) begin(address string, now time.Time) (wait time.Duration) {
	t.mu.Lock()
	defer t.mu.Unlock()
	address = network(address)
	t.forget(now)
	b := t.each[address]
	if b == nil {
		b = &bucket{at: now}
		t.each[address] = b
	}
	t.all.leak(now, forgetAll)
	if wait = max(b.wait(triesEach, forgetEach), t.all.wait(triesAll, forgetAll)); wait == 0 {
		b.wrong++
		t.all.wrong++
	}
	return wait
}

// right says that a try was not wrong after all.
func (t *tries) right(address string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if b := t.each[network(address)]; b != nil {
		b.wrong = max(0, b.wrong-1)
	}
	t.all.wrong = max(0, t.all.wrong-1)
}

// forget drops the addresses of which nothing is held against: the limit of all bounds how many remain.
func (t *tries) forget(now time.Time) {
	if t.each == nil {
		t.each = map[string]*bucket{}
	}
	for address, b := range t.each {
		if b.leak(now, forgetEach); b.wrong == 0 {
			delete(t.each, address)
		}
	}
}

// network is what one person can have many addresses of.
func network(address string) string {
	ip, err := netip.ParseAddr(address)
	if err != nil || ip.Is4() || ip.Is4In6() {
		return address
	}
	prefix, err := ip.WithZone("").Prefix(64)
	if err != nil {
		return address
	}
	return prefix.String()
}
