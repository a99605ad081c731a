package news

import (
	"encoding/json"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"
)

// Stream is an answer that goes on: server-sent events (the HTML standard, section 9.2).
type Stream struct {
	c        echo.Context
	control  *http.ResponseController
	patience time.Duration
}

// Begin begins one. A phone that does not take an event within patience is to be let go.
func Begin(c echo.Context, patience time.Duration) *Stream {
	header := c.Response().Header()
	header.Set(echo.HeaderContentType, "text/event-stream")
	header.Set(echo.HeaderCacheControl, "no-store")
	// Whatever stands in front of this server passes each word on at once.
	header.Set("X-Accel-Buffering", "no")
	c.Response().WriteHeader(http.StatusOK)
	s := &Stream{c, http.NewResponseController(c.Response()), patience}
	// The request is over, its answer is not; where the connection knows no deadlines, there is none to lift: a test.
	_ = s.control.SetReadDeadline(time.Time{})
	return s
}

// Say writes an event, its lines and the empty one after them; false: it does not arrive.
func (s *Stream) Say(event []byte) bool {
	_ = s.control.SetWriteDeadline(time.Now().Add(s.patience))
	if _, err := s.c.Response().Write(event); err != nil || s.control.Flush() != nil {
		return false
	}
	// HTTP/2 would end the stream when the time is up, though nothing waits to be written.
	_ = s.control.SetWriteDeadline(time.Time{})
	return true
}

func (s *Stream) word(word Word) bool {
	text, err := json.Marshal(word)
	return err == nil && s.Say(append(append([]byte("data: "), text...), '\n', '\n'))
}
