package news

import (
	"sync"

	"github.com/google/uuid"
)

// How many streams there are at once: of one phone, whose oldest gives way to a newer, of all guests, so that the
// crew finds room, and of all.
const (
	mostOfOne    = 3
	mostOfGuests = 128
	mostOfAll    = 256
)

// Gate counts the streams of one kind.
type Gate struct {
	mu          sync.Mutex
	open        map[uuid.UUID][]chan struct{}
	guests, all int
}

// Enter lets a stream in; giveWay is closed when a newer one of the same phone takes its place.
func (g *Gate) Enter(device uuid.UUID, guest bool) (giveWay <-chan struct{}, leave func(), ok bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	mine := g.open[device]
	if len(mine) >= mostOfOne {
		close(mine[0])
		mine = mine[1:]
	} else if g.all >= mostOfAll || guest && g.guests >= mostOfGuests {
		return nil, nil, false
	} else {
		g.count(guest, 1)
	}
	if g.open == nil {
		g.open = map[uuid.UUID][]chan struct{}{}
	}
	one := make(chan struct{})
	g.open[device] = append(mine, one)
	return one, func() { g.leave(device, guest, one) }, true
}

func (g *Gate) count(guest bool, by int) {
	g.all += by
	if guest {
		g.guests += by
	}
}

func (g *Gate) leave(device uuid.UUID, guest bool, one chan struct{}) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for i, other := range g.open[device] {
		if other == one {
			g.open[device] = append(g.open[device][:i:i], g.open[device][i+1:]...)
			g.count(guest, -1)
			break
		}
	}
	if len(g.open[device]) == 0 {
		delete(g.open, device)
	}
}
