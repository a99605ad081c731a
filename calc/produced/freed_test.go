package produced

import (
	"math"
	"os"
	"strings"
	"testing"
)

// matched are the sets of a study, a stratum each: a woman is a second of effort, spontaneous abortions are the level that is
// judged, and how many were induced is the other factor.
func matched(t *testing.T) *freed {
	t.Helper()
	text, err := os.ReadFile("testdata/infert.txt")
	if err != nil {
		t.Fatal(err)
	}
	f := &freed{worth: make([]float64, 3)}
	strata := 0
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cells := make([]cell, 3)
		for _, woman := range strings.Fields(line) {
			woman, isCase := strings.CutPrefix(woman, "!")
			at, induced := woman[0]-'0', int(woman[1]-'0')
			c := &cells[induced]
			c.stratum, c.trip, c.levels = strata, strata, []int{induced}
			c.time[at]++
			if isCase {
				c.events[at]++
			}
		}
		for _, c := range cells {
			if c.levels != nil {
				f.cells = append(f.cells, c)
			}
		}
		strata++
	}
	if strata != 83 {
		t.Fatalf("%d matched sets", strata)
	}
	return f
}

// What conditional logistic regression finds in them, by R's package survival 3.5-3:
// clogit(case ~ I(as.numeric(spontaneous > 0)) + factor(induced) + strata(stratum), infert), and from its vcov the share of the
// information that the other factor leaves.
func TestConditionalLogisticRegressionAgreesWithSurvival(t *testing.T) {
	f := matched(t)
	share := f.fit(true)
	got := []float64{f.log, f.worth[1] - f.worth[0], f.worth[2] - f.worth[0], share}
	for i, want := range []float64{2.27705, 0.97797, 1.76871, 0.65339} {
		// The prior of a worth draws it by its hundredth towards 0.
		if math.Abs(got[i]-want) > 0.004 {
			t.Errorf("%d: %.5f, want %.5f", i, got[i], want)
		}
	}
	// Without the other factor: clogit(case ~ I(as.numeric(spontaneous > 0)) + strata(stratum), infert).
	alone := matched(t)
	alone.worth = make([]float64, 1)
	for i := range alone.cells {
		alone.cells[i].levels = []int{0}
	}
	alone.fit(true)
	if math.Abs(alone.log-1.65387) > 1e-5 {
		t.Errorf("alone %.6f, want 1.65387", alone.log)
	}
}
