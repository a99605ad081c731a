package exchange

import (
	"net/http"
	"strconv"
	"sync"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// worthwhile is the least answer that is compressed: below, all of it is under way before the first of it is acknowledged
// either way (RFC 6928: ten segments).
const worthwhile = 10 * 1460

// texts are where answers are put together.
var texts = sync.Pool{New: func() any { return new([]byte) }}

// write sends an answer with these entries, compressed if it is large and the client accepts that.
func write(c echo.Context, answer Answer, given []store.Given) error {
	room := texts.Get().(*[]byte)
	defer texts.Put(room)
	text := appendAnswer((*room)[:0], answer, given)
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

// appendAnswer is what encoding/json makes of an answer with these entries, in a tenth of the time. What is long of it stands
// first.
func appendAnswer(to []byte, a Answer, given []store.Given) []byte {
	to = appendList(append(to, `{"entries":`...), given, func(to []byte, g store.Given) []byte { return append(to, g.Text...) })
	to = a.You.AppendJSON(append(to, `,"you":`...))
	to = strconv.AppendInt(append(to, `,"version":`...), int64(a.Version), 10)
	to = entry.AppendString(append(to, `,"epoch":`...), a.Epoch)
	to = appendList(append(to, `,"taken":`...), a.Taken, func(to []byte, t Taken) []byte {
		to = entry.AppendID(append(to, `{"id":`...), t.ID)
		return append(strconv.AppendInt(append(to, `,"no":`...), t.No, 10), '}')
	})
	to = appendList(append(to, `,"refused":`...), a.Refused, func(to []byte, r Refused) []byte {
		to = strconv.AppendInt(append(to, `{"index":`...), int64(r.Index), 10)
		to = entry.AppendString(append(to, `,"id":`...), r.ID)
		to = entry.AppendString(append(to, `,"code":`...), r.Code)
		return append(entry.AppendString(append(to, `,"why":`...), r.Why), '}')
	})
	to = strconv.AppendInt(append(to, `,"upto":`...), a.Upto, 10)
	to = entry.AppendString(append(to, `,"check":`...), a.Check)
	to = strconv.AppendBool(append(to, `,"more":`...), a.More)
	to = appendList(append(to, `,"spoilt":`...), a.Spoilt, func(to []byte, no int64) []byte { return strconv.AppendInt(to, no, 10) })
	to = strconv.AppendInt(append(to, `,"now":`...), a.Now, 10)
	if a.Room != nil {
		to = strconv.AppendInt(append(to, `,"room":{"entries":`...), a.Room.Entries, 10)
		to = append(strconv.AppendInt(append(to, `,"bytes":`...), a.Room.Bytes, 10), '}')
	}
	to = appendList(append(to, `,"photos":{"wanted":`...), a.Photos.Wanted, func(to []byte, p entry.Photo) []byte { return entry.AppendString(to, p.String()) })
	return append(to, '}', '}')
}

// appendList is a list with each of its items as one appends it.
func appendList[T any](to []byte, all []T, one func(to []byte, item T) []byte) []byte {
	to = append(to, '[')
	for i, item := range all {
		if i > 0 {
			to = append(to, ',')
		}
		to = one(to, item)
	}
	return append(to, ']')
}
