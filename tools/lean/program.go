package main

import "bytes"

// program is what of a module is rewritten.
type program struct {
	types     []byte // in the section's form
	names     map[uint64]string
	imported  uint64 // functions, which have the first numbers
	functions []uint64
	bodies    [][]byte
	memory    []byte
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
		case functions:
			for n := r.unsigned(); n > 0 && !r.failed; n-- {
				p.functions = append(p.functions, r.unsigned())
			}
		case code:
			for n := r.unsigned(); n > 0 && !r.failed; n-- {
				p.bodies = append(p.bodies, r.take(r.unsigned()))
			}
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
	case data:
		body = store(p.memory)
	default:
		return nil, false
	}
	return body, true
}

// add puts a function at the end, where it disturbs no other's number, and tells its own. It is called with an i64 and
// answers with an i32.
func (p *program) add(body function) int64 {
	kind := []byte{0x60, 1, i64, 1, i32}
	r := reader{rest: p.types}
	count := r.unsigned()
	if !bytes.HasSuffix(r.rest, kind) {
		count++
		p.types = append(append(appendUnsigned(nil, count), r.rest...), kind...)
	}
	p.functions = append(p.functions, count-1)
	p.bodies = append(p.bodies, body.bytes())
	return int64(p.imported) + int64(len(p.bodies)-1)
}
