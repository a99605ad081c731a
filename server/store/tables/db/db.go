// Package db is the database that the tables are in, whichever engine keeps it: one writer, several readers, and how ids and
// moments are kept.
package db

import (
	"context"
	"database/sql"
	"errors"
	"sync"
	"sync/atomic"
)

// Engine is what keeps the database.
type Engine interface {
	// Transact does something in one transaction, before and after which no other change is made: once it comes back without
	// error that is on the disk, with one nothing of it is. It may do it more than once.
	Transact(do func(*sql.Conn) error) error
	// Reading is for what only reads, Snapshot is how it reads from the database as it is at one moment.
	Reading() *sql.DB
	Snapshot() *sql.TxOptions
	// Shared says that other servers serve the same.
	Shared() bool
	// OwnPages says that nobody but this program looks after pages and indexes.
	OwnPages() bool
	// Tell tells other processes that something has changed that a phone may want to know of.
	Tell()
	// Explain turns what the engine says into what is wrong and what to do about it.
	Explain(error) error
	// Close lets go of the database.
	Close() error
}

// DB is an open database.
type DB struct {
	Engine
	writer *writer
	news   news
	crew   atomic.Uint64
	// behind is held by what is read behind what comes next.
	behind sync.RWMutex
}

// Over is the database that an engine keeps.
func Over(e Engine) *DB { return &DB{Engine: e, writer: startWriter(e)} }

// Close ends what is under way, and closes the database.
func (d *DB) Close() error {
	if !d.Shared() {
		// A file that is still read could not be tidied up. For a database that is away nobody must wait, and what still reads lets go.
		d.behind.Lock()
		defer d.behind.Unlock()
	}
	d.writer.close()
	return d.Engine.Close()
}

// Write does a change: when it comes back without error the change is on the disk, with one nothing is.
func (d *DB) Write(do func(tx *Tx) error) error {
	// Whatever it is, it may be about who is aboard.
	defer d.Renew()
	return d.Explain(d.writer.write(change{do: do}))
}

// WriteSharing is Write for a change that goes by what others of the same transaction read before it ([Tx.Share]). Such
// a change calls [DB.Renew] itself when it is about who is aboard, and to do it twice is the same as to do it once. ahead is what it
// will read: it is asked only where that is worth while ([Tx.Foresees]), for all of them at once, so that what one of them changes
// the others must not read that way.
func (d *DB) WriteSharing(ahead func() []Question, do func(tx *Tx) error) error {
	c := change{do: do, shares: true, ahead: ahead}
	err := d.writer.write(c)
	for errors.Is(err, ErrUnknown) {
		err = d.writer.write(c)
	}
	return d.Explain(err)
}

// Renew says that what was read of who is aboard, and of which trips are one, may have changed.
func (d *DB) Renew() { d.crew.Add(1) }

// Crew counts how often it was so.
func (d *DB) Crew() uint64 { return d.crew.Load() }

// Behind does what only reads, behind what comes next, unless the database is being closed. A panic in it is for whoever then
// asks for what was read.
func (d *DB) Behind(read func()) {
	if !d.behind.TryRLock() {
		return
	}
	go func() {
		defer d.behind.RUnlock()
		defer func() { _ = recover() }()
		read()
	}()
}

// Snapshot reads from the database as it is at one moment.
func (d *DB) Snapshot(read func(*sql.Tx) error) error {
	tx, err := d.Reading().BeginTx(context.Background(), d.Engine.Snapshot())
	if err != nil {
		return d.Explain(err)
	}
	defer tx.Rollback()
	return d.Explain(read(tx))
}

// Query reads rows. Its error, and those of the rows, are to be explained.
func (d *DB) Query(query string, args ...any) (*sql.Rows, error) {
	return d.Reading().Query(query, args...)
}

// QueryRow reads one row. Its error is to be explained.
func (d *DB) QueryRow(query string, args ...any) *sql.Row {
	return d.Reading().QueryRow(query, args...)
}
