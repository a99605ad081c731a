package entries

import (
	"bytes"
	"sync"

	"wirewake/server/store"
)

// tail are the newest entries as this process took them: what phones that have seen all but the last few ask for, for each of
// which the disk would be asked anew. It is forgotten with every other change that this process makes.
type tail struct {
	mu sync.Mutex
	// of is how many of those there were: see [db.DB.Crew].
	of uint64
	// before is the chain up to the first of them.
	before []byte
	all    []tailed
	size   int
}

// tailed is an entry with the chain up to it.
type tailed struct {
	store.Given
	chain []byte
}

// How much of it is kept: when there is more, half of it is let go.
const (
	tailEntries = 1024
	tailBytes   = 512 << 10
)

// add adds entries that came after the chain before. Where others came in between, by another process or in another order,
// it begins anew.
func (t *tail) add(of uint64, before []byte, fresh []tailed) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.of != of || !bytes.Equal(t.end(), before) {
		t.of, t.before, t.all, t.size = of, before, nil, 0
	}
	t.all = append(t.all, fresh...)
	for _, one := range fresh {
		t.size += len(one.Text)
	}
	if len(t.all) <= tailEntries && t.size <= tailBytes {
		return
	}
	gone := 0
	for ; gone < len(t.all) && (len(t.all)-gone > tailEntries/2 || t.size > tailBytes/2); gone++ {
		t.size -= len(t.all[gone].Text)
		t.before = t.all[gone].chain
	}
	// Elsewhere, since pages are being made of what was there.
	t.all = append([]tailed(nil), t.all[gone:]...)
}

func (t *tail) end() []byte {
	if len(t.all) == 0 {
		return t.before
	}
	return t.all[len(t.all)-1].chain
}

// after are the entries after a cursor, up to the log's head; ok is false if they are not all here.
func (t *tail) after(of uint64, from store.Cursor, head *store.Head) (some []tailed, ok bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.of != of || len(t.all) == 0 {
		return nil, false
	}
	first := t.all[0].No
	begin, end := from.Since-first+1, head.Last-first+1
	if begin < 0 || end < begin || end < 1 || end > int64(len(t.all)) || !bytes.Equal(t.all[end-1].chain, head.Chain) {
		return nil, false
	}
	before := t.before
	if begin > 0 {
		before = t.all[begin-1].chain
	}
	if from.Since > 0 && checkWord(before) != from.Check {
		return nil, false
	}
	return t.all[begin:end:end], true
}
