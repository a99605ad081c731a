package desk

import (
	"encoding/json"
	"testing"
	"time"

	"wirewake/calc/codec"
	"wirewake/calc/towline/steady"
)

// eightRods is the example with as many rods as a spread may have.
func eightRods(tb testing.TB) (q steady.Spread) {
	request, _ := Example("spread")
	if err := codec.Decode(request, &q); err != nil {
		tb.Fatal(err)
	}
	for i := 0; len(q.Rods) < 8; i++ {
		q.Rods = append(q.Rods, q.Rods[i])
	}
	return q
}

// against reports how many times longer the reference takes than what was measured, in the same run.
func against(b *testing.B, reference func()) {
	each := b.Elapsed() / time.Duration(b.N)
	n := max(b.N/4, 20)
	start := time.Now()
	for range n {
		reference()
	}
	b.ReportMetric(float64(time.Since(start)/time.Duration(n))/float64(each), "×encoding/json")
}

// BenchmarkSpread is the whole way of a request with eight rods: read, calculate, write.
func BenchmarkSpread(b *testing.B) {
	q := eightRods(b)
	request, _ := codec.Encode(&q)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := (Desk{}).Answer("spread", request); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadSpread(b *testing.B) {
	q := eightRods(b)
	request, _ := codec.Encode(&q)
	b.ReportAllocs()
	for b.Loop() {
		var q steady.Spread
		if err := codec.Decode(request, &q); err != nil {
			b.Fatal(err)
		}
	}
	against(b, func() {
		var q steady.Spread
		if err := json.Unmarshal(request, &q); err != nil {
			b.Fatal(err)
		}
	})
}

func BenchmarkWriteSpread(b *testing.B) {
	answer, err := steady.SolveSpread(eightRods(b))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := codec.Encode(&answer); err != nil {
			b.Fatal(err)
		}
	}
	against(b, func() {
		if _, err := json.Marshal(answer); err != nil {
			b.Fatal(err)
		}
	})
}
