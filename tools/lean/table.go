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
	funcDefer     = 12 // the block with the deferred calls
	funcStack     = 16 // pcsp: needed to unwind the stack
	funcFile      = 20
	funcLine      = 24
	funcValues    = 28 // how many further tables of values
	funcUnit      = 32
	funcStartLine = 36
	funcData      = 43 // how many pieces of data, in one byte
	funcSize      = 44 // after it stand where the tables begin, then the pieces

	rowSize = 8 // of the table: what the function's address is more than the first one's, and where its record is

	// What the program knows of itself (runtime/symtab.go: moduledata), which begins with where the table is: where the
	// types are; where the pieces of data are counted from, and where the runtime looks for a function's row by its
	// address. The pieces end where the latter begin.
	selfBuckets  = 19 * 8
	selfTypes    = 37 * 8
	selfTypesEnd = 38 * 8
	selfData     = 40 * 8
	selfSize     = 41 * 8
)

// noData is in the place of a piece that a function has not.
const noData = 1<<32 - 1

var errTable = errors.New("the table of functions is not laid out as this Go release does: adapt tools/lean to it")

// table is the table of functions in a program's memory.
type table struct {
	start                     uint64 // in the memory; what follows is counted from there
	bytes                     []byte
	functions                 uint64
	names, values, rows, size uint64 // where they begin, and all ends
	data, buckets             uint64
	types, typesEnd           uint64 // in the memory
}

func tableIn(memory []byte) (t table, err error) {
	start := bytes.Index(memory, mark)
	if start < 0 || start%8 != 0 || bytes.Count(memory, mark) != 1 || start+headSize > len(memory) {
		return t, errTable
	}
	t.start, t.bytes = uint64(start), memory[start:]
	t.size = uint64(len(t.bytes))
	t.functions, t.names, t.values, t.rows = t.word(headFunctions), t.word(headNames), t.word(headValues), t.word(headTable)
	if t.names != headSize || t.names > t.values || t.values > t.rows || t.rows > t.size || t.functions > (t.size-t.rows)/8 {
		return t, errTable
	}
	for row := range t.functions {
		if at := t.record(row); at+funcSize > t.size || t.end(at) > t.size {
			return t, errTable
		}
	}
	self := bytes.Index(memory, binary.LittleEndian.AppendUint64(binary.LittleEndian.AppendUint64(nil, t.start), t.start+t.names))
	if self < 0 || self+selfSize > len(memory) {
		return t, errTable
	}
	t.data = binary.LittleEndian.Uint64(memory[self+selfData:]) - t.start
	t.buckets = binary.LittleEndian.Uint64(memory[self+selfBuckets:]) - t.start
	t.types = binary.LittleEndian.Uint64(memory[self+selfTypes:])
	t.typesEnd = binary.LittleEndian.Uint64(memory[self+selfTypesEnd:])
	if t.types%8 != 0 || t.types > t.typesEnd || t.typesEnd > t.start {
		return t, errTable
	}
	if t.data < t.rows || t.data > t.buckets || t.buckets > t.size {
		return t, errTable
	}
	return t, nil
}

func (t table) word(at uint64) uint64 { return binary.LittleEndian.Uint64(t.bytes[at:]) }
func (t table) half(at uint64) uint64 { return uint64(binary.LittleEndian.Uint32(t.bytes[at:])) }

// record is where what is known of a function stands.
func (t table) record(row uint64) uint64 { return t.rows + t.half(t.rows+rowSize*row+4) }

// end is where the record after this one begins.
func (t table) end(record uint64) uint64 {
	return (record + funcSize + 4*(t.half(record+funcValues)+uint64(t.bytes[record+funcData])) + 7) / 8 * 8
}

// put writes a half word.
func (t table) put(at, v uint64) { binary.LittleEndian.PutUint32(t.bytes[at:], uint32(v)) }

// table is where a record's table of values of this number begins, 0 if it has none.
func (t table) table(record, number uint64) uint64 {
	if t.half(record+funcValues) <= number {
		return 0
	}
	return t.half(record + funcSize + 4*number)
}

// frame is how much of the stack the function has taken at one of its blocks, -1 if that is not told.
func (t table) frame(row uint64, block int64) int64 {
	return t.value(t.half(t.record(row)+funcStack), block)
}

// value is what a table of values tells of a block, -1 if nothing.
func (t table) value(from uint64, block int64) int64 {
	r := reader{rest: t.bytes[t.values:t.rows]}
	r.take(from)
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
