package entries

import (
	"bytes"
	"strings"
	"testing"
)

// Rows that are read to places beside each other keep their own texts and proofs, also those that are too long for their room.
func TestPlacesBesideEachOtherAreEachTheirOwn(t *testing.T) {
	p := placesFor(200)
	var rows []*Row
	var want []string
	for i := range 200 {
		r, text := p.next(), strings.Repeat(string(rune('a'+i%26)), 1+i*97%3000+i/199*textRoom)
		r.Chain, r.Seal = append(r.Chain, text[:1]...), append(r.Seal, strings.Repeat(text[:1], proofLength)...)
		r.content = append(r.content[:0], text...)
		p.filled(r.content)
		rows, want = append(rows, r), append(want, text)
	}
	for i, r := range rows {
		if string(r.content) != want[i] || string(r.Chain) != want[i][:1] || !bytes.Equal(r.Seal, bytes.Repeat(r.Chain, proofLength)) {
			t.Errorf("row %d is not what was read to it", i)
		}
	}
}
