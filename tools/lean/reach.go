package main

import "encoding/binary"

// abandon puts a trap in the place of every function that nothing leads to, once what only leads to the program's end
// has been cut: no call from one that is reached, no address of it in one or in memory, no number of it among the types,
// where the methods are told by theirs. Rather too many are kept: any number that could be a function's counts.
func abandon(p *program) error {
	t, err := tableIn(p.memory)
	if err != nil {
		return err
	}
	reached := make([]bool, len(p.bodies))
	var next []uint64
	reach := func(function uint64) { // numbers below 0 come as very large ones
		if function < uint64(len(reached)) && !reached[function] {
			reached[function] = true
			next = append(next, function)
		}
	}
	address := func(v uint64) { reach(v>>16 - firstFunction) }
	for _, function := range p.exported {
		reach(function - p.imported)
	}
	for at := uint64(0); at+8 <= uint64(len(p.memory)); at += 8 {
		if at < t.start || at >= t.start+t.buckets {
			address(binary.LittleEndian.Uint64(p.memory[at:]))
		}
	}
	for at := t.types; at+4 <= t.typesEnd; at += 4 {
		reach(uint64(binary.LittleEndian.Uint32(p.memory[at:])) - firstFunction)
	}
	for len(next) > 0 {
		body := reader{rest: p.bodies[next[0]]}
		next = next[1:]
		for _, i := range body.function().code {
			switch i.op {
			case opCall:
				reach(uint64(i.number) - p.imported)
			case opI32Const, opI64Const:
				address(uint64(i.number))
			}
		}
		if body.failed {
			return errFormat
		}
	}
	p.abandoned = map[uint64]bool{}
	for i := range p.bodies {
		if !reached[i] {
			p.bodies[i] = trap
			p.abandoned[uint64(i)] = true
			delete(p.renumbered, uint64(i))
		}
	}
	return nil
}
