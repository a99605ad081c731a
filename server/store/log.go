package store

import (
	"time"

	"wirewake/server/log/entry"
)

// Outcome says what became of an entry: the number it has, and whether it was not there before, or why it was refused.
type Outcome struct {
	No      int64
	New     bool
	Refusal *entry.Refusal
}

// Standing is how a device stands with the store: whether it is aboard, and how long it has to wait before it may
// send again. If it is not, or has to, nothing was done.
type Standing struct {
	Aboard bool
	Wait   time.Duration
}

// Cursor is how far a phone has come in the log: it has all it may see up to a number.
type Cursor struct {
	Epoch string
	Since int64
	// Check stands for all entries up to Since, and of a guest for which of them it was to see.
	Check string
}

// Page is what comes next for a phone.
type Page struct {
	// Cursor is how far the phone is with this page.
	Cursor  Cursor
	Entries []entry.Numbered
	More    bool
	// Wanted are photos that the server lacks, Spoilt numbers of entries that its disk has spoilt.
	Wanted []entry.Photo
	Spoilt []int64
	// Found are such numbers that were not known before.
	Found []int64
}
