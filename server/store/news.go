package store

import (
	"database/sql"
	"fmt"
	"sync"
)

// news tells everybody who waits that something has changed that a phone may want to know of.
type news struct {
	mu    sync.Mutex
	waits chan struct{}
}

// Changed is closed at the next change of the log, or of who is aboard.
func (s *Store) Changed() <-chan struct{} {
	s.news.mu.Lock()
	defer s.news.mu.Unlock()
	if s.news.waits == nil {
		s.news.waits = make(chan struct{})
	}
	return s.news.waits
}

func (n *news) tell() {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.waits != nil {
		close(n.waits)
		n.waits = nil
	}
}

// Latest is the epoch of a device, and the highest number of what it may see.
func (s *Store) Latest(d Device) (epoch string, no int64, err error) {
	err = s.snapshot(func(tx *sql.Tx) error {
		if err := tx.QueryRow(`SELECT epoch, last, turn FROM log, device WHERE device.id = ?`, d.ID[:]).Scan(&epoch, &no, &d.turn); err != nil {
			return err
		}
		epoch = d.epoch(epoch)
		if d.only() == nil {
			return nil
		}
		return tx.QueryRow(fmt.Sprintf(`SELECT coalesce(max(no), 0) FROM entry WHERE trip IN (%s)`, tripsOf("?1")), listOf(d.only())).Scan(&no)
	})
	return epoch, no, err
}

// tripsOf are the trips of a list, for a statement.
func tripsOf(list string) string { return "SELECT unhex(value) FROM json_each(" + list + ")" }
