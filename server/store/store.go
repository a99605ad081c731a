// Package store is what the server keeps, whatever it is kept in: the words that the rest of the server has for it, and
// the rules that hold wherever it is kept. sqlite/ keeps it in a database in the data directory; all SQL is there.
package store

// Error says in plain words what is wrong with the store and what to do about it.
type Error struct {
	// Full says that the disk has no room.
	Full bool
	// Allotted says that a boat of a harbour has as much as it may.
	Allotted bool
	// Damaged says that what is kept is no sound database.
	Damaged bool
	// Text is what is said, Err what the database said.
	Text string
	Err  error
}

func (e *Error) Error() string { return e.Text }

// Unwrap gives what the database said.
func (e *Error) Unwrap() error { return e.Err }

// State is what the log holds.
type State struct {
	Entries int64
	Devices []Listed
	// Spoilt are numbers under which there is nothing sound, those that are known and those that were reported.
	Spoilt []int64
}

// Looked is what a look at a part of the log found and did.
type Looked struct {
	// Upto is the number up to which was looked; 0 if that was the end, and the next look begins anew.
	Upto int64
	// Spoilt are entries that the disk has spoilt, and that were not known.
	Spoilt []int64
	// Relinked says that links of the chain were put right, Reindexed that an index was.
	Relinked, Reindexed bool
}
