package main

import (
	"bytes"
	"encoding/binary"
	"errors"
)

// The table of functions as Go 1.20 to 1.26 lay it out for a little-endian machine of 64 bits (runtime/symtab.go:
// pcHeader, functab; runtime/runtime2.go: _func): it begins with its version and sizes. Offsets are from there.
var mark = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

const (
	headFunctions = 8 + 0*8 // how many functions
	headNames     = 8 + 3*8 // where their names begin,
	headValues    = 8 + 6*8 // the tables of values by program counter,
	headTable     = 8 + 7*8 // and the table of functions itself
	headSize      = 8 + 8*8

	funcName      = 4
	funcStack     = 16 // pcsp: needed to unwind the stack
	funcFile      = 20
	funcLine      = 24
	funcValues    = 28 // how many further tables of values
	funcUnit      = 32
	funcStartLine = 36
	funcSize      = 44
)

var errTable = errors.New("the table of functions is not laid out as this Go release does: adapt tools/lean to it")

// table is the table of functions in a program's memory.
type table struct {
	bytes                     []byte
	functions                 uint64
	names, values, rows, size uint64 // where they begin, and all ends
}

func tableIn(memory []byte) (t table, err error) {
	start := bytes.Index(memory, mark)
	if start < 0 || bytes.Count(memory, mark) != 1 || start+headSize > len(memory) {
		return t, errTable
	}
	t.bytes = memory[start:]
	t.size = uint64(len(t.bytes))
	t.functions, t.names, t.values, t.rows = t.word(headFunctions), t.word(headNames), t.word(headValues), t.word(headTable)
	if t.names != headSize || t.names > t.values || t.values > t.rows || t.rows > t.size || t.functions > (t.size-t.rows)/8 {
		return t, errTable
	}
	for row := range t.functions {
		if at := t.record(row); at+funcSize > t.size || at+funcSize+4*t.half(at+funcValues) > t.size {
			return t, errTable
		}
	}
	return t, nil
}

func (t table) word(at uint64) uint64 { return binary.LittleEndian.Uint64(t.bytes[at:]) }
func (t table) half(at uint64) uint64 { return uint64(binary.LittleEndian.Uint32(t.bytes[at:])) }

// record is where what is known of a function stands.
func (t table) record(row uint64) uint64 { return t.rows + t.half(t.rows+8*row+4) }

// frame is how much of the stack the function has taken at one of its blocks, -1 if that is not told.
func (t table) frame(row uint64, block int64) int64 {
	r := reader{rest: t.bytes[t.values:t.rows]}
	r.take(t.half(t.record(row) + funcStack))
	value, until := int64(-1), int64(0)
	for first := true; ; first = false {
		step := r.unsigned()
		if step == 0 && !first || r.failed {
			return -1
		}
		value += int64(step>>1) ^ -int64(step&1)
		if until += int64(r.unsigned()); block < until {
			return value
		}
	}
}

// blank zeroes the names, files and line numbers in a Go program's memory, and leaves what the runtime needs to
// run: stack sizes and maps of pointers.
func blank(p *program) error {
	t, err := tableIn(p.memory)
	if err != nil {
		return err
	}
	kept := make([]byte, t.rows-t.values)
	keep := func(from uint64) bool { return from == 0 || keepTable(kept, t.bytes[t.values:t.rows], from) }
	for row := range t.functions {
		at := t.record(row)
		whole := keep(t.half(at + funcStack))
		for i := range t.half(at + funcValues) {
			whole = keep(t.half(at+funcSize+4*i)) && whole
		}
		if !whole {
			return errTable
		}
		for _, field := range []uint64{funcName, funcFile, funcLine, funcUnit, funcStartLine} {
			clear(t.bytes[at+field:][:4])
		}
	}
	clear(t.bytes[t.names:t.values])
	copy(t.bytes[t.values:t.rows], kept)
	return nil
}

// keepTable copies the table of values that begins at from: pairs of numbers, until a first number of a pair, but
// the very first, is zero.
func keepTable(kept, values []byte, from uint64) bool {
	if from >= uint64(len(values)) {
		return false
	}
	r := reader{rest: values[from:]}
	for first := true; (r.unsigned() != 0 || first) && !r.failed; first = false {
		r.unsigned()
	}
	copy(kept[from:], values[from:len(values)-len(r.rest)])
	return !r.failed
}
