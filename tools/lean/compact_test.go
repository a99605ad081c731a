package main

import (
	"bytes"
	"slices"
	"testing"
)

// Instructions with at most a number, by opcode and number.
func listing(words ...any) (code []instruction) {
	for _, w := range words {
		switch w := w.(type) {
		case int:
			code[len(code)-1].number = int64(w)
		case byte:
			code = append(code, instruction{op: w})
		case []instruction:
			code = append(code, w...)
		case []uint64:
			code[len(code)-1].labels = w
		}
	}
	return code
}

func op(o byte) byte { return o }

func same(t *testing.T, what string, got, want []instruction) {
	t.Helper()
	if !slices.EqualFunc(got, want, func(a, b instruction) bool { return bytes.Equal(a.append(nil), b.append(nil)) }) {
		t.Errorf("%s:\n got %v\nwant %v", what, got, want)
	}
}

// Each kind of instruction with its operands, as bytes by the W3C's binary format, and the numbers at the ends of what
// their code can hold.
func TestInstructionsComeBackAsTheyWere(t *testing.T) {
	for _, body := range [][]byte{
		{0, 0x0b},
		{2, 1, 0x7f, 3, 0x7e, 0x20, 0, 0x0e, 2, 0, 1, 2, 0x0b},
		{0, 0x02, 0x40, 0x04, 0x7f, 0x41, 0x7f, 0x05, 0x41, 0xc0, 0x00, 0x0b, 0x0d, 1, 0x0c, 0, 0x0b, 0x0b},
		{0, 0x42, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x7f, 0x0b},
		{0, 0x42, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x00, 0x0b},
		{0, 0x43, 1, 2, 3, 4, 0x44, 1, 2, 3, 4, 5, 6, 7, 8, 0x1a, 0x1a, 0x0b},
		{0, 0x29, 3, 0x80, 0x01, 0x37, 3, 0, 0x3f, 0, 0x40, 0, 0x10, 0x80, 0x10, 0x11, 0, 0, 0x0b},
		{0, 0xfc, 10, 0, 0, 0xfc, 11, 0, 0xfc, 6, 0xc0, 0xc4, 0x0b},
	} {
		r := reader{rest: body}
		f := r.function()
		if again := f.bytes(); r.failed || !bytes.Equal(again, body) {
			t.Errorf("%x comes back as %x, failed: %v", body, again, r.failed)
		}
	}
}

func TestUnknownInstructionsAreRefused(t *testing.T) {
	for _, body := range [][]byte{{0, 0x06}, {0, 0x12, 0}, {0, 0xc5}, {0, 0xfc, 8, 0, 0}, {0, 0x42, 0x80}, {0, 0x0e, 0xff, 0xff, 0xff, 0xff, 0x0f}} {
		r := reader{rest: body}
		if r.function(); !r.failed {
			t.Errorf("%x is taken", body)
		}
	}
}

func TestAddressesInTheFrameBecomeOffsets(t *testing.T) {
	frame := listing(op(opLocalGet), localStack, op(opI64ExtendU), op(opI64Const), 8, op(opI64Add), op(opI32Wrap))
	value := listing(op(opI64Const), 5, op(opI64Const), 6, op(opI64Add))
	same(t, "stored to", shortenAddresses(listing(frame, value, op(opI64Store), 16, op(opEnd))),
		listing(op(opLocalGet), localStack, value, op(opI64Store), 24, op(opEnd)))
	// What is copied has no place for an offset, and across a call nothing is followed.
	sum := listing(op(opLocalGet), localStack, op(opI32Const), 8, op(opI32Add))
	copied := listing(op(opI32Const), 0, op(opI32Const), 9, op(opMore), moreCopy)
	same(t, "copied to", shortenAddresses(listing(frame, copied, op(opEnd))), listing(sum, copied, op(opEnd)))
	same(t, "called", shortenAddresses(listing(frame, op(opCall), 7, op(opI64Store))), listing(sum, op(opCall), 7, op(opI64Store)))
	// A value that is stored, not an address.
	same(t, "stored", shortenAddresses(listing(op(opLocalGet), localStack, frame, op(opI32Load)+14)), listing(op(opLocalGet), localStack, sum, op(opI32Load)+14))
}

func TestAddressesElsewhereBecomeOffsets(t *testing.T) {
	field := func(offset int) []instruction {
		return listing(op(opLocalGet), 4, op(opI64Const), offset, op(opI64Add), op(opI32Wrap), op(opLoad)+3, 8)
	}
	same(t, "after", shortenAddresses(field(56)), listing(op(opLocalGet), 4, op(opI32Wrap), op(opLoad)+3, 64))
	same(t, "before", shortenAddresses(field(-56)), field(-56))
}

// Three blocks: 0 is entered first, 1 by a jump from it, 2 by one from 1, which also jumps back to itself.
func TestJumpsForwardBecomeBranches(t *testing.T) {
	jump := func(block, loop int) []instruction {
		return listing(op(opI32Const), block, op(opLocalSet), localBlock, op(opBr), loop)
	}
	begin := listing(op(opGlobalGet), 0, op(opLocalSet), 1, op(opLoop), noResult, op(opBlock), noResult, op(opBlock), noResult,
		op(opBlock), noResult, op(opLocalGet), localBlock, op(opBrTable), []uint64{0, 1, 2}, op(opEnd))
	before := listing(begin,
		op(opLocalGet), 2, op(opIf), noResult, jump(2, 3), op(opEnd), jump(1, 2), op(opEnd),
		op(opLocalGet), 2, op(opIf), noResult, jump(1, 2), op(opEnd), op(opIf), noResult, op(opIf), noResult, op(opNop), jump(9, 3), op(opEnd), op(opEnd), op(opEnd),
		op(opEnd), op(opUnreachable), op(opEnd))
	after := listing(begin,
		op(opLocalGet), 2, op(opBrIf), 1, op(opBr), 0, op(opEnd),
		op(opLocalGet), 2, op(opIf), noResult, jump(1, 2), op(opEnd), op(opIf), noResult, op(opIf), noResult, op(opNop), op(opBr), 2, op(opEnd), op(opEnd), op(opEnd),
		op(opEnd), op(opUnreachable), op(opEnd))
	same(t, "jumps", straighten(before), after)
	// A function that asks for its block's number elsewhere is left alone.
	other := listing(before[:len(before)-1], op(opLocalGet), localBlock, op(opDrop), op(opEnd))
	same(t, "number used", straighten(other), other)
}

func TestCallsAndReturnsAreShortened(t *testing.T) {
	const base, panics, instead = 0x12340000, 70, 99
	pushing := func(block int) []instruction {
		return listing(op(opLocalGet), 1, op(opI32Const), 8, op(opI32Sub), op(opLocalTee), 1, op(opGlobalSet), 0, op(opLocalGet), 1,
			op(opI64Const), base+block, op(opI64Store))
	}
	call := func(block, called, leave int) []instruction {
		return listing(pushing(block), op(opI32Const), 0, op(opCall), called, op(opGlobalGet), 0, op(opLocalSet), 1, op(opBrIf), leave)
	}
	pop := func(n int) []instruction {
		return listing(op(opLocalGet), 1, op(opI32Const), n, op(opI32Add), op(opLocalTee), 1, op(opGlobalSet), 0)
	}
	body := func(parts ...any) []instruction { return listing(parts...) }
	before := body(op(opGlobalGet), 0, op(opLocalSet), 1, op(opBlock), noResult,
		op(opLocalGet), 2, op(opIf), noResult, call(5, panics, 1), op(opEnd), call(6, 50, 0),
		pop(24), pop(8), op(opI32Const), 0, op(opReturn), op(opEnd), op(opI32Const), 1, op(opEnd))
	frames := func(a, b int64) bool { return a == 5 && b == 1 }
	shorten := func(code []instruction, frames func(a, b int64) bool) function {
		f := withBase(function{[]locals{{1, i32}, {1, i64}}, slices.Clone(code)}, base)
		f.code = shortenCalls(f.code, base, rescue{map[int64]int64{panics: instead}, map[int64]int64{panics: 1}}, frames)
		return f
	}
	leave := listing(op(opIf), noResult, op(opI32Const), 1, op(opReturn), op(opEnd), op(opGlobalGet), 0, op(opLocalSet), 1)
	based := func(block int) []instruction {
		return listing(pushing(0)[:6], op(opLocalGet), 2, op(opI64Const), block, op(opI64Or), op(opI64Store))
	}
	end := listing(op(opLocalGet), 1, op(opI32Const), 32, op(opI32Add), op(opGlobalSet), 0, op(opI32Const), 0, op(opReturn), op(opEnd), op(opI32Const), 1, op(opEnd))
	start := listing(op(opGlobalGet), 0, op(opLocalSet), 1, op(opI64Const), base, op(opLocalSet), 2, op(opBlock), noResult, op(opLocalGet), 3, op(opIf), noResult)
	second := listing(based(6), op(opI32Const), 0, op(opCall), 50, leave, end)

	f := shorten(before, frames)
	same(t, "same frame", f.code, body(start, op(opLocalGet), 2, op(opCall), instead, op(opReturn), op(opEnd), second))
	if !slices.Equal(f.locals, []locals{{1, i32}, {2, i64}}) {
		t.Errorf("locals are %v", f.locals)
	}
	other := shorten(before, func(int64, int64) bool { return false })
	same(t, "another frame", other.code, body(start, based(5), op(opI32Const), 0, op(opCall), panics, leave, op(opEnd), second))
	if f := withBase(function{[]locals{{1, i32}, {1, 0x7c}}, slices.Clone(before)}, base); !slices.Equal(f.locals, []locals{{1, i32}, {1, i64}, {1, 0x7c}}) {
		t.Errorf("locals without an i64 become %v", f.locals)
	}
	// Where to leave is not to unwind, the branch stays.
	ends := slices.Clone(before)
	ends[len(ends)-2].number = 0
	if f := shorten(ends, frames); !slices.ContainsFunc(f.code, func(i instruction) bool { return i.op == opBrIf }) {
		t.Error("a branch that does not unwind became a return")
	}
}

func TestWhatLeadsToTheEndIsCut(t *testing.T) {
	const throws, other = 70, 71
	say := func(from, length int) []instruction {
		return listing(op(opLocalGet), localStack, op(opI64Const), from, op(opI64Store), 0,
			op(opLocalGet), localStack, op(opI64Const), length, op(opI64Store), 8)
	}
	before := listing(op(opBlock), noResult, say(8, 3), op(opI32Const), 0, op(opCall), other, op(opDrop),
		op(opLocalGet), 2, op(opIf), noResult, op(opLocalGet), 2, op(opLocalSet), 3, say(16, 5), op(opI32Const), 0, op(opCall), throws, op(opIf), noResult, op(opReturn), op(opEnd), op(opNop), op(opEnd),
		op(opLocalGet), 3, op(opDrop), op(opI32Const), 0, op(opCall), throws, op(opDrop), op(opEnd), op(opNop), op(opEnd))
	after := listing(op(opBlock), noResult, say(8, 3), op(opI32Const), 0, op(opCall), other, op(opDrop),
		op(opLocalGet), 2, op(opIf), noResult, op(opUnreachable), op(opEnd),
		op(opUnreachable), op(opEnd), op(opNop), op(opEnd))
	got, said := cut(before, map[int64]bool{throws: true})
	same(t, "cut", got, after)
	if !slices.Equal(said, []saying{{16, 5}}) {
		t.Errorf("was to be said: %v", said)
	}
}

func TestOnlyTextsThatNothingLeadsToGo(t *testing.T) {
	memory := []byte("........pointer.message.another.")
	clear(memory[:8])
	memory[0] = 11 // a pointer into the first
	hush(memory, []saying{{8, 8}, {16, 8}, {24, 8}, {28, 99}, {-4, 2}}, map[int64]bool{24: true})
	if want := "\x0b\x00\x00\x00\x00\x00\x00\x00pointer.\x00\x00\x00\x00\x00\x00\x00\x00another."; string(memory) != want {
		t.Errorf("%q, want %q", memory, want)
	}
}

// The frame by block as the runtime writes it: 0 in the first block, 16 in the next two.
func TestFramesAreReadByBlock(t *testing.T) {
	memory := make([]byte, 200)
	values := []byte{0, 2, 1, 32, 2, 0} // from -1: 0 for one block, 16 for two
	copy(memory[headSize:], values)
	rows := uint64(headSize + len(values))
	tab := table{bytes: memory, functions: 1, values: headSize, rows: rows, size: 200}
	memory[rows+4] = 8
	memory[rows+8+funcStack] = 1
	for block, want := range []int64{0, 16, 16, -1} {
		if got := tab.frame(0, int64(block)); got != want {
			t.Errorf("at block %d: %d, want %d", block, got, want)
		}
	}
}
