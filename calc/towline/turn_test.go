package towline

import "testing"

// testTurn is the spread of testSpread on the boat: riggers and corners on both sides.
func testTurn(rods int, toward Side, radius float64) Turn {
	q := Turn{Sea: testSea(3.25), Toward: toward, Radius: radius, Doubt: testDoubt}
	for i, r := range testSpread(rods).Rods {
		r.Abeam, r.Ahead = 1.5*float64(i)-5, -2
		q.Rods = append(q.Rods, r)
	}
	return q
}

func BenchmarkTurn(b *testing.B) {
	q := testTurn(8, Port, 50)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := SolveTurn(q); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTightest(b *testing.B) {
	q := testTurn(3, Port, 50)
	for b.Loop() {
		TightestTurn(Tightest{Sea: testSea(3.25), Toward: Port, Margin: 0.6, Apart: 0.5, Rods: q.Rods})
	}
}
