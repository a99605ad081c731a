package entries

import (
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
		chain, seal := proofsOf(text)
		r.Chain, r.Seal = append(r.Chain, chain...), append(r.Seal, seal...)
		r.content = append(r.content[:0], text...)
		p.filled(r.content)
		rows, want = append(rows, r), append(want, text)
	}
	for i, r := range rows {
		if chain, seal := proofsOf(want[i]); string(r.content) != want[i] || string(r.Chain) != chain || string(r.Seal) != seal {
			t.Errorf("row %d is not what was read to it", i)
		}
	}
}

// proofsOf are such as the disk may hold instead of a row's own: half of them too long.
func proofsOf(text string) (chain, seal string) {
	first := text[:1]
	return strings.Repeat(first, len(text)%proofLength), strings.Repeat(strings.ToUpper(first), len(text)*7%(2*proofLength))
}
