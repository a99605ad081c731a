package exchange

import (
	"compress/gzip"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"strconv"
	"sync"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/store"
)

// worthwhile is the least answer that is compressed: below, all of it is under way before the first of it is acknowledged
// either way (RFC 6928: ten segments).
const worthwhile = 10 * 1460

// zippers compress answers. There are few, since each holds hundreds of kilobytes, and fast ones: text as
// repetitive as a log shrinks to a fifth all the same.
var zippers = func() chan *gzip.Writer {
	all := make(chan *gzip.Writer, 2)
	for range cap(all) {
		zipper, err := gzip.NewWriterLevel(nil, gzip.BestSpeed)
		if err != nil {
			panic(err) // there is no such level
		}
		all <- zipper
	}
	return all
}()

// texts are where answers are put together.
var texts = sync.Pool{New: func() any { return new([]byte) }}

// write sends an answer with these entries, compressed if it is large and the client accepts that.
func write(c echo.Context, answer Answer, given []store.Given) error {
	room := texts.Get().(*[]byte)
	defer texts.Put(room)
	text, err := appendAnswer((*room)[:0], answer, given)
	if err != nil {
		return err
	}
	*room = text
	header := c.Response().Header()
	header.Set(echo.HeaderCacheControl, "no-store")
	header.Set(echo.HeaderVary, echo.HeaderAcceptEncoding)
	if len(text) < worthwhile || content.Accepted(c.Request().Header.Values(echo.HeaderAcceptEncoding)).Of("gzip") == 0 {
		header.Set(echo.HeaderContentLength, strconv.Itoa(len(text)))
		return c.JSONBlob(http.StatusOK, text)
	}
	header.Set(echo.HeaderContentEncoding, "gzip")
	header.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	c.Response().WriteHeader(http.StatusOK)
	return zip(c.Response(), text)
}

// appendAnswer is what encoding/json makes of an answer with these entries. What is long of it stands first: the texts of the
// entries are there already, and the lists of phones change seldom.
func appendAnswer(to []byte, answer Answer, given []store.Given) ([]byte, error) {
	rest, err := json.Marshal(struct {
		Answer
		Entries any `json:"entries,omitempty"`
		You     any `json:"you,omitempty"`
	}{Answer: answer})
	if err != nil {
		return to, err
	}
	to = append(to, `{"entries":[`...)
	for i, g := range given {
		if i > 0 {
			to = append(to, ',')
		}
		to = append(to, g.Text...)
	}
	if to, err = answer.You.AppendJSON(append(to, `],"you":`...)); err != nil {
		return to, err
	}
	return append(append(to, ','), rest[1:]...), nil
}

func zip(to io.Writer, text []byte) error {
	zipper := <-zippers
	defer func() { zippers <- zipper }()
	zipper.Reset(to)
	_, err := zipper.Write(text)
	return errors.Join(err, zipper.Close())
}
