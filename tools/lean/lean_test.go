package main

import (
	"bytes"
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
		"runtime.traceLockInit": false, "runtime.tracebackPCs": false, "runtime.printlock": false, "runtime.gopanic": false,
		"runtime.__unwinder_.next": false, "runtime.mProf_Malloc": false, "wirewake_calc_towline.traceback": false,
		"runtime.traceLocker.GoCreate": true, "runtime.traceLocker.eventWriter": true, "runtime.__traceMap_.put": true,
		"runtime.traceAdvance.func1": true, "runtime.schedtrace": true, "runtime.printpanics": true, "runtime.traceback2": true,
	} {
		if idle.MatchString(name) != want {
			t.Errorf("%s: idle? %v", name, !want)
		}
	}
}

// A table of one function with two tables of values, of which the second is of line numbers.
func TestNamesAndLinesGoAndStackSizesStay(t *testing.T) {
	const namesAt, valuesAt, rowsAt = headSize, headSize + 8, headSize + 16
	memory := make([]byte, rowsAt+16+funcSize)
	put := func(at int, v byte) { memory[at] = v }
	copy(memory, mark)
	put(headFunctions, 1)
	put(headNames, namesAt)
	put(headValues, valuesAt)
	put(headTable, rowsAt)
	copy(memory[namesAt:], "\x00main.f\x00")
	copy(memory[valuesAt:], []byte{0, 16, 1, 0, 9, 1, 0, 0})
	put(rowsAt+4, 16) // the function's record, from the table of functions
	record := rowsAt + 16
	put(record+funcName, 1)
	put(record+funcStack, 1)
	put(record+funcLine, 4)
	put(record+funcStartLine, 77)
	if err := blank(&program{memory: memory}); err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(memory, []byte("main")) {
		t.Error("the name is still there")
	}
	if got := memory[valuesAt:rowsAt]; !bytes.Equal(got, []byte{0, 16, 1, 0, 0, 0, 0, 0}) {
		t.Errorf("tables of values are %v", got)
	}
	if got := memory[record:][:funcSize]; got[funcStack] != 1 || got[funcName]|got[funcLine]|got[funcStartLine] != 0 {
		t.Errorf("the function's record is %v", got)
	}
}
