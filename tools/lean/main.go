// Command lean makes the module for the phone lighter over the wire, without a change to what it computes. Go's
// linker leaves in it what costs a phone a third of the download: the names, files and line numbers of all functions,
// which only a stack trace shows; the tracer, the profiler and what is printed before a program ends; tables that follow
// from others, which the module can write when it starts; and tens of thousands of little data segments that skip short
// runs of zeroes, whose headers compress worse than the zeroes would. And Go's compiler writes jumps, calls and
// addresses of the stack in a way that is long and differs from place to place where it need not; written shortly and
// alike, they also run faster.
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

// lean is the module without what only people who look into a program need, its code in the shortest form that does
// the same, its data in few segments.
func lean(module []byte) ([]byte, error) {
	sections, err := split(module)
	if err != nil {
		return nil, err
	}
	var p program
	if err := p.read(sections); err != nil {
		return nil, err
	}
	for _, step := range []func(*program) error{quiet, compact, abandon, blank, repack, derive} {
		if err := step(&p); err != nil {
			return nil, err
		}
	}
	out := append([]byte{}, module[:len(preamble)]...)
	put := func(id byte, body []byte) {
		out = append(out, id)
		out = appendUnsigned(out, uint64(len(body)))
		out = append(out, body...)
	}
	started := false
	for _, s := range sections {
		if s.id == custom { // who built it: nobody asks
			continue
		}
		if body, ok := p.section(start); ok && s.id > start && !started {
			put(start, body)
			started = true
		}
		if body, ok := p.section(s.id); ok {
			s.body = body
		}
		put(s.id, s.body)
	}
	return out, nil
}
