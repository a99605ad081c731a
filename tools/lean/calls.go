package main

import "slices"

// The address to return to is the function's number, from 4096 on, and in the last 16 bits the block's.
const firstFunction = 0x1000

func addressOf(function int) int64 { return int64(firstFunction+function) << 16 }

// localBase is a local that is put in: the function's own address, to which a call adds its block. What a call pushes
// is then the same bytes in every function.
const localBase = 2

// withBase declares it and gives it its value, in a function that calls.
func withBase(f function, base int64) function {
	calls := false
	for k := range f.code {
		_, ok := pushes(f.code, k, base)
		calls = calls || ok
	}
	if !calls {
		return f
	}
	if len(f.locals) > 1 && f.locals[1].kind == i64 {
		f.locals[1].count++
	} else {
		f.locals = slices.Insert(f.locals, 1, locals{1, i64})
	}
	for k, i := range f.code {
		if i.op >= opLocalGet && i.op <= opLocalTee && i.number >= localBase {
			f.code[k].number++
		}
	}
	f.code = slices.Insert(f.code, 2, instruction{op: opI64Const, number: base}, instruction{op: opLocalSet, number: localBase})
	return f
}

// push is how the compiler pushes the address to return to. After the call it takes the stack pointer anew, since the
// stack may have moved, and leaves the function too if another goroutine is to go on.
var (
	push  = []byte{opLocalGet, opI32Const, opI32Sub, opLocalTee, opGlobalSet, opLocalGet, opI64Const, opI64Store}
	after = []byte{opGlobalGet, opLocalSet, opBrIf}
	// failure is what a check does that finds a nil pointer, or too little stack.
	failure = slices.Concat([]byte{opIf}, push, []byte{opI32Const, opCall}, after, []byte{opEnd})
)

const pushed = 6 // where in push the address is

// pushes says whether a call of this function begins at the place, and to which of its blocks it returns.
func pushes(code []instruction, place int, base int64) (block int64, ok bool) {
	if !at(code, place, push...) || code[place].number != localStack || code[place+1].number != 8 || code[place+len(push)-1].number != 0 {
		return 0, false
	}
	block = code[place+pushed].number - base
	return block, block >= 0 && block < 1<<16
}

// rescue is what is called instead when a check fails: a function that pushes the address too. What it calls never
// returns to there but leaves by unwinding; of the address only the function matters, and how large its frame is.
type rescue struct {
	instead map[int64]int64 // by the runtime's function
	// block is that of the address that it pushes: the frame must be as large there.
	block map[int64]int64
}

// shortenCalls lets calls and returns be the same bytes everywhere, so that little is left of them over the wire.
// sameFrame says whether the function's frame is as large at one block as at another.
func shortenCalls(code []instruction, base int64, r rescue, sameFrame func(a, b int64) bool) []instruction {
	unwinding := endsByUnwinding(code)
	leaves := func(i instruction, depth int) bool { return unwinding && i.number == int64(depth-1) }
	out := code[:0:0]
	depth := 0
	for k := 0; k < len(code); k++ {
		switch code[k].op {
		case opBlock, opLoop, opIf:
			depth++
		case opEnd:
			depth--
		}
		if block, ok := pushes(code, k+1, base); ok && at(code, k, failure...) && leaves(code[k+len(failure)-2], depth) {
			called := code[k+len(push)+2].number
			if instead, ok := r.instead[called]; ok && sameFrame(block, r.block[called]) {
				out = append(out, code[k], instruction{op: opLocalGet, number: localBase}, instruction{op: opCall, number: instead},
					instruction{op: opReturn})
				k += len(failure) - 2
				continue
			}
		}
		if block, ok := pushes(code, k, base); ok {
			out = append(out, code[k:k+pushed]...)
			out = append(out, instruction{op: opLocalGet, number: localBase})
			if block != 0 {
				out = append(out, instruction{op: opI64Const, number: block}, instruction{op: opI64Or})
			}
			out = append(out, code[k+pushed+1])
			k += len(push) - 1
			continue
		}
		if at(code, k, after...) && code[k].number == globalStack && leaves(code[k+2], depth) {
			out = append(out, instruction{op: opIf, number: noResult}, instruction{op: opI32Const, number: 1}, instruction{op: opReturn},
				instruction{op: opEnd}, code[k], code[k+1])
			k += len(after) - 1
			continue
		}
		if size, length := pops(code, k); length > 0 {
			out = append(out, code[k], instruction{op: opI32Const, number: size}, code[k+2], instruction{op: opGlobalSet, number: globalStack})
			k += length - 1
			continue
		}
		out = append(out, code[k])
	}
	return out
}

// endsByUnwinding says whether to leave the outermost block is to return 1: the caller is to leave too.
func endsByUnwinding(code []instruction) bool {
	last := len(code) - 3
	if last < 0 || !at(code, last, opEnd, opI32Const, opEnd) || code[last+1].number != 1 {
		return false
	}
	depth, ends := 0, 0
	for _, i := range code[:last+1] {
		switch i.op {
		case opBlock, opLoop, opIf:
			depth++
		case opEnd:
			if depth--; depth == 0 {
				ends++
			}
		}
	}
	return depth == 0 && ends == 1
}

// pops is how much a return at the place takes off the stack, and in how many instructions: the frame, then the
// address.
func pops(code []instruction, place int) (size int64, length int) {
	pop := []byte{opLocalGet, opI32Const, opI32Add, opLocalTee, opGlobalSet}
	for at(code, place+length, pop...) && code[place+length].number == localStack && code[place+length+4].number == globalStack {
		size += code[place+length+1].number
		length += len(pop)
	}
	if !at(code, place+length, opI32Const, opReturn) {
		return 0, 0
	}
	return size, length
}
