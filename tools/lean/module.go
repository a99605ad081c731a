package main

import (
	"encoding/binary"
	"errors"
)

// The parts of WebAssembly's binary format (W3C WebAssembly Core 1.0, chapter 5) that are needed here.
const (
	preamble  = "\x00asm\x01\x00\x00\x00"
	custom    = 0
	types     = 1
	imports   = 2
	functions = 3
	exports   = 7
	start     = 8
	code      = 10
	data      = 11
	// In the custom section “name”.
	functionNames = 1
	// i32.const, and the end of an expression.
	constant, end = 0x41, 0x0b
)

// A run of zeroes shorter than this stays in its segment: brotli makes less of it than of a segment's header.
const gap = 32

var errFormat = errors.New("not a WebAssembly module as Go's linker writes it")

type section struct {
	id   byte
	body []byte
}

// reader takes numbers and bytes off the front; past the end it fails for good.
type reader struct {
	rest   []byte
	failed bool
}

func (r *reader) unsigned() uint64 {
	v, n := binary.Uvarint(r.rest) // unsigned LEB128 by another name
	if n <= 0 {
		r.failed, n = true, 0
	}
	r.rest = r.rest[n:]
	return v
}

func (r *reader) signed() int64 {
	var v int64
	for shift := 0; shift < 70 && !r.failed; shift += 7 {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		if b < 0x80 {
			if b&0x40 != 0 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
	r.failed = true
	return 0
}

func (r *reader) byte() byte {
	if b := r.take(1); !r.failed {
		return b[0]
	}
	return 0
}

func (r *reader) take(n uint64) []byte {
	if n > uint64(len(r.rest)) {
		r.failed, n = true, 0
	}
	taken := r.rest[:n]
	r.rest = r.rest[n:]
	return taken
}

func appendUnsigned(out []byte, v uint64) []byte { return binary.AppendUvarint(out, v) }

func appendSigned(out []byte, v int64) []byte {
	for {
		b := byte(v & 0x7f)
		v >>= 7
		if v == 0 && b&0x40 == 0 || v == -1 && b&0x40 != 0 {
			return append(out, b)
		}
		out = append(out, b|0x80)
	}
}

func split(module []byte) ([]section, error) {
	r := reader{rest: module}
	if string(r.take(uint64(len(preamble)))) != preamble {
		return nil, errFormat
	}
	var sections []section
	for len(r.rest) > 0 && !r.failed {
		id := r.take(1)[0]
		sections = append(sections, section{id, r.take(r.unsigned())})
	}
	if r.failed {
		return nil, errFormat
	}
	return sections, nil
}

// load is the memory that a data section makes, from address 0.
func load(body []byte) ([]byte, error) {
	r := reader{rest: body}
	var memory []byte
	for n := r.unsigned(); n > 0 && !r.failed; n-- {
		head := r.take(2)
		offset := r.signed()
		tail := r.take(1)
		bytes := r.take(r.unsigned())
		if r.failed || head[0] != 0 || head[1] != constant || tail[0] != end || offset < 0 || offset > 1<<30 {
			return nil, errFormat
		}
		if stop := int(offset) + len(bytes); stop > len(memory) {
			memory = append(memory, make([]byte, stop-len(memory))...)
		}
		copy(memory[offset:], bytes)
	}
	if r.failed {
		return nil, errFormat
	}
	return memory, nil
}

// store is the data section that makes this memory.
func store(memory []byte) []byte {
	var count uint64
	var segments []byte
	for at := 0; ; {
		for at < len(memory) && memory[at] == 0 {
			at++
		}
		if at == len(memory) {
			return append(appendUnsigned(nil, count), segments...)
		}
		stop, zeroes := at, 0
		for i := at; i < len(memory) && zeroes < gap; i++ {
			if zeroes++; memory[i] != 0 {
				stop, zeroes = i+1, 0
			}
		}
		count++
		segments = append(segments, 0, constant)
		segments = append(appendSigned(segments, int64(at)), end)
		segments = append(appendUnsigned(segments, uint64(stop-at)), memory[at:stop]...)
		at = stop
	}
}
