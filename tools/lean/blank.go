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

// blank zeroes the names, files and line numbers in a Go program's memory, and leaves what the runtime needs to
// run: stack sizes and maps of pointers.
func blank(memory []byte) error {
	start := bytes.Index(memory, mark)
	if start < 0 || bytes.Count(memory, mark) != 1 || start+headSize > len(memory) {
		return errTable
	}
	table := memory[start:]
	word := func(at uint64) uint64 { return binary.LittleEndian.Uint64(table[at:]) }
	half := func(at uint64) uint64 { return uint64(binary.LittleEndian.Uint32(table[at:])) }
	size := uint64(len(table))
	functions, names, values, rows := word(headFunctions), word(headNames), word(headValues), word(headTable)
	if names != headSize || names > values || values > rows || rows > size || functions > (size-rows)/8 {
		return errTable
	}

	kept := make([]byte, rows-values)
	keep := func(from uint64) bool { return from == 0 || keepTable(kept, table[values:rows], from) }
	for row := range functions {
		at := rows + half(rows+8*row+4)
		if at+funcSize > size || at+funcSize+4*half(at+funcValues) > size {
			return errTable
		}
		whole := keep(half(at + funcStack))
		for i := range half(at + funcValues) {
			whole = keep(half(at+funcSize+4*i)) && whole
		}
		if !whole {
			return errTable
		}
		for _, field := range []uint64{funcName, funcFile, funcLine, funcUnit, funcStartLine} {
			clear(table[at+field:][:4])
		}
	}
	clear(table[names:values])
	copy(table[values:rows], kept)
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
