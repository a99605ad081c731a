// Command lean makes the module for the phone lighter over the wire, without a change to what it computes. Go's
// linker leaves three things in it that cost a phone a quarter of the download: the names, files and line numbers of
// all functions, which only a stack trace shows; the tracer, the profiler and the printing of stacks themselves; and
// tens of thousands of little data segments that skip short runs of zeroes, whose headers compress worse than the
// zeroes would.
//
//	go run ./tools/lean MODULE
//
// The module is changed in place. The tables are those of the Go release in go.mod; another layout is refused.
package main

import (
	"fmt"
	"os"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: lean MODULE")
		os.Exit(2)
	}
	if err := rewrite(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "lean:", err)
		os.Exit(1)
	}
}

func rewrite(path string) error {
	module, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if module, err = lean(module); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return os.WriteFile(path, module, 0o755)
}

// lean is the module without what only people who look into a program need, its data in few segments.
func lean(module []byte) ([]byte, error) {
	sections, err := split(module)
	if err != nil {
		return nil, err
	}
	if err := quiet(sections); err != nil {
		return nil, err
	}
	out := append([]byte{}, module[:len(preamble)]...)
	for _, s := range sections {
		switch s.id {
		case custom: // who built it: nobody asks
			continue
		case data:
			memory, err := load(s.body)
			if err != nil {
				return nil, err
			}
			if err := blank(memory); err != nil {
				return nil, err
			}
			s.body = store(memory)
		}
		out = append(out, s.id)
		out = appendUnsigned(out, uint64(len(s.body)))
		out = append(out, s.body...)
	}
	return out, nil
}
