package main

import "encoding/binary"

// What the runtime needs of a function's tables and data to run (internal/abi/symtab.go): which map of its pointers
// holds at which place; the maps of arguments and locals, objects on the stack, and where its deferred calls are noted.
// The rest is for stopping it anywhere, which is not done in WebAssembly, and for printing stacks.
const (
	valuesOfMaps = 1

	dataArguments = 0
	dataLocals    = 1
	dataObjects   = 2
	dataDefers    = 4
)

// blank zeroes the names, files and line numbers in a Go program's memory, and leaves what the runtime needs to
// run: stack sizes and maps of pointers.
func blank(p *program) error {
	t, err := tableIn(p.memory)
	if err != nil {
		return err
	}
	values := kept{from: t.bytes[t.values:t.rows], to: make([]byte, t.rows-t.values)}
	data := kept{from: t.bytes[t.data:t.buckets], to: make([]byte, t.buckets-t.data)}
	for row := range t.functions {
		at := t.record(row)
		gone := p.abandoned[row]
		if gone {
			t.put(at+funcStack, 0)
		}
		place := func(i uint64) []byte { return t.bytes[at+funcSize+4*i:][:4] }
		values.table(t.half(at + funcStack))
		tables := t.half(at + funcValues)
		for i := range tables {
			if gone || i != valuesOfMaps {
				clear(place(i)) // there is none
			}
			values.table(uint64(binary.LittleEndian.Uint32(place(i))))
		}
		for i := range uint64(t.bytes[at+funcData]) {
			piece := place(tables + i)
			from := uint64(binary.LittleEndian.Uint32(piece))
			if from == noData {
				continue
			}
			if gone {
				i = noData
			}
			switch i {
			case dataArguments, dataLocals:
				data.maps(from)
			case dataObjects:
				data.objects(from)
			case dataDefers:
				data.numbers(from, 2)
			default:
				binary.LittleEndian.PutUint32(piece, noData)
			}
		}
		for _, field := range []uint64{funcName, funcFile, funcLine, funcUnit, funcStartLine} {
			clear(t.bytes[at+field:][:4])
		}
	}
	if values.failed || data.failed {
		return errTable
	}
	clear(t.bytes[t.names:t.values])
	copy(values.from, values.to)
	copy(data.from, data.to)
	return nil
}

// kept copies what is still asked for to where it was.
type kept struct {
	from, to []byte
	failed   bool
}

func (k *kept) copy(from, length uint64) {
	if from > uint64(len(k.from)) || length > uint64(len(k.from))-from {
		k.failed = true
		return
	}
	copy(k.to[from:], k.from[from:from+length])
}

// word is the number of so many bytes at the place.
func (k *kept) word(from, bytes uint64) (v uint64) {
	if from+bytes > uint64(len(k.from)) {
		k.failed = true
		return 0
	}
	for i := range bytes {
		v |= uint64(k.from[from+i]) << (8 * i)
	}
	return v
}

// table keeps a table of values: pairs of numbers, until a first number of a pair, but the very first, is zero. There is
// none at 0.
func (k *kept) table(from uint64) {
	if from == 0 || k.failed {
		return
	}
	r := reader{rest: k.from[min(from, uint64(len(k.from))):]}
	for first := true; (r.unsigned() != 0 || first) && !r.failed; first = false {
		r.unsigned()
	}
	k.failed = r.failed
	k.copy(from, uint64(len(k.from)-len(r.rest))-from)
}

// maps keeps maps of pointers: how many there are, of how many bits each, and they.
func (k *kept) maps(from uint64) {
	k.copy(from, 8+k.word(from, 4)*((k.word(from+4, 4)+7)/8))
}

// objects keeps a list of objects: how many, and 16 bytes of each.
func (k *kept) objects(from uint64) { k.copy(from, 8+16*k.word(from, 8)) }

// numbers keeps so many of variable length.
func (k *kept) numbers(from uint64, count int) {
	r := reader{rest: k.from[min(from, uint64(len(k.from))):]}
	for range count {
		r.unsigned()
	}
	k.failed = k.failed || r.failed
	k.copy(from, uint64(len(k.from)-len(r.rest))-from)
}
