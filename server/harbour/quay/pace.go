package quay

import (
	"net/http"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"wirewake/server/trust/enrol"
)

const (
	// atOnce is of how many seconds the requests may come at once: phones come back into reach together.
	atOnce = 4
	// shareOf is the part of what a boat has in a second that each who asks has, however much others ask.
	shareOf = 8
	// mostShares is to how many such a share is kept; all others have what is common.
	mostShares = 4096
	// goneFor is how long a phone that is not aboard any more goes with the strangers, until it is looked at once more.
	goneFor = time.Minute
)

// pace is how much a boat is asked in a second: what is common to all who ask, and a share for each of them, so that none keeps
// the others from an answer.
type pace struct {
	mutex  sync.Mutex
	most   int
	common *rate.Limiter
	each   map[string]*rate.Limiter
}

func newPace(most int) *pace {
	return &pace{most: most, common: rate.NewLimiter(rate.Limit(most), atOnce*most), each: map[string]*rate.Limiter{}}
}

func share(most int) (rate.Limit, int) {
	return rate.Limit(most) / shareOf, max(1, atOnce*most/shareOf)
}

// allow lets one who asks have an answer, if there is one in what is common or in its own share.
func (p *pace) allow(who string, now time.Time) bool {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	if p.common.AllowN(now, 1) {
		return true
	}
	own := p.each[who]
	if own == nil {
		if len(p.each) >= mostShares {
			return false
		}
		own = rate.NewLimiter(share(p.most))
		p.each[who] = own
	}
	return own.AllowN(now, 1)
}

// set says how much it is from now on, and forgets whose share is whole.
func (p *pace) set(most int, now time.Time) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	if most != p.most {
		p.most = most
		p.common.SetLimitAt(now, rate.Limit(most))
		p.common.SetBurstAt(now, atOnce*most)
		clear(p.each)
	}
	for who, own := range p.each {
		if own.TokensAt(now) >= float64(own.Burst()) {
			delete(p.each, who)
		}
	}
}

// comes is where a phone comes aboard: what else strangers ask, perhaps from the same network of a marina, keeps nobody out of it.
const comes = "/api/enrol"

// gone are phones that were told not to be aboard, until it is looked at them once more.
type gone struct {
	mutex sync.Mutex
	until map[string]time.Time
}

func (g *gone) add(phone string, now time.Time) {
	g.mutex.Lock()
	defer g.mutex.Unlock()
	if g.until == nil {
		g.until = map[string]time.Time{}
	}
	g.until[phone] = now.Add(goneFor)
}

func (g *gone) has(phone string, now time.Time) bool {
	g.mutex.Lock()
	defer g.mutex.Unlock()
	return now.Before(g.until[phone])
}

func (g *gone) forget(now time.Time) {
	g.mutex.Lock()
	defer g.mutex.Unlock()
	for phone, until := range g.until {
		if !now.Before(until) {
			delete(g.until, phone)
		}
	}
}

// allow lets a request go on if its boat is not asked too much; phone is whose it is, if it is of one that may be aboard.
func (q *Quay) allow(m *moored, r *http.Request) (phone string, ok bool) {
	now := q.Now()
	phone, known := q.Phone(m.Name, r)
	if known && !m.gone.has(phone, now) {
		return phone, m.phones.allow(phone, now)
	}
	of := m.strangers
	if r.Method == http.MethodPost && r.URL.Path == comes {
		of = m.newcomers
	}
	return phone, of.allow(enrol.Network(q.From(r)), now)
}
