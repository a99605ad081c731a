package entries

import (
	"slices"
	"sync"

	"wirewake/server/store"
)

// next are pages that are read from the disk while the ones before them are still on their way: a phone that is new aboard fetches
// one after the other, and it and the server would wait for each other in turn.
type next struct {
	mu sync.Mutex
	// asked counts the pages that phones have asked for.
	asked  int
	coming [mostComing]coming
}

// coming is a page that is read, or was, and that nobody has asked for yet.
type coming struct {
	// page waits for it; nil where there is none.
	page  func() (page, bool)
	after store.Cursor
	most  int
	asked int
}

// How many such pages are kept, and how many others may be asked for until a phone has turned away from its own. With more
// phones than that some of them wait for the disk.
const (
	mostComing = 4
	patience   = 200
)

// take is the page after a cursor, at most once; ok is false if nobody reads it, or it cannot be read.
func (n *next) take(after store.Cursor, most int) (p page, ok bool) {
	n.mu.Lock()
	n.asked++
	i := n.find(after, most)
	if i < 0 {
		n.mu.Unlock()
		return p, false
	}
	found := n.coming[i]
	n.coming[i] = coming{}
	n.mu.Unlock()
	return found.page()
}

// begin is how to read the page after a cursor beforehand; nil if somebody does, or there is no room for it.
func (n *next) begin(after store.Cursor, most int, read func() (page, bool)) func() {
	n.mu.Lock()
	defer n.mu.Unlock()
	i := slices.IndexFunc(n.coming[:], func(c coming) bool { return c.page == nil || n.asked-c.asked > patience })
	if i < 0 || n.find(after, most) >= 0 {
		return nil
	}
	once := sync.OnceValues(read)
	n.coming[i] = coming{once, after, most, n.asked}
	return func() { once() }
}

func (n *next) find(after store.Cursor, most int) int {
	return slices.IndexFunc(n.coming[:], func(c coming) bool { return c.page != nil && c.after == after && c.most == most })
}
