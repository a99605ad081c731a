// Command tally reads what the test runners wrote of their tests, and prints which were the ten slowest of each runner,
// how many passed in all, and which only at a second try. It fails if one failed.
//
//	go run ./tools/tally FILE.json …
package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// test is one test that ran, or was left out.
type test struct {
	name    string
	seconds float64
	outcome outcome
}

type outcome string

const (
	passed  outcome = "passed"
	failed  outcome = "failed"
	skipped outcome = "skipped"
	// flaky passed at a second try: somebody should look at why.
	flaky outcome = "flaky"
)

const slowest = 10

func main() {
	ok, err := tally(os.Stdout, os.Args[1:])
	if err != nil {
		fmt.Fprintln(os.Stderr, "tally:", err)
	}
	if !ok || err != nil {
		os.Exit(1)
	}
}

func tally(out io.Writer, files []string) (ok bool, err error) {
	count := map[outcome]int{}
	for _, file := range files {
		content, err := os.ReadFile(file)
		if err != nil {
			return false, err
		}
		tests, err := read(content)
		if err != nil {
			return false, fmt.Errorf("%s: %w", file, err)
		}
		for _, t := range tests {
			count[t.outcome]++
			if t.outcome == flaky {
				count[passed]++
				fmt.Fprintf(out, "At a second try only: %s\n", t.name)
			}
		}
		fmt.Fprintf(out, "\nThe slowest of %s\n", strings.TrimSuffix(filepath.Base(file), ".json"))
		slices.SortStableFunc(tests, func(a, b test) int { return int(1e6 * (b.seconds - a.seconds)) })
		for _, t := range tests[:min(slowest, len(tests))] {
			fmt.Fprintf(out, "%8.1f s  %s\n", t.seconds, t.name)
		}
	}
	fmt.Fprintf(out, "\n%d passed, %d failed, %d skipped\n", count[passed], count[failed], count[skipped])
	if count[flaky] > 0 {
		fmt.Fprintf(out, "%d of these at a second try only\n", count[flaky])
	}
	return count[failed] == 0 && count[passed] > 0, nil
}
