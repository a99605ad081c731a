package source

import (
	"bufio"
	"bytes"
	"errors"
	"io"
)

// longest is the most bytes of a line that are kept: a tag block, a sentence, and something over.
const longest = 200

// lines gives every line of a stream to hear, its end left out, until it breaks off. Of a line that is too long the rest is
// passed over; one that has no end yet is none, nor is an empty one.
func lines(from io.Reader, hear func(line string)) error {
	buffer := bufio.NewReaderSize(from, longest)
	for skip := false; ; {
		part, err := buffer.ReadSlice('\n')
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			if !skip {
				hear(string(part))
			}
			skip = true
			continue
		case err != nil:
			return err
		case !skip && len(bytes.TrimSpace(part)) > 0:
			hear(string(part))
		}
		skip = false
	}
}
