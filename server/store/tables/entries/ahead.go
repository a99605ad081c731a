package entries

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/photos"
	"wirewake/server/store/tables/trips"
)

// What is read for what a device brings, each statement where it is asked.
const (
	headQuestion     = `SELECT epoch, last, chain FROM log`
	broughtQuestion  = `SELECT entries, bytes FROM brought WHERE device = ? AND trip = ? AND others = ?`
	spoiltQuestion   = `SELECT no FROM spoilt ORDER BY no LIMIT ` + db.Most
	standingQuestion = `SELECT turn, coalesce(entries, 0), coalesce(bytes, 0) FROM device
		LEFT JOIN pace ON pace.device = device.berth AND minute = ? WHERE device.id = ? AND revoked IS NULL`
)

// Which of many ids are there, and what of many records, each read at once.
var (
	idsQuestion     = `SELECT id FROM entry WHERE id IN (` + trips.Listed("?") + `)`
	recordsQuestion = `SELECT DISTINCT record, kind, trip FROM entry WHERE record IN (` + trips.Listed("?") + `)`
)

// ahead is what is to be known of what a device brings before each of it is looked at, where each look is a way there and back.
type ahead struct{ ids, records []uuid.UUID }

// aheadOf is what is to be known of some entries.
func aheadOf(some []entry.Sent) (a ahead) {
	records := map[uuid.UUID]bool{}
	for _, e := range some {
		a.ids = append(a.ids, e.ID)
		if !records[e.Record] {
			records[e.Record] = true
			a.records = append(a.records, e.Record)
		}
	}
	return a
}

// questions are all that is read for what a device brings; how the log stands is read by the first.
func (a ahead) questions(d store.Device, some []entry.Sent, now time.Time, first bool) []db.Question {
	all := []db.Question{{Query: standingQuestion, Args: []any{now.Unix() / 60, d.ID[:]}}}
	if first {
		all = append(all, db.Question{Query: headQuestion}, db.Question{Query: spoiltQuestion, Args: []any{mostGaps}}, db.Question{Query: photos.LackingQuestion})
	}
	heaps := map[heap]bool{}
	for _, e := range some {
		on := heap{e.Trip, e.Author != nil && e.Author.By != d.ID}
		if !heaps[on] {
			heaps[on] = true
			all = append(all, db.Question{Query: broughtQuestion, Args: []any{d.Berth[:], on.trip[:], db.Bit(on.others)}})
		}
	}
	if len(some) > 0 {
		all = append(all, db.Question{Query: idsQuestion, Args: []any{trips.List(a.ids)}}, db.Question{Query: recordsQuestion, Args: []any{trips.List(a.records)}})
	}
	return all
}

// know reads what was foreseen.
func (b *Book) know(a ahead) error {
	if len(a.ids) == 0 {
		return nil
	}
	for _, id := range a.ids {
		b.absent[id] = true
	}
	for _, record := range a.records {
		b.unbegun[record] = true
	}
	var id, record, trip db.ID
	var kind string
	if err := b.tx.Each(idsQuestion, []any{trips.List(a.ids)}, []any{&id}, func() { delete(b.absent, uuid.UUID(id)) }); err != nil {
		return err
	}
	if err := b.tx.Each(recordsQuestion, []any{trips.List(a.records)}, []any{&record, &kind, &trip}, func() {
		b.begun[uuid.UUID(record)] = begun{kind, uuid.UUID(trip)}
		delete(b.unbegun, uuid.UUID(record))
	}); err != nil {
		return err
	}
	// It was asked before others of the transaction brought what they did.
	for _, one := range b.fresh {
		delete(b.absent, one.ID)
		if b.unbegun[one.Record] {
			b.begun[one.Record] = begun{one.Kind, one.Trip}
			delete(b.unbegun, one.Record)
		}
	}
	return nil
}

// over says that with what is brought and not there the log would have more entries than it may.
func (b *Book) over() (bool, error) {
	most, err := b.tx.Most()
	return most > 0 && len(b.absent) > 0 && b.last+int64(len(b.absent)) > most, err
}
