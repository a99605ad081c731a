package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"testing"
)

// A module of one data section, as written by hand from the W3C's binary format.
func module(segments ...[]byte) []byte {
	body := append([]byte{byte(len(segments))}, bytes.Join(segments, nil)...)
	return append([]byte(preamble+"\x00\x03\x01nn\x01\x01\x00\x0a\x01\x00\x0b"), append([]byte{byte(len(body))}, body...)...)
}

func segment(offset byte, bytes ...byte) []byte {
	return append([]byte{0, constant, offset, end, byte(len(bytes))}, bytes...)
}

func TestMemoryStaysAsItWas(t *testing.T) {
	for _, memory := range [][]byte{
		{},
		{1},
		{0, 0, 7, 0, 0, 0, 0, 9},
		append(append([]byte{3}, make([]byte, gap-1)...), 4),
		append(append([]byte{3}, make([]byte, gap)...), 4),
		append(append(make([]byte, 200), 5), append(make([]byte, 40_000), 6, 7)...),
	} {
		again, err := load(store(memory))
		if err != nil || !bytes.Equal(again, memory) {
			t.Errorf("%d bytes come back as %d bytes, %v", len(memory), len(again), err)
		}
	}
}

func TestShortRunsOfZeroesMakeNoSegment(t *testing.T) {
	short := store(append(append([]byte{3}, make([]byte, gap-1)...), 4))
	long := store(append(append([]byte{3}, make([]byte, gap)...), 4))
	if short[0] != 1 || long[0] != 2 {
		t.Errorf("%d segments for a short run of zeroes, %d for a long one", short[0], long[0])
	}
}

func TestWhatIsNoSuchModuleIsRefused(t *testing.T) {
	good := module(segment(8, 1, 2, 3))
	for name, c := range map[string]struct {
		module []byte
		want   error
	}{
		"empty":    {nil, errFormat},
		"other":    {[]byte("\x7fELF\x02\x01\x01\x00"), errFormat},
		"cut":      {good[:len(good)-1], errFormat},
		"no names": {good, errNames},
	} {
		if _, err := lean(c.module); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
}

func TestMemoryBeforeZeroIsRefused(t *testing.T) {
	if _, err := load(append([]byte{1}, segment(0x7f, 1)...)); !errors.Is(err, errFormat) {
		t.Errorf("%v", err)
	}
}

func TestOtherTablesAreRefused(t *testing.T) {
	for name, memory := range map[string][]byte{
		"none": {1, 2, 3},
		"two":  append(append(make([]byte, 8), mark...), append(make([]byte, 200), mark...)...),
		"cut":  mark,
	} {
		if err := blank(&program{memory: memory}); !errors.Is(err, errTable) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What asks whether the tracer is on, and what unwinds stacks for the runtime itself, must stay.
func TestWhatIsCalledStays(t *testing.T) {
	for name, want := range map[string]bool{
		"runtime.traceLocker.ok": false, "runtime.traceEnabled": false, "runtime.traceAcquire": false, "runtime.traceRelease": false,
		"runtime.traceLockInit": false, "runtime.tracebackPCs": false, "runtime.gopanic": false, "runtime.goPanicIndex": false, "runtime.sigpanic": false,
		"runtime.__unwinder_.next": false, "runtime.mProf_Malloc": false, "wirewake_calc_towline.traceback": false,
		"runtime.traceLocker.GoCreate": true, "runtime.traceLocker.eventWriter": true, "runtime.__traceMap_.put": true,
		"runtime.traceAdvance.func1": true, "runtime.schedtrace": true, "runtime.printpanics": true, "runtime.traceback2": true,
		"runtime.throw": true, "runtime.fatalpanic": true, "runtime.printlock": true, "runtime.printuint": true,
	} {
		if idle.MatchString(name) != want {
			t.Errorf("%s: idle? %v", name, !want)
		}
	}
}

// image is the memory of a program of two functions, as by hand from runtime/symtab.go: the first has its frame's sizes
// at 1, maps by place at 4 and another table of values at 7, and pieces of data of each kind; the second has nothing.
func image() (memory []byte, t table) {
	t = table{functions: 2, names: headSize, values: headSize + 8, rows: headSize + 8 + 16}
	first := t.rows + 3*rowSize
	second := first + funcSize + 4*(3+6)
	t.data = (second + funcSize + 7) / 8 * 8
	t.buckets = t.data + 64
	t.size = t.buckets + bucketSize*(bucketsEach+1)
	t.start = 32
	memory = make([]byte, t.start+t.size+8+selfSize)
	t.bytes = memory[t.start:]
	half := func(at, v uint64) { binary.LittleEndian.PutUint32(t.bytes[at:], uint32(v)) }
	copy(t.bytes, mark)
	half(headFunctions, t.functions)
	half(headNames, t.names)
	half(headValues, t.values)
	half(headTable, t.rows)
	copy(t.bytes[t.names:], "\x00main.f\x00")
	copy(t.bytes[t.values:], []byte{0, 2, 2, 0, 4, 1, 0, 6, 1, 0})
	for i, at := range []uint64{first, second} {
		half(t.rows+rowSize*uint64(i), firstFunction+uint64(i))
		half(t.rows+rowSize*uint64(i)+4, at-t.rows)
		half(at, firstFunction+uint64(i))
		half(at+funcName, 1)
		half(at+funcFile, 7)
		half(at+funcLine, 7)
		half(at+funcStartLine, 77)
	}
	half(first+funcStack, 1)
	half(first+funcValues, 3)
	t.bytes[first+funcData] = 6
	for i, from := range []uint64{7, 4, 7, 0, 10, 20, 44, 46, 44} {
		half(first+funcSize+4*uint64(i), from)
	}
	copy(t.bytes[t.data:], []byte{
		0: 1, 4: 9, 8: 0xaa, 9: 0x01, // one map of nine bits
		10: 2, 14: 1, 18: 1, 19: 1, // two maps of one bit
		20: 1, 28: 5, 43: 6, // one object
		44: 9, 45: 9, // what is printed of arguments
		46: 0x80, 47: 1, 48: 3, 49: 0xff, // two numbers
	})
	for i := range uint64(bucketsEach + 1) {
		half(t.buckets+bucketSize*i, i/bucketsEach)
	}
	self := t.size + 8
	half(self, t.start)
	half(self+8, t.start+t.names)
	half(self+selfTypes, 8)
	half(self+selfTypesEnd, t.start)
	half(self+selfData, t.start+t.data)
	half(self+selfBuckets, t.start+t.buckets)
	return memory, t
}

func TestNamesAndLinesGoAndWhatTheRuntimeAsksForStays(t *testing.T) {
	memory, tab := image()
	before := bytes.Clone(tab.bytes)
	if err := blank(&program{memory: memory}); err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(memory, []byte("main")) {
		t.Error("the name is still there")
	}
	if got := tab.bytes[tab.values:][:10]; !bytes.Equal(got, []byte{0, 2, 2, 0, 4, 1, 0, 0, 0, 0}) {
		t.Errorf("tables of values are %v", got)
	}
	data := bytes.Clone(before[tab.data:tab.buckets])
	clear(data[44:46])
	clear(data[49:])
	if got := tab.bytes[tab.data:tab.buckets]; !bytes.Equal(got, data) {
		t.Errorf("data are\n%v, not\n%v", got, data)
	}
	record := tab.record(0)
	for _, field := range []uint64{funcName, funcFile, funcLine, funcStartLine} {
		if tab.half(record+field) != 0 {
			t.Errorf("field %d of the function's record is %d", field, tab.half(record+field))
		}
	}
	if tab.half(record+funcStack) != 1 {
		t.Error("its frame's sizes are lost")
	}
	for i, want := range []uint64{0, 4, 0, 0, 10, 20, noData, 46, noData} {
		if got := tab.half(record + funcSize + 4*uint64(i)); got != want {
			t.Errorf("table or piece %d is at %d, want %d", i, got, want)
		}
	}
}

func TestWhatLiesOutsideTheTablesIsRefused(t *testing.T) {
	for name, place := range map[string]uint64{"frame": funcStack, "values": funcSize + 4, "maps": funcSize + 12, "objects": funcSize + 20, "defers": funcSize + 28} {
		memory, tab := image()
		tab.bytes[tab.record(0)+place+2] = 1
		if err := blank(&program{memory: memory}); !errors.Is(err, errTable) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What the module writes when it starts is tried in Node with the whole program, in calc/wasm.
func TestWhatIsDerivedGoes(t *testing.T) {
	memory, tab := image()
	before := bytes.Clone(tab.bytes)
	p := program{memory: memory, types: []byte{0}, imported: 5}
	if err := derive(&p); err != nil {
		t.Fatal(err)
	}
	if p.first != 5 || len(p.bodies) != 1 {
		t.Errorf("%d functions are put in, %d is the first", len(p.bodies), p.first)
	}
	for i := range before {
		at := uint64(i)
		record := at >= tab.rows+3*rowSize && at < tab.data
		row := at >= tab.rows && at < tab.rows+2*rowSize
		bucket := at >= tab.buckets && at < tab.buckets+bucketsEach*bucketSize
		if now := tab.bytes[i]; now != before[i] && (now != 0 || !record && !row && !bucket) || row && now != 0 {
			t.Errorf("byte %d is %d, was %d", i, now, before[i])
		}
	}
	for name, place := range map[string]uint64{"row": tab.rows, "record": tab.rows + 4, "address": tab.rows + 3*rowSize, "bucket": tab.buckets + bucketSize} {
		memory, tab := image()
		tab.bytes[place]++
		if err := derive(&program{memory: memory}); !errors.Is(err, errTable) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
