package photos

import (
	"bytes"
	"errors"
	"io"
	"testing"
)

// counted counts how often it is read.
type counted struct {
	io.ReaderAt
	reads int
}

func (c *counted) ReadAt(b []byte, at int64) (int, error) {
	c.reads++
	return c.ReaderAt.ReadAt(b, at)
}

// A photo that is nothing but bytes of filling (ITU-T T.81, B.1.1.2) or empty segments costs no read for each of them, and of a
// longer file than a photo may be the rest is left alone.
func TestFillingCostsLittle(t *testing.T) {
	for what, filling := range map[string][]byte{"filling": {0xff}, "segments": {0xff, 0xfe, 0, 2}} {
		long := append([]byte{0xff, 0xd8, 0xff}, bytes.Repeat([]byte{0xff}, 13)...)
		if what == "segments" {
			long = []byte{0xff, 0xd8}
		}
		long = append(long, bytes.Repeat(filling, 3*MaxSize/len(filling))...)
		file := &counted{ReaderAt: bytes.NewReader(long)}
		if err := Judge(file); !errors.Is(err, ErrKind) {
			t.Errorf("%s: %v", what, err)
		}
		if file.reads > MaxSize/4096 {
			t.Errorf("%s: %d reads", what, file.reads)
		}
	}
}
