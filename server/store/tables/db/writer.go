package db

import (
	"database/sql"
	"errors"
	"runtime"
	"sync"
)

// together is the most changes that one transaction holds, so that the first of them does not wait long.
const together = 256

var errClosed = errors.New("the store is closed")

// writer makes all changes, one transaction after the other: all changes that wait are one transaction
// and cost one fsync between them.
type writer struct {
	engine   Engine
	together int
	changes  chan change
	closing  chan struct{}
	closed   chan struct{}
	once     sync.Once
}

// Together sets how many changes one transaction may hold, before the store is used: the figures set it to 1
// to show what the grouping brings.
func (d *DB) Together(most int) { d.writer.together = most }

// change is something to be done in a transaction. It may be done more than once before one is
// committed, so it must begin afresh each time.
type change struct {
	do   func(tx *Tx) error
	done chan error
	// shares says that it goes by what the changes before it share.
	shares bool
	// ahead is what it will read, where it is worth while to ask ahead.
	ahead func() []Question
}

func startWriter(e Engine) *writer {
	w := &writer{
		engine: e, together: together,
		changes: make(chan change, together), closing: make(chan struct{}), closed: make(chan struct{}),
	}
	go w.run()
	return w
}

// write does a change and comes back when it is on the disk, or when nothing of it is.
func (w *writer) write(c change) error {
	c.done = make(chan error, 1)
	select {
	case w.changes <- c:
	case <-w.closing:
		return errClosed
	}
	select {
	case err := <-c.done:
		return err
	case <-w.closed:
	}
	// The writer may have done it last of all.
	select {
	case err := <-c.done:
		return err
	default:
		return errClosed
	}
}

func (w *writer) close() {
	w.once.Do(func() {
		close(w.closing)
		<-w.closed
	})
}

func (w *writer) run() {
	defer close(w.closed)
	tx := &Tx{}
	defer tx.close()
	for {
		select {
		case first := <-w.changes:
			if w.engine.Shared() {
				// Whoever is about to bring something goes with the first, which is a long way there and back.
				runtime.Gosched()
			}
			w.commit(tx, w.waiting(first))
		case <-w.closing:
			return
		}
	}
}

// waiting gathers the changes that wait at this moment.
func (w *writer) waiting(first change) []change {
	all := []change{first}
	for len(all) < w.together {
		select {
		case next := <-w.changes:
			all = append(all, next)
		default:
			return all
		}
	}
	return all
}

// commit does changes in one transaction. If that fails it does each in a transaction of its own, so
// that a change that cannot be does not take others with it; but where nobody knows whether they were made, none is made
// again.
func (w *writer) commit(tx *Tx, changes []change) {
	err := w.transact(tx, changes)
	if err == nil || len(changes) == 1 || errors.Is(err, ErrUnknown) {
		for _, c := range changes {
			c.done <- err
		}
		return
	}
	for _, c := range changes {
		c.done <- w.transact(tx, []change{c})
	}
}

func (w *writer) transact(tx *Tx, changes []change) error {
	err := w.engine.Transact(func(conn *sql.Conn) error {
		tx.on(conn)
		return tx.do(changes)
	})
	if err != nil {
		return err
	}
	for _, s := range tx.settled {
		s.Kept()
	}
	return nil
}
