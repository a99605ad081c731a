package turn

import (
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/sample"
	"wirewake/calc/towline/steady"
)

// The spread of eight rods in a turn, with bands and the closest pass, beside the same on a straight course.
func BenchmarkTurn(b *testing.B) {
	q := testTurn(8, Port, 60)
	straight := steady.Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: q.Sea, Wanted: steady.Wanted{Low: 1, High: 3}, Doubt: sample.Doubt, Rods: sample.Rods(8)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := SolveTurn(q); err != nil {
			b.Fatal(err)
		}
	}
	expect.Beside(b, "×straight", func() {
		if _, err := steady.SolveSpread(straight); err != nil {
			b.Fatal(err)
		}
	})
}

func BenchmarkTightest(b *testing.B) {
	q := Tightest{Sea: sample.Sea(3.25), Toward: Port, Doubt: sample.Doubt, BottomDoubt: 0.3, TideDoubt: 0.3, Caution: towline.NowAndThen, Apart: 0.5, Rods: testTurn(8, Port, 0).Rods}
	q.Sea.Bottom = 60
	for b.Loop() {
		if _, err := TightestTurn(q); err != nil {
			b.Fatal(err)
		}
	}
	turn := testTurn(8, Port, 60)
	expect.Beside(b, "×turn", func() {
		if _, err := SolveTurn(turn); err != nil {
			b.Fatal(err)
		}
	})
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
	cmd.Dir = "../testdata"
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
