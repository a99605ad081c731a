package enrol

import (
	"net/http"
	"sync"
	"time"

	"github.com/labstack/echo/v4"

	"wirewake/server/store"
)

// Whoever is not known to be aboard has to be brief: so much in its body, so long for it, and so many at once. If
// more come, the one that has taken longest gives way, so that strangers who dawdle keep nobody out.
const (
	strangersBody = 4 << 10
	strangersTime = 10 * time.Second
	mostStrangers = 64
	// aboardTime is for a phone that is aboard, at the far end of a marina's wireless.
	aboardTime = 5 * time.Minute
)

// strangers are the requests with a body of which it is not known yet that they come from a phone aboard.
type strangers struct {
	mu   sync.Mutex
	line []*stranger
}

type stranger struct{ hurry func() }

// enter lets a request in, where so many may be; leave takes it out again.
func (s *strangers) enter(most int, hurry func()) (leave func()) {
	one := &stranger{hurry}
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.line) >= most {
		s.line[0].hurry()
		s.line = s.line[1:]
	}
	s.line = append(s.line, one)
	return func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		for i, other := range s.line {
			if other == one {
				s.line = append(s.line[:i:i], s.line[i+1:]...)
				return
			}
		}
	}
}

const leaveKey = "stranger"

// Brief holds every request with a body to what a stranger may, until [Enrolment.Aboard] knows it; then to what its phone may.
func (e *Enrolment) Brief(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		if c.Request().ContentLength == 0 {
			return next(c)
		}
		control := http.NewResponseController(c.Response())
		// Where the connection knows no deadlines, there is none to wait for: a test.
		_ = control.SetReadDeadline(time.Now().Add(strangersTime))
		hurry := func() { _ = control.SetReadDeadline(time.Now()) }
		out, ofBoat := e.Crowd.enter(hurry), e.strangers.enter(mostStrangers, hurry)
		leave := func() { ofBoat(); out() }
		defer leave()
		c.Set(leaveKey, leave)
		defer func() {
			if close, ok := c.Get(closeKey).(func()); ok {
				close()
			}
		}()
		err := next(c)
		if err != nil && c.Get(leaveKey) != nil {
			// What is left of its body is not waited for.
			c.Response().Header().Set(echo.HeaderConnection, "close")
		}
		return err
	}
}

// known takes a request out of the line of strangers, and gives it a place among those of its phone. The error is the
// answer if there is none.
func (e *Enrolment) known(c echo.Context, d store.Device) error {
	leave, ok := c.Get(leaveKey).(func())
	if !ok {
		return nil
	}
	control := http.NewResponseController(c.Response())
	out, ok := e.Crowd.open()
	if !ok {
		return busy
	}
	ofBoat, ok := e.bodies.open(d, e.Crowd.share(), func() { _ = control.SetReadDeadline(time.Now()) })
	if !ok {
		out()
		return busy
	}
	close := func() { ofBoat(); out() }
	leave()
	c.Set(leaveKey, nil)
	c.Set(closeKey, close)
	_ = control.SetReadDeadline(time.Now().Add(aboardTime))
	return nil
}
