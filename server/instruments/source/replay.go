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

// replay says the lines of a file as they once came.
func replay(ctx context.Context, file io.Reader, hear func(string)) error {
	var p pace
	err := lines(io.MultiReader(file, bytesOf([]byte{'\n'})), func(line string) {
		if ctx.Err() == nil && rest(ctx, p.before(line)) {
			hear(line)
		}
	})
	if errors.Is(err, io.EOF) {
		return errOver
	}
	return err
}

// pace is that of the lines of a file: by the times of their tag blocks, or by the times of the day in them as long as none has
// such a block.
type pace struct {
	last   float64 // s
	tagged bool
}

// before is how long to wait before a line.
func (p *pace) before(line string) time.Duration {
	at, told, tag := timeOf(line)
	if tag && !p.tagged {
		p.last, p.tagged = 0, true // another clock begins
	}
	switch {
	case (!told || p.tagged && !tag) && p.last > 0:
		return 0 // it came with the one before
	case !told, p.last == 0:
		p.last = at
		return untimed
	}
	pause := time.Duration((at - p.last) * float64(time.Second))
	p.last = at
	return max(0, min(pause, gap))
}

// timeOf is when a line was sent, s, if it says so, and whether its tag block does.
func timeOf(line string) (at float64, told, tag bool) {
	s := sentence.Parse(line)
	if s.Sent > 0 {
		return s.Sent, true, true
	}
	for _, r := range s.Readings {
		if r.Quantity == sentence.Clock {
			return r.Value, true, false
		}
	}
	return 0, false, false
}
