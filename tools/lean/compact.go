package main

import "fmt"

// rescuers are the functions of the runtime that are called when a check fails, with the block of the address that is
// pushed for them: the stack is looked at before the function takes its frame, a pointer after.
var rescuers = map[string]int64{"runtime.morestack": 0, "runtime.morestack_noctxt": 0, "runtime.sigpanic": 1}

// compact rewrites the functions that are called in Go's way.
func compact(p *program) error {
	t, err := tableIn(p.memory)
	if err != nil {
		return err
	}
	if t.functions != uint64(len(p.bodies)) {
		return errTable
	}
	r := rescue{map[int64]int64{}, map[int64]int64{}}
	var last int64
	for number, name := range p.names {
		if block, ok := rescuers[name]; ok {
			last = max(last, int64(number))
			r.block[int64(number)] = block
		}
	}
	// By number, so that the same source makes the same bytes.
	for number := range last + 1 {
		if block, ok := r.block[number]; ok {
			r.instead[number] = int64(p.add(addressToState, pushing(number, block)))
		}
	}
	p.renumbered = map[uint64]renumbered{}
	var said []saying
	named := map[int64]bool{}
	for i := range t.functions {
		body := reader{rest: p.bodies[i]}
		f := body.function()
		if body.failed {
			return fmt.Errorf("%s: %w", p.names[p.imported+i], errFormat)
		}
		// The linker gives the first type to what is called in Go's way.
		if p.functions[i] == 0 && at(f.code, 0, opGlobalGet, opLocalSet) {
			base := addressOf(int(i))
			code, ends := cut(shortenAddresses(f.code), p.traps)
			said = append(said, ends...)
			f.code = straighten(code)
			f = withBase(f, base)
			f.code = shortenCalls(f.code, base, r, func(a, b int64) bool { return t.frame(i, a) == t.frame(i, b) && t.frame(i, a) >= 0 })
			if code, r, ok := renumber(f.code, i, t); ok {
				f.code, p.renumbered[i] = code, r
			}
			p.bodies[i] = f.bytes()
		}
		for _, i := range f.code {
			if i.op == opI32Const || i.op == opI64Const {
				named[i.number] = true
			}
		}
	}
	hush(p.memory, said, named)
	return nil
}

// pushing is a function that pushes the address it is called with, plus a block, and calls another.
func pushing(called, block int64) function {
	const address, stack = 0, 1
	code := []instruction{
		{op: opGlobalGet, number: globalStack}, {op: opI32Const, number: 8}, {op: opI32Sub}, {op: opLocalTee, number: stack},
		{op: opGlobalSet, number: globalStack}, {op: opLocalGet, number: stack}, {op: opLocalGet, number: address},
		{op: opI64Const, number: block}, {op: opI64Or}, {op: opI64Store, hint: 3},
		{op: opI32Const, number: 0}, {op: opCall, number: called}, {op: opEnd},
	}
	return function{[]locals{{1, i32}}, code}
}
