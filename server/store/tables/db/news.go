package db

import "sync"

// news tells everybody who waits that something has changed that a phone may want to know of.
type news struct {
	mu    sync.Mutex
	waits chan struct{}
}

// Changed is closed at the next change of the log, or of who is aboard.
func (d *DB) Changed() <-chan struct{} {
	d.news.mu.Lock()
	defer d.news.mu.Unlock()
	if d.news.waits == nil {
		d.news.waits = make(chan struct{})
	}
	return d.news.waits
}

// Tell tells all who wait, here and in other processes.
func (d *DB) Tell() {
	d.Told()
	d.Engine.Tell()
}

// Told tells all who wait here.
func (d *DB) Told() { d.news.tell() }

func (n *news) tell() {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.waits != nil {
		close(n.waits)
		n.waits = nil
	}
}
