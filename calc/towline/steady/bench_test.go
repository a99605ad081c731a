package steady

import (
	"testing"
)

// The whole spread of eight rods with bands, advice and curves.
func BenchmarkSpread(b *testing.B) {
	q := testSpread(8)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := SolveSpread(q); err != nil {
			b.Fatal(err)
		}
	}
}
