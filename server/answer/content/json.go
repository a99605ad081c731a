// Package content is the content of messages: the JSON that a request carries, and the codings that a client takes.
package content

import (
	"cmp"
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/problem"
)

// Limit is the most bytes a request may carry, counted after decompression.
const Limit = 1_000_000

// TooLarge is the answer to a body of more bytes than it may have.
func TooLarge(most int) *problem.Problem {
	return &problem.Problem{Status: http.StatusRequestEntityTooLarge, Code: "size",
		Text: fmt.Sprintf("This is more than the %d KB that this request may carry.", most/1000)}
}

// JSON reads a body of JSON into a value.
func JSON(c echo.Context, into any) error { return Brief(c, into, Limit) }

// Brief is JSON for a body of at most so many bytes.
func Brief(c echo.Context, into any, most int) error {
	kind, _, err := mime.ParseMediaType(c.Request().Header.Get(echo.HeaderContentType))
	if err != nil || kind != echo.MIMEApplicationJSON {
		return &problem.Problem{Status: http.StatusUnsupportedMediaType, Code: "type", Text: "A request must have Content-Type: application/json."}
	}
	text, err := read(c.Request(), most)
	if err != nil {
		return err
	}
	err = json.Unmarshal(text, into)
	var kindOf *json.UnmarshalTypeError
	switch {
	case errors.As(err, &kindOf):
		return problem.Form("In the request, " + cmp.Or(kindOf.Field, "the whole") + " must not be " + kindOf.Value + ".")
	case err != nil:
		return problem.Form("The request is not JSON: " + err.Error() + ".")
	}
	return nil
}

func read(r *http.Request, most int) ([]byte, error) {
	var from io.Reader = r.Body
	switch coding := r.Header.Get(echo.HeaderContentEncoding); coding {
	case "", "identity":
	case "gzip":
		unzipped, err := gzip.NewReader(from)
		if err != nil {
			return nil, unreadable(err)
		}
		from = unzipped
	default:
		return nil, problem.Form("The request's Content-Encoding must be gzip or none, not " + coding + ".")
	}
	text, err := io.ReadAll(io.LimitReader(from, int64(most)+1))
	switch {
	case err != nil:
		return nil, unreadable(err)
	case len(text) > most:
		return nil, TooLarge(most)
	}
	return text, nil
}

// unreadable is what breaks off or is damaged on its way; the size limit of the server's door also ends here.
func unreadable(err error) error {
	var door *echo.HTTPError
	if errors.As(err, &door) && door.Code == http.StatusRequestEntityTooLarge {
		return TooLarge(Limit)
	}
	return problem.Form("The request did not arrive whole: " + err.Error() + ".")
}
