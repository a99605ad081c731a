package aboard

import (
	"sync"
	"time"

	"github.com/google/uuid"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// looks are when phones that ask last looked what was said to them. On the boat they are not on the disk: strangers shall not make
// it write every few seconds, and after a start each has looked again soon. Servers beside each other write them down now and then,
// where a crash may forget them.
type looks struct {
	mutex sync.Mutex
	at    map[uuid.UUID]looked
}

// looked is when a phone looked, and when that was last written down.
type looked struct{ at, written time.Time }

// lookedAgain is how long a look is not written down again.
const lookedAgain = waitsFor / 3

// note notes a look; due says that none was written down for a while.
func (l *looks) note(device uuid.UUID, now time.Time) (due bool) {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	if l.at == nil || len(l.at) > 4*store.MostAsks {
		l.at = map[uuid.UUID]looked{}
	}
	last := looked{now, l.at[device].written}
	l.at[device] = last
	return now.Sub(last.written) > lookedAgain
}

// wrote notes that a look is written down.
func (l *looks) wrote(device uuid.UUID, now time.Time) {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	if last, there := l.at[device]; there {
		l.at[device] = looked{last.at, now}
	}
}

// since are those that looked after a moment; the others are forgotten.
func (l *looks) since(moment time.Time) map[uuid.UUID]bool {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	since := map[uuid.UUID]bool{}
	for device, last := range l.at {
		if last.at.After(moment) {
			since[device] = true
		} else {
			delete(l.at, device)
		}
	}
	return since
}

// look notes that a phone looked.
func (s *Roll) look(device uuid.UUID, now time.Time) error {
	if !s.looked.note(device, now) || !s.db.Shared() {
		return nil
	}
	// No other change waits for this.
	_, err := s.db.Reading().Exec(`INSERT INTO look (device, at) VALUES (?, ?) ON CONFLICT (device) DO UPDATE SET at = excluded.at`, device[:], now.UnixMilli())
	if err == nil {
		s.looked.wrote(device, now)
	}
	return err
}

// looking are the phones that looked after a moment, whatever server they asked.
func (s *Roll) looking(t *db.Tx, moment time.Time) (map[uuid.UUID]bool, error) {
	all := s.looked.since(moment)
	if !s.db.Shared() {
		return all, nil
	}
	if err := t.Exec(`DELETE FROM look WHERE at <= ?`, moment.UnixMilli()); err != nil {
		return nil, err
	}
	var device db.ID
	err := t.Each(`SELECT device FROM look WHERE at > ?`, []any{moment.UnixMilli()}, []any{&device}, func() { all[uuid.UUID(device)] = true })
	return all, err
}
