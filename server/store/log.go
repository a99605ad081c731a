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
	// Over says that the log would have more entries than it may: nothing was taken.
	Over bool
	// Head is how the log stood then; nil if it was not looked at.
	Head *Head
}

// Head is how the log stood at a moment.
type Head struct {
	// Epoch names its numbering, for the device that asked.
	Epoch string
	Last  int64
	// Chain stands for all entries up to the last.
	Chain []byte
	// Asks says that the server lacks something that it asks phones for: photos, or what its disk has spoilt.
	Asks bool
}

// Cursor is how far a phone has come in the log: it has all it may see up to a number.
type Cursor struct {
	Epoch string
	Since int64
	// Check stands for all entries up to Since, and of a guest for which of them it was to see.
	Check string
}

// Given is an entry with the text by which it is given out: see [entry.Numbered.JSON].
type Given struct {
	*entry.Numbered
	Text []byte
}

// Page is what comes next for a phone.
type Page struct {
	// Cursor is how far the phone is with this page.
	Cursor  Cursor
	Entries []Given
	More    bool
	// Wanted are photos that the server lacks, Spoilt numbers of entries that its disk has spoilt.
	Wanted []entry.Photo
	Spoilt []int64
	// Found are such numbers that were not known before.
	Found []int64
}

// Numbered are the entries without their texts.
func (p Page) Numbered() []entry.Numbered {
	all := make([]entry.Numbered, len(p.Entries))
	for i, g := range p.Entries {
		all[i] = *g.Numbered
	}
	return all
}
