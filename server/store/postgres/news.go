package postgres

import (
	"context"
	"crypto/rand"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"
)

// news tells other servers which boats something has changed of, and hears it from them.
type news struct {
	harbour *Harbour
	// self is how this server knows what it said itself.
	self string
	stop context.CancelFunc
	over sync.WaitGroup
	wake chan struct{}

	mutex   sync.Mutex
	changed map[int32]bool
}

// Where news are said, and how: with a change, or by themselves without waiting for a disk.
const (
	channel   = "wirewake"
	saysNews  = `SELECT pg_notify($1, $2)`
	saysAlone = `SELECT set_config('synchronous_commit', 'off', true), pg_notify($1, $2)`
)

func listen(h *Harbour, config *pgx.ConnConfig) *news {
	ctx, stop := context.WithCancel(context.Background())
	n := &news{harbour: h, self: rand.Text(), stop: stop, wake: make(chan struct{}, 1), changed: map[int32]bool{}}
	n.over.Go(func() { n.say(ctx) })
	n.over.Go(func() { n.hear(ctx, config.Copy()) })
	return n
}

func (n *news) close() {
	n.stop()
	n.over.Wait()
}

// tell lets other servers know of a boat soon. It does not wait for that.
func (n *news) tell(boat int32) {
	n.mutex.Lock()
	n.changed[boat] = true
	n.mutex.Unlock()
	select {
	case n.wake <- struct{}{}:
	default:
	}
}

// of is what is said of one boat alone.
func (n *news) of(boat int32) string { return n.self + " " + strconv.Itoa(int(boat)) }

// mostSaid is how many boats are named at a time: what is said may have 8000 bytes.
const mostSaid = 500

// say says of all boats at once of which something has changed meanwhile: commits that say something wait for each other.
func (n *news) say(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-n.wake:
		}
		for said := n.some(); len(said) > 1; said = n.some() {
			// Where it cannot be said the others hear of it when their phones ask; nothing depends on it.
			_, _ = n.harbour.pool.Exec(ctx, saysAlone, channel, strings.Join(said, " "))
		}
	}
}

// some takes some of the boats that are to be told of, this server's name first.
func (n *news) some() []string {
	n.mutex.Lock()
	defer n.mutex.Unlock()
	said := []string{n.self}
	for boat := range n.changed {
		if len(said) > mostSaid {
			break
		}
		said = append(said, strconv.Itoa(int(boat)))
		delete(n.changed, boat)
	}
	return said
}

// hear listens until ctx is done. Whatever was said while it could not may be of any boat.
func (n *news) hear(ctx context.Context, config *pgx.ConnConfig) {
	for ctx.Err() == nil {
		if conn, err := pgx.ConnectConfig(ctx, config); err == nil {
			if _, err := conn.Exec(ctx, `LISTEN `+channel); err == nil {
				n.harbour.told(nil)
				for {
					heard, err := conn.WaitForNotification(ctx)
					if err != nil {
						break
					}
					if words := strings.Fields(heard.Payload); len(words) > 1 && words[0] != n.self {
						n.harbour.told(words[1:])
					}
				}
			}
			conn.Close(context.Background())
		}
		select {
		case <-ctx.Done():
		case <-time.After(time.Second / 4):
		}
	}
}

// told tells those who wait here for news of some boats, or of all.
func (h *Harbour) told(boats []string) {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	one := func(m *moored) {
		m.db.Renew()
		m.db.Told()
	}
	if boats == nil {
		for _, m := range h.open {
			one(m)
		}
	}
	for _, word := range boats {
		id, _ := strconv.ParseInt(word, 10, 32)
		if m := h.open[int32(id)]; m != nil {
			one(m)
		}
	}
}
