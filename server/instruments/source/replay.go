package source

import (
	"bytes"
	"context"
	"errors"
	"io"
	"time"

	"wirewake/calc/sentence"
)

func bytesOf(b []byte) io.Reader { return bytes.NewReader(b) }

// Of a file without times a line comes so often; no gap in its times is waited for longer than gap.
const (
	untimed = 100 * time.Millisecond
	gap     = 10 * time.Second
)

// errOver is the end of a file: it begins again.
var errOver = errors.New("the file is at its end")

// replay says the lines of a file as they once came, by the times of their tag blocks, or by the times of the day in them.
func replay(ctx context.Context, file io.Reader, hear func(string)) error {
	var last float64
	err := lines(io.MultiReader(file, bytesOf([]byte{'\n'})), func(line string) {
		if ctx.Err() != nil {
			return
		}
		at, told := timeOf(line)
		pause := untimed
		if told && last > 0 {
			pause = max(0, min(time.Duration((at-last)*float64(time.Second)), gap))
		}
		if told {
			last = at
		} else if last > 0 {
			pause = 0 // it came with the one before
		}
		if rest(ctx, pause) {
			hear(line)
		}
	})
	if errors.Is(err, io.EOF) {
		return errOver
	}
	return err
}

// timeOf is when a line was sent, s, if it says so.
func timeOf(line string) (at float64, told bool) {
	s := sentence.Parse(line)
	if s.Sent > 0 {
		return s.Sent, true
	}
	for _, r := range s.Readings {
		if r.Quantity == sentence.Clock {
			return r.Value, true
		}
	}
	return 0, false
}
