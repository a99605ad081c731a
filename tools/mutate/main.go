// Command mutate tries the tests: it changes one number or comparison of the source at a time, as the lists beside it
// say, and runs the tests that should notice. A change that leaves them green is told; then they prove less than they
// seem to.
//
//	go run ./tools/mutate                     all lists
//	go run ./tools/mutate calc/beat seawater  only files whose path has one of these in it
//
// A list (*.list) names a file, with the packages or test files to run if they are not those of its own room, and with
// -run=PATTERN for some of their tests; and below it, indented, the changes, one to a line:
//
//	calc/beat/beat.go
//		fewest = 4 => fewest = 5
//		handJitter = 0.045 ± 10 %
//	server/store/tables/aboard/device.go ./server/store/sqlite ./server/trust/enrol
//		revoked IS NULL AND seen => seen
//	webapp/src/screens/crew/weather.tsx e2e/crew.spec.ts
//		mayChange() ? => true ?
//
// Blanks count as one, the end of a line is one. The second form changes the last number up and down. Test files that
// are a browser's (*.spec.ts) run against the app built with the change. The source itself stays as it is: Go takes the
// changed file as an overlay; a file of the webapp is put back, also when this is interrupted.
package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

func run(only []string) error {
	lists, err := filepath.Glob("tools/mutate/*.list")
	if err != nil {
		return err
	}
	tried, bad := 0, 0
	for _, name := range lists {
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		changes, err := parse(string(text))
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		for _, c := range changes {
			if !c.wanted(only) {
				continue
			}
			noticed, err := c.try(".")
			tried++
			switch {
			case errors.Is(err, errInterrupted):
				return err
			case err != nil:
				bad++
				fmt.Printf("%s: %v\n", name, err)
			case !noticed:
				bad++
				fmt.Println("nobody noticed:", c)
			}
		}
	}
	if bad > 0 {
		return fmt.Errorf("of %d changes %d were not noticed, or could not be tried", tried, bad)
	}
	fmt.Println(tried, "changes, all noticed")
	return nil
}

// wanted says whether the file is among those asked for.
func (c *change) wanted(only []string) bool {
	for _, part := range only {
		if strings.Contains(c.file, part) {
			return true
		}
	}
	return len(only) == 0
}
