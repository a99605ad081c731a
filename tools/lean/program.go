package main

import (
	"bytes"
	"errors"
	"slices"
)

var errAgain = errors.New("this module is lean already: build it anew")

// program is what of a module is rewritten.
type program struct {
	types      []byte // in the section's form
	names      map[uint64]string
	imported   uint64 // functions, which have the first numbers
	functions  []uint64
	bodies     [][]byte
	exported   []uint64        // functions
	abandoned  map[uint64]bool // by row of their table
	traps      map[int64]bool  // functions that end the program
	renumbered map[uint64]renumbered
	memory     []byte
	first      uint64 // the function to start with, 0 if none
}

func (p *program) read(sections []section) error {
	for _, s := range sections {
		r := reader{rest: s.body}
		switch s.id {
		case custom:
			if found := namesIn(s.body); found != nil {
				p.names = found
			}
		case types:
			p.types = s.body
		case imports:
			p.imported = countImported(s.body)
		case exports:
			for n := r.unsigned(); n > 0 && !r.failed; n-- {
				r.take(r.unsigned()) // the name
				kind, number := r.byte(), r.unsigned()
				if kind == 0 {
					p.exported = append(p.exported, number)
				}
			}
		case functions:
			for n := r.unsigned(); n > 0 && !r.failed; n-- {
				p.functions = append(p.functions, r.unsigned())
			}
		case code:
			for n := r.unsigned(); n > 0 && !r.failed; n-- {
				p.bodies = append(p.bodies, r.take(r.unsigned()))
			}
		case start: // Go's linker writes none
			return errAgain
		case data:
			memory, err := load(s.body)
			if err != nil {
				return err
			}
			p.memory = memory
		}
		if r.failed {
			return errFormat
		}
	}
	if len(p.bodies) != len(p.functions) {
		return errFormat
	}
	return nil
}

// section is the program's own of this kind, if it has one.
func (p *program) section(id byte) (body []byte, ok bool) {
	switch id {
	case types:
		return p.types, true
	case functions:
		body = appendUnsigned(nil, uint64(len(p.functions)))
		for _, kind := range p.functions {
			body = appendUnsigned(body, kind)
		}
	case code:
		body = appendUnsigned(nil, uint64(len(p.bodies)))
		for _, b := range p.bodies {
			body = append(appendUnsigned(body, uint64(len(b))), b...)
		}
	case start:
		return appendUnsigned(nil, p.first), p.first > 0
	case data:
		body = store(p.memory)
	default:
		return nil, false
	}
	return body, true
}

// The types of the functions that are put in, in the section's form.
var (
	addressToState = []byte{0x60, 1, i64, 1, i32}
	nothing        = []byte{0x60, 0, 0}
)

// add puts a function at the end, where it disturbs no other's number, and tells its own.
func (p *program) add(kind []byte, body function) uint64 {
	p.functions = append(p.functions, p.kind(kind))
	p.bodies = append(p.bodies, body.bytes())
	return p.imported + uint64(len(p.bodies)-1)
}

// kind is the number of a type, which is put in if it is not there.
func (p *program) kind(kind []byte) uint64 {
	r := reader{rest: p.types}
	count := r.unsigned()
	all := r.rest
	for i := range count {
		from := r.rest
		r.byte()
		r.take(r.unsigned()) // what it takes, a byte each,
		r.take(r.unsigned()) // and what it answers
		if !r.failed && bytes.Equal(from[:len(from)-len(r.rest)], kind) {
			return i
		}
	}
	p.types = slices.Concat(appendUnsigned(nil, count+1), all, kind)
	return count
}

// start puts in a function that runs when the module has been loaded, before any other.
func (p *program) start(body function) { p.first = p.add(nothing, body) }
