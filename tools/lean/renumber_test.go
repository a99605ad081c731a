package main

import (
	"bytes"
	"encoding/binary"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

// A whole module as Go's linker writes it: at every address that a call returns to, and where deferred calls are, the
// function goes on in the same block, with the same frame and the same map of its pointers, whatever the block is called.
func TestBlocksKeepWhatTheRuntimeAsksOfThem(t *testing.T) {
	path := filepath.Join(t.TempDir(), "module.wasm")
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-w", "-o", path, "wirewake/calc/wasm/testdata/recover")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOEXPERIMENT=nogreenteagc")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	module, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	after := func(steps ...func(*program) error) (p program, tab table) {
		sections, err := split(bytes.Clone(module))
		if err == nil {
			err = p.read(sections)
		}
		for _, step := range append([]func(*program) error{quiet}, steps...) {
			if err == nil {
				err = step(&p)
			}
		}
		if err == nil {
			tab, err = tableIn(p.memory)
		}
		if err != nil {
			t.Fatal(err)
		}
		return p, tab
	}
	was, wasTable := after()
	is, isTable := after(compact, abandon, blank, repack)
	if len(is.renumbered) < 1000 {
		t.Errorf("only %d functions have new numbers", len(is.renumbered))
	}
	calls := 0
	for i := range is.renumbered {
		name := was.names[was.imported+i]
		now := functionOf(is.bodies[i])
		body, _ := cut(shortenAddresses(functionOf(was.bodies[i]).code), was.traps)
		var old, blocks []int64
		for k := range body {
			block, ok := pushes(body, k, addressOf(int(i)))
			if _, rescued := rescuers[was.names[uint64(body[min(k+len(push)+1, len(body)-1)].number)]]; ok && !rescued {
				old = append(old, block)
			}
		}
		for k := range now.code {
			if at(now.code, k, opLocalGet, opI64Const, opI64Or, opI64Store) && now.code[k].number == localBase {
				blocks = append(blocks, now.code[k+1].number)
			}
		}
		if len(old) != len(blocks) {
			t.Errorf("%s: %d calls, were %d", name, len(blocks), len(old))
			continue
		}
		oldRecord, record := wasTable.record(i), isTable.record(i)
		check := func(what string, a, b, before int64) {
			if labelOf(now.code, b) != labelOf(body, a) {
				t.Errorf("%s: %s %d leads elsewhere than %d", name, what, b, a)
			}
			if isTable.frame(i, b) != wasTable.frame(i, a) {
				t.Errorf("%s: %s %d has another frame than %d", name, what, b, a)
			}
			from, to := wasTable.table(oldRecord, valuesOfMaps), isTable.table(record, valuesOfMaps)
			if (from == 0) != (to == 0) || from != 0 && max(0, wasTable.value(from, a-before)) != isTable.value(to, b-before) {
				t.Errorf("%s: %s %d has another map than %d", name, what, b, a)
			}
		}
		for k := range old {
			check("call", old[k], blocks[k], 1)
		}
		calls += len(old)
		check("entry", 0, 0, 0)
		if a := wasTable.half(oldRecord + funcDefer); a != 0 {
			check("defer", int64(a), int64(isTable.half(record+funcDefer)), 0)
		}
		if isTable.frame(i, 1) != wasTable.frame(i, 1) {
			t.Errorf("%s: another frame where it has been taken", name)
		}
	}
	if calls < 4000 {
		t.Errorf("only %d calls were looked at", calls)
	}
}

func functionOf(body []byte) function {
	r := reader{rest: body}
	return r.function()
}

// labelOf is where a function begins with the block.
func labelOf(code []instruction, block int64) uint64 {
	k := slices.IndexFunc(code, func(i instruction) bool { return i.op == opBrTable })
	return code[k].labels[min(int(block), len(code[k].labels)-1)]
}

// Values as by hand from the runtime's reader (runtime/symtab.go: step): differences from -1 on, each with how many
// blocks it holds for.
func TestValuesAreWrittenByBlock(t *testing.T) {
	for _, c := range []struct {
		values pieces
		last   int64
		want   []byte
	}{
		{pieces{0: 0}, 0, []byte{2, 1, 0}},
		{pieces{0: 0, 1: 16}, 3, []byte{2, 1, 32, 3, 0}},
		{pieces{0: 3, 2: 3, 4: 1, 5: -1}, 5, []byte{8, 4, 3, 1, 3, 1, 0}},
	} {
		if got := c.values.table(c.last); !bytes.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.values, got, c.want)
		}
	}
}

// A function of two calls: the second block is gone on with after the first, the third after the second.
func calling(blocks ...uint64) []instruction {
	return listing(op(opBrTable), []uint64{0, 0, 1, 1, 2, 2},
		op(opLocalGet), localBase, op(opI64Const), int(blocks[0]), op(opI64Or), op(opI64Store),
		op(opI32Const), int(blocks[1]), op(opLocalSet), localBlock, op(opBr), 1, op(opEnd))
}

// valued is a table for one function with these values of frame and map by block.
func valued(frame, maps []byte) (tab table) {
	memory := make([]byte, 200)
	tab = table{bytes: memory, functions: 1, values: 8, rows: 60, size: 200}
	copy(memory[9:], frame)
	copy(memory[30:], maps)
	tab.put(tab.rows+4, 16)
	record := tab.record(0)
	tab.put(record+funcStack, 1)
	tab.put(record+funcValues, 2)
	tab.put(record+funcSize+4, 22)
	return tab
}

func TestBlocksAreNumberedAsTheyStand(t *testing.T) {
	frame, maps := []byte{2, 1, 32, 9, 0}, []byte{2, 3, 2, 9, 0}
	code, r, ok := renumber(calling(4, 2), 0, valued(frame, maps))
	if !ok {
		t.Fatal("it is left as it is")
	}
	want := calling(3, 2)
	want[0].labels = []uint64{0, 0, 1, 2}
	same(t, "blocks", code, want)
	// Block 3 is what was 4: its frame is 16, and the map before it is 1.
	if !bytes.Equal(r.frame, []byte{2, 1, 32, 3, 0}) || !bytes.Equal(r.maps, []byte{2, 2, 2, 2, 0}) {
		t.Errorf("frames %v, maps %v", r.frame, r.maps)
	}
	// A call that returns into the midst of a block has no number of its own.
	if _, _, ok := renumber(calling(3, 2), 0, valued(frame, maps)); ok {
		t.Error("the midst of a block is numbered")
	}
	if _, _, ok := renumber(listing(op(opEnd)), 0, valued(frame, maps)); ok {
		t.Error("a function without blocks is numbered")
	}
	// Deferred calls begin a block, and ask for the map there: here it is not that before the call that follows.
	other := valued(frame, maps)
	other.put(other.record(0)+funcDefer, 2)
	if _, _, ok := renumber(calling(4, 2), 0, other); ok {
		t.Error("two maps at one block")
	}
}

func TestEqualTablesAreKeptOnce(t *testing.T) {
	memory, tab := image()
	first, second := tab.record(0), tab.record(1)
	frame := []byte{2, 1, 32, 2, 0}
	p := program{memory: memory, renumbered: map[uint64]renumbered{0: {frame, []byte{4, 1, 0}, 5}, 1: {frame, nil, 0}}}
	if err := repack(&p); err != nil {
		t.Fatal(err)
	}
	if got := tab.bytes[tab.values:tab.rows]; !bytes.Equal(got[:9], append(append([]byte{0}, frame...), 4, 1, 0)) || !bytes.Equal(got[9:], make([]byte, len(got)-9)) {
		t.Errorf("values are %v", got)
	}
	if a, b, m, d := tab.half(first+funcStack), tab.half(second+funcStack), tab.table(first, valuesOfMaps), tab.half(first+funcDefer); a != 1 || b != 1 || m != 6 || d != 5 {
		t.Errorf("frames at %d and %d, maps at %d, deferred calls in %d", a, b, m, d)
	}
	// Too much for the room that there was.
	memory, _ = image()
	p = program{memory: memory, renumbered: map[uint64]renumbered{0: {bytes.Repeat([]byte{2, 1}, 50), nil, 0}}}
	if err := repack(&p); err == nil {
		t.Error("more than fits is written")
	}
}

// Five functions: 0 is exported and calls 1; 2 is in memory, 3 among the types, 4 is called by nobody but itself.
func TestWhatNothingLeadsToIsAbandoned(t *testing.T) {
	memory, tab := image()
	binary.LittleEndian.PutUint64(memory, uint64(addressOf(2)))
	binary.LittleEndian.PutUint32(memory[12:], firstFunction+3)
	tab.put(tab.rows+rowSize, firstFunction+4) // the table itself leads nowhere
	body := func(code ...any) []byte { return function{nil, listing(append(code, op(opEnd))...)}.bytes() }
	const imported = 7
	address := body(op(opI64Const), int(addressOf(4)), op(opDrop))
	p := program{memory: memory, imported: imported, exported: []uint64{imported}, bodies: [][]byte{
		body(op(opCall), imported+1), body(op(opCall), 3), body(), body(), body(op(opCall), imported+4),
	}}
	if err := abandon(&p); err != nil || len(p.abandoned) != 1 || !p.abandoned[4] || !bytes.Equal(p.bodies[4], trap) {
		t.Errorf("%v is abandoned, %v", p.abandoned, err)
	}
	// By its address in one that is reached.
	p.bodies[1], p.bodies[4] = address, body()
	if err := abandon(&p); err != nil || len(p.abandoned) != 0 {
		t.Errorf("%v is abandoned, %v", p.abandoned, err)
	}
}
