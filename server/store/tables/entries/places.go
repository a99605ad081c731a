package entries

import "crypto/sha256"

// places are where the rows of a page are read to, and their texts put together, one after the other: to make room for each by
// itself, and to tidy up after it, takes as long as to read it.
type places struct {
	rows   []Row
	proofs []byte
	texts  []byte
}

const (
	proofLength = sha256.Size + ContentLength + 16
	// textRoom is the most room that is made for texts at once.
	textRoom = 64 << 10
	// textUsual is what an entry has to be put together in unless it is long.
	textUsual = 1 << 10
)

func placesFor(rows int) places {
	return places{rows: make([]Row, rows), proofs: make([]byte, rows*proofLength)}
}

// next is the place of the next row.
func (p *places) next() *Row {
	if cap(p.texts)-len(p.texts) < textUsual {
		p.texts = make([]byte, 0, min(textRoom, len(p.rows)*textUsual))
	}
	r, proof := &p.rows[0], p.proofs[:proofLength]
	p.rows, p.proofs = p.rows[1:], p.proofs[proofLength:]
	r.Chain, r.Seal = proof[:0:sha256.Size], proof[sha256.Size:sha256.Size:proofLength]
	r.content = p.texts[len(p.texts):]
	return r
}

// filled says that a text stays there, unless it was too long for that.
func (p *places) filled(text []byte) {
	if len(text) <= cap(p.texts)-len(p.texts) {
		p.texts = p.texts[:len(p.texts)+len(text)]
	}
}
