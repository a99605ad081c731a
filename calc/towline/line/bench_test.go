package line_test

import (
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
)

// One straight solve against SciPy's solve_ivp on the same case at the same accuracy in the same run.
func BenchmarkSolve(b *testing.B) {
	const name = "S6_S5_plus_8oz_inline"
	c := sample.SolvedCases(b)[name]
	tow := c.Tow()
	var a line.TowAnswer
	var err error
	for b.Loop() {
		if a, err = line.Solve(tow); err != nil {
			b.Fatal(err)
		}
	}
	b.StopTimer()
	// The least of many on either side: what else the machine does takes part in neither.
	mine := math.Inf(1)
	for range 300 {
		const times = 10
		start := time.Now()
		for range times {
			line.Solve(tow)
		}
		mine = min(mine, time.Since(start).Seconds()/times)
	}
	off := math.Abs(a.Sections[1].Depth/c.A["1"].Z - 1)
	out, err := exec.Command("/usr/bin/python3", "../testdata/solve_ivp_time.py", fmt.Sprint(max(off, 1e-12))).Output()
	if err != nil {
		b.Logf("no SciPy to compare with (Debian: python3-scipy): %v", err)
		return
	}
	seconds, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(mine*1e9, "least-ns")
	b.ReportMetric(off*1e9, "relative-error·1e9")
	b.ReportMetric(seconds*1e9, "solve_ivp-ns")
	b.ReportMetric(seconds/mine, "times-faster")
}
