package aboard

import (
	"sync"
	"time"

	"github.com/google/uuid"

	"wirewake/server/store"
)

// looks are when phones that ask last looked what was said to them. They are not on the disk: strangers shall not make it
// write every few seconds, and after a start each has looked again soon.
type looks struct {
	mutex sync.Mutex
	at    map[uuid.UUID]time.Time
}

func (l *looks) note(device uuid.UUID, now time.Time) {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	if l.at == nil || len(l.at) > 4*store.MostAsks {
		l.at = map[uuid.UUID]time.Time{}
	}
	l.at[device] = now
}

// since are those that looked after a moment; the others are forgotten.
func (l *looks) since(moment time.Time) map[uuid.UUID]bool {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	since := map[uuid.UUID]bool{}
	for device, at := range l.at {
		if at.After(moment) {
			since[device] = true
		} else {
			delete(l.at, device)
		}
	}
	return since
}
