package exchange

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"net/http"
	"strconv"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
)

// worthwhile is the least answer that is compressed: below, it fits in a packet or two either way.
const worthwhile = 2 << 10

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

// write sends an answer, compressed if it is large and the client accepts that.
func write(c echo.Context, answer Answer) error {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(answer); err != nil {
		return err
	}
	header := c.Response().Header()
	header.Set(echo.HeaderCacheControl, "no-store")
	header.Set(echo.HeaderVary, echo.HeaderAcceptEncoding)
	if text.Len() >= worthwhile && content.Accepted(c.Request().Header.Values(echo.HeaderAcceptEncoding)).Of("gzip") > 0 {
		zipped, err := zip(text.Bytes())
		if err != nil {
			return err
		}
		header.Set(echo.HeaderContentEncoding, "gzip")
		text = zipped
	}
	header.Set(echo.HeaderContentLength, strconv.Itoa(text.Len()))
	return c.JSONBlob(http.StatusOK, text.Bytes())
}

func zip(text []byte) (zipped bytes.Buffer, err error) {
	zipper := <-zippers
	defer func() { zippers <- zipper }()
	zipper.Reset(&zipped)
	if _, err = zipper.Write(text); err == nil {
		err = zipper.Close()
	}
	return zipped, err
}
