package aboard

import (
	"sync"
	"time"
)

// lately is what was read in the last moments of who is aboard, by what it was asked with: every request of a phone asks it
// again. It is forgotten when this process changes anything of it, and after a moment, since another process may.
type lately[K comparable, V any] struct {
	mu    sync.Mutex
	of    uint64
	since time.Time
	all   map[K]V
}

// moment is how long it is believed.
const moment = time.Second

// mostLately is how much of it is kept.
const mostLately = 512

// get gives what was read under a key, or reads it. changes counts what this process has changed.
func (l *lately[K, V]) get(changes uint64, key K, read func() (V, error)) (V, error) {
	if value, ok := l.known(changes, key); ok {
		return value, nil
	}
	value, err := read()
	if err == nil {
		l.keep(changes, key, value)
	}
	return value, err
}

func (l *lately[K, V]) known(changes uint64, key K) (value V, ok bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.of != changes || len(l.all) >= mostLately || time.Since(l.since) > moment {
		l.of, l.since, l.all = changes, time.Now(), map[K]V{}
	}
	value, ok = l.all[key]
	return value, ok
}

// keep keeps what was read, unless something has changed since.
func (l *lately[K, V]) keep(changes uint64, key K, value V) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.of == changes {
		l.all[key] = value
	}
}
