package towline

import (
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
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

// One straight solve against SciPy's solve_ivp on the same case at the same accuracy in the same run.
func BenchmarkSolve(b *testing.B) {
	const name = "S6_S5_plus_8oz_inline"
	c := solvedCases(b)[name]
	tow := c.tow()
	var a TowAnswer
	var err error
	for b.Loop() {
		if a, err = Solve(tow); err != nil {
			b.Fatal(err)
		}
	}
	b.StopTimer()
	off := math.Abs(a.Sections[1].Depth/c.A["1"].Z - 1)
	out, err := exec.Command("/usr/bin/python3", "testdata/solve_ivp_time.py", fmt.Sprint(max(off, 1e-12))).Output()
	if err != nil {
		b.Logf("no SciPy to compare with (Debian: python3-scipy): %v", err)
		return
	}
	seconds, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		b.Fatal(err)
	}
	mine := b.Elapsed().Seconds() / float64(b.N)
	b.ReportMetric(off*1e9, "relative-error·1e9")
	b.ReportMetric(seconds*1e9, "solve_ivp-ns")
	b.ReportMetric(seconds/mine, "times-faster")
}

// beside reports how many times as long as a reference, in the same run, what was measured took.
func beside(b *testing.B, unit string, reference func()) {
	b.StopTimer()
	each := b.Elapsed() / time.Duration(b.N)
	n := max(b.N/4, 20)
	start := time.Now()
	for range n {
		reference()
	}
	b.ReportMetric(float64(each)/(float64(time.Since(start))/float64(n)), unit)
}

// The spread of eight rods in a turn, with bands and the closest pass, beside the same on a straight course.
func BenchmarkTurn(b *testing.B) {
	q, straight := testTurn(8, Port, 60), testSpread(8)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := SolveTurn(q); err != nil {
			b.Fatal(err)
		}
	}
	beside(b, "×straight", func() {
		if _, err := SolveSpread(straight); err != nil {
			b.Fatal(err)
		}
	})
}

func BenchmarkTightest(b *testing.B) {
	q := Tightest{Sea: testSea(3.25), Toward: Port, Margin: 0.6, Apart: 0.5, Rods: testTurn(8, Port, 0).Rods}
	q.Sea.Bottom = 60
	for b.Loop() {
		if _, err := TightestTurn(q); err != nil {
			b.Fatal(err)
		}
	}
	turn := testTurn(8, Port, 60)
	beside(b, "×turn", func() {
		if _, err := SolveTurn(turn); err != nil {
			b.Fatal(err)
		}
	})
}

// A minute of one rod's line in a quarter turn, beside the minute itself and the steady turn of that rod.
func BenchmarkSettle(b *testing.B) {
	q := underway(8, 60)
	q.Every, q.Course = 0.25, &CourseChange{math.Pi / 2, 0.03}
	for b.Loop() {
		if _, err := SettleRod(q); err != nil {
			b.Fatal(err)
		}
	}
	each := b.Elapsed().Seconds() / float64(b.N)
	turn := Turn{Sea: q.Sea, Toward: Starboard, Radius: q.Sea.Speed / 0.03, Rods: []Rod{q.Rod}}
	beside(b, "×steady-turn", func() {
		if _, err := SolveTurn(turn); err != nil {
			b.Fatal(err)
		}
	})
	b.ReportMetric(60/each, "times-real-time")
}

// One line round a circle against SciPy's solve_bvp on the same case, at the accuracy that turn_second_way.py asks for.
func BenchmarkCircle(b *testing.B) {
	q := secondTurns(b)["three-way"].circle()
	for b.Loop() {
		if _, err := SolveCircle(q); err != nil {
			b.Fatal(err)
		}
	}
	const script = `
import time, turn_second_way as way
start = time.perf_counter()
way.solve(way.cases["three-way"])
print(time.perf_counter() - start)`
	cmd := exec.Command("/usr/bin/python3", "-B", "-c", script)
	cmd.Dir = "testdata"
	out, err := cmd.Output()
	if err != nil {
		b.Logf("no SciPy to compare with (Debian: python3-scipy): %v", err)
		return
	}
	seconds, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(seconds/(b.Elapsed().Seconds()/float64(b.N)), "times-faster")
}
