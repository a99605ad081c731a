// Package expect is what tests of more than one room ask of a result.
package expect

import (
	"errors"
	"math"
	"testing"
	"time"

	"wirewake/calc/codec"
)

// Beside reports how many times as long as a reference, in the same run, what was measured took.
func Beside(b *testing.B, unit string, reference func()) {
	b.StopTimer()
	each := b.Elapsed() / time.Duration(b.N)
	n := max(b.N/4, 20)
	start := time.Now()
	for range n {
		reference()
	}
	b.ReportMetric(float64(each)/(float64(time.Since(start))/float64(n)), unit)
}

// Near: it is so near, relative to what is wanted.
func Near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.10g, want %.10g (relative difference %.2g)", what, got, want, math.Abs(got/want-1))
	}
}

// Problem is the first problem of an error, which must be codec.Problems.
func Problem(t *testing.T, err error) codec.Problem {
	t.Helper()
	var ps codec.Problems
	if !errors.As(err, &ps) || len(ps) == 0 {
		t.Fatalf("error %v is not a list of problems", err)
	}
	return ps[0]
}
