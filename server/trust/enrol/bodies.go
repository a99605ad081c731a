package enrol

import (
	"net/http"
	"slices"
	"sync"
	"time"

	"github.com/google/uuid"

	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/store"
)

// How many requests with a body are read at a time from phones that are aboard: of one, of all guests, so that room is left
// for the crew, and of all. Each may take the memory of a whole body.
const (
	mostOfPhone  = 4
	mostOfGuests = 24
	mostOfAll    = 128
)

const closeKey = "body"

var busy = &problem.Problem{Status: http.StatusTooManyRequests, Code: "often", RetryAfter: 5 * time.Second,
	Text: "The boat's server reads as much at once as it can. All that is on this phone stays here and is sent a little later."}

// bodies are the requests with a body that come from phones aboard, by the berth of the phone, each one's in the order in
// which they came.
type bodies struct {
	mu          sync.Mutex
	of          map[uuid.UUID][]*body
	guests, all int
}

type body struct{ hurry func() }

// open gives a request a place, where so many of all phones may be, until it is closed. Where its phone has none left, the one that has taken longest is given
// up, so that what a phone lost on the way does not keep its next out for long.
func (b *bodies) open(d store.Device, most int, hurry func()) (close func(), ok bool) {
	b.mu.Lock()
	defer b.mu.Unlock()
	guest := !d.Role.May(contract.Trips)
	mine := b.of[d.Berth]
	if len(mine) >= mostOfPhone {
		mine[0].hurry()
		return nil, false
	}
	if b.all >= most || guest && b.guests >= mostOfGuests {
		return nil, false
	}
	if b.of == nil {
		b.of = map[uuid.UUID][]*body{}
	}
	one := &body{hurry}
	b.of[d.Berth] = append(mine, one)
	b.count(guest, 1)
	return func() { b.close(d.Berth, guest, one) }, true
}

func (b *bodies) close(berth uuid.UUID, guest bool, one *body) {
	b.mu.Lock()
	defer b.mu.Unlock()
	left := slices.DeleteFunc(slices.Clone(b.of[berth]), func(other *body) bool { return other == one })
	if b.of[berth] = left; len(left) == 0 {
		delete(b.of, berth)
	}
	b.count(guest, -1)
}

func (b *bodies) count(guest bool, by int) {
	b.all += by
	if guest {
		b.guests += by
	}
}

// end gives up all that comes from a phone.
func (b *bodies) end(berth uuid.UUID) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, one := range b.of[berth] {
		one.hurry()
	}
}
