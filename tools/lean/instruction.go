package main

import "slices"

// The instructions that are looked at here, by their opcode (W3C WebAssembly Core, chapter 5.4).
const (
	opUnreachable  = 0x00
	opNop          = 0x01
	opBlock        = 0x02
	opLoop         = 0x03
	opIf           = 0x04
	opElse         = 0x05
	opEnd          = 0x0b
	opBr           = 0x0c
	opBrIf         = 0x0d
	opBrTable      = 0x0e
	opReturn       = 0x0f
	opCall         = 0x10
	opCallIndirect = 0x11
	opDrop         = 0x1a
	opSelect       = 0x1b
	opLocalGet     = 0x20
	opLocalSet     = 0x21
	opLocalTee     = 0x22
	opGlobalGet    = 0x23
	opGlobalSet    = 0x24
	opLoad         = 0x28 // the first that loads,
	opI32Load      = 0x28
	opStore        = 0x36 // the first that stores,
	opI64Store     = 0x37
	opMemorySize   = 0x3f // and the first after them
	opMemoryGrow   = 0x40
	opI32Const     = 0x41
	opI64Const     = 0x42
	opF32Const     = 0x43
	opF64Const     = 0x44
	opCompare      = 0x45 // the first that compares
	opI32Eqz       = 0x45
	opI64Eqz       = 0x50
	opUnary        = 0x67 // the first that counts
	opI32Add       = 0x6a
	opI32Sub       = 0x6b
	opI64Add       = 0x7c
	opI64Or        = 0x84
	opI32Wrap      = 0xa7
	opI64ExtendU   = 0xad
	opLast         = 0xc4
	opMore         = 0xfc // by a second number:
	moreCopy       = 10
	moreFill       = 11

	noResult = -0x40 // a block's type
	i32, i64 = 0x7f, 0x7e
)

// instruction is one of a function's body. What number is for: the label of a branch, the function of a call, the
// local or global, the constant, the offset of a load or store; hint is its alignment.
type instruction struct {
	op     byte
	number int64
	hint   uint64
	float  []byte   // of a constant
	labels []uint64 // of a table
}

// function is a body in parts: its locals' declaration, and the instructions, the last of which is its end.
type function struct {
	locals []locals
	code   []instruction
}

type locals struct {
	count uint64
	kind  byte
}

func (r *reader) function() (f function) {
	for n := r.unsigned(); n > 0 && !r.failed; n-- {
		f.locals = append(f.locals, locals{r.unsigned(), r.byte()})
	}
	for len(r.rest) > 0 && !r.failed {
		f.code = append(f.code, r.instruction())
	}
	return f
}

func (r *reader) instruction() instruction {
	i := instruction{op: r.byte()}
	switch op := i.op; {
	case op == opBlock || op == opLoop || op == opIf || op == opI32Const || op == opI64Const:
		i.number = r.signed()
	case op == opBr || op == opBrIf || op == opCall || op >= opLocalGet && op <= opGlobalSet || op == opMemorySize || op == opMemoryGrow:
		i.number = int64(r.unsigned())
	case op == opCallIndirect:
		i.number, i.hint = int64(r.unsigned()), r.unsigned()
	case op >= opLoad && op < opMemorySize:
		i.hint, i.number = r.unsigned(), int64(r.unsigned())
	case op == opBrTable:
		for n := r.unsigned() + 1; n > 0 && !r.failed; n-- {
			i.labels = append(i.labels, r.unsigned())
		}
	case op == opF32Const:
		i.float = r.take(4)
	case op == opF64Const:
		i.float = r.take(8)
	case op == opMore:
		switch i.number = int64(r.unsigned()); {
		case i.number == moreCopy:
			r.failed = r.failed || r.byte() != 0 || r.byte() != 0
		case i.number == moreFill:
			r.failed = r.failed || r.byte() != 0
		case i.number > 7: // those before are conversions
			r.failed = true
		}
	case op <= opNop || op == opElse || op == opEnd || op == opReturn || op == opDrop || op == opSelect || op >= opCompare && op <= opLast:
	default:
		r.failed = true
	}
	return i
}

func (f function) bytes() []byte {
	out := appendUnsigned(nil, uint64(len(f.locals)))
	for _, l := range f.locals {
		out = append(appendUnsigned(out, l.count), l.kind)
	}
	for _, i := range f.code {
		out = i.append(out)
	}
	return out
}

func (i instruction) append(out []byte) []byte {
	out = append(out, i.op)
	switch op := i.op; {
	case op == opBlock || op == opLoop || op == opIf || op == opI32Const || op == opI64Const:
		return appendSigned(out, i.number)
	case op == opBr || op == opBrIf || op == opCall || op >= opLocalGet && op <= opGlobalSet || op == opMemorySize || op == opMemoryGrow:
		return appendUnsigned(out, uint64(i.number))
	case op == opCallIndirect:
		return appendUnsigned(appendUnsigned(out, uint64(i.number)), i.hint)
	case op >= opLoad && op < opMemorySize:
		return appendUnsigned(appendUnsigned(out, i.hint), uint64(i.number))
	case op == opBrTable:
		out = appendUnsigned(out, uint64(len(i.labels)-1))
		for _, label := range i.labels {
			out = appendUnsigned(out, label)
		}
	case op == opF32Const || op == opF64Const:
		return append(out, i.float...)
	case op == opMore:
		out = append(out, byte(i.number))
		if i.number >= moreFill-1 {
			out = append(out, make([]byte, moreFill+1-i.number)...)
		}
	}
	return out
}

// effect is how many values an instruction takes off the stack and puts there, both -1 if that is not a matter of its
// opcode.
func (i instruction) effect() (takes, puts int) {
	switch op := i.op; {
	case op == opNop:
		return 0, 0
	case op == opLocalGet || op == opGlobalGet || op == opMemorySize || op >= opI32Const && op <= opF64Const:
		return 0, 1
	case op == opLocalSet || op == opGlobalSet || op == opDrop:
		return 1, 0
	case op >= opStore && op < opMemorySize:
		return 2, 0
	case op == opSelect:
		return 3, 1
	case op == opLocalTee || op >= opLoad && op < opStore || op == opMemoryGrow || op == opI32Eqz || op == opI64Eqz || unary(op):
		return 1, 1
	case op >= opCompare && op <= opLast:
		return 2, 1
	case op == opMore && i.number >= moreCopy:
		return 3, 0
	case op == opMore:
		return 1, 1
	}
	return -1, -1
}

// unary tells the operations on one number from those on two: counts of bits, functions of floats, conversions.
func unary(op byte) bool {
	return op >= opUnary && op < opI32Add || op >= 0x79 && op < opI64Add || op >= 0x8b && op < 0x92 || op >= 0x99 && op < 0xa0 ||
		op >= opI32Wrap && op <= opLast
}

// at says whether these opcodes stand at the place.
func at(code []instruction, place int, ops ...byte) bool {
	return place+len(ops) <= len(code) && slices.EqualFunc(code[place:place+len(ops)], ops, func(i instruction, op byte) bool { return i.op == op })
}
