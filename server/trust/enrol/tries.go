package enrol

import (
	"net/netip"
	"sync"
	"time"

	"wirewake/server/store"
)

// How many wrong codes are free, and how long one takes to be forgotten: from one address, of one code, and from
// all. The last is so much that a code of 40 bits, which lives ten minutes, is guessed in that time once in thirty
// million. An invitation, of 128 bits, is not counted: nobody else's tries keep one out who has it.
const (
	triesEach  = 10
	forgetEach = time.Minute
	triesAll   = 3000
	forgetAll  = 20 * time.Millisecond
	// mostKnown is of how many addresses and codes something is held against them.
	mostKnown = 20_000
)

// tries counts wrong codes, or requests.
type tries struct {
	mu    sync.Mutex
	each  map[string]*store.Bucket
	all   store.Bucket
	swept time.Time
}

// judge counts a try in the bucket of all and in those of its keys. wait is how long to wait if there were too many.
func judge(all []*store.Bucket, now time.Time) (wait time.Duration) {
	all[0].Leak(now, forgetAll)
	wait = all[0].Wait(triesAll, forgetAll)
	for _, b := range all[1:] {
		b.Leak(now, forgetEach)
		wait = max(wait, b.Wait(triesEach, forgetEach))
	}
	if wait > 0 {
		return wait
	}
	for _, b := range all {
		b.Wrong++
	}
	return 0
}

// pardon takes a try back.
func pardon(all []*store.Bucket) {
	for _, b := range all {
		b.Wrong = max(0, b.Wrong-1)
	}
}

// keys are what a try is counted under.
func keys(address string, code store.Hash) []string {
	return []string{Network(address), string(code[:])}
}

// begin counts a try as wrong before it is made, so that many at once are counted too; right takes that
// back. wait is how long to wait if there were too many.
func (t *tries) begin(address string, code store.Hash, now time.Time) (wait time.Duration) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.forget(now)
	under := keys(address, code)
	all := []*store.Bucket{&t.all}
	for _, key := range under {
		b := t.each[key]
		if b == nil {
			b = &store.Bucket{At: now}
		}
		all = append(all, b)
	}
	if wait = judge(all, now); wait > 0 {
		return wait
	}
	for i, key := range under {
		t.each[key] = all[i+1]
	}
	return 0
}

// right says that a try was not wrong after all.
func (t *tries) right(address string, code store.Hash) {
	t.mu.Lock()
	defer t.mu.Unlock()
	all := []*store.Bucket{&t.all}
	for _, key := range keys(address, code) {
		if b := t.each[key]; b != nil {
			all = append(all, b)
		}
	}
	pardon(all)
}

// forget drops, now and then, the addresses and codes that nothing is held against any more. Where there are too many
// all the same it drops all of them: then only the limit of all together is left.
func (t *tries) forget(now time.Time) {
	full := len(t.each) >= mostKnown
	if t.each != nil && now.Sub(t.swept) < forgetEach && !full {
		return
	}
	t.swept = now
	for key, b := range t.each {
		if b.Leak(now, forgetEach); b.Wrong == 0 {
			delete(t.each, key)
		}
	}
	if t.each == nil || len(t.each) >= mostKnown {
		t.each = map[string]*store.Bucket{}
	}
}

// Network is what one person can have many addresses of: of IPv6 the network of 64 bits. On the link itself, where all
// share one such network, every address is somebody.
func Network(address string) string {
	ip, err := netip.ParseAddr(address)
	if err != nil || ip.Is4() || ip.Is4In6() || ip.IsLinkLocalUnicast() {
		return address
	}
	prefix, err := ip.WithZone("").Prefix(64)
	if err != nil {
		return address
	}
	return prefix.String()
}
