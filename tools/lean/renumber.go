package main

import "slices"

// renumbered is a function whose blocks have new numbers, with its tables of values by block.
type renumbered struct {
	frame, maps []byte
	deferred    uint64 // the block with its deferred calls, 0 if none
}

// renumber gives the blocks of a function numbers in the order in which they stand: 0, then 2, 3, … since 1 is for what
// comes after the first has taken the function's frame. Go's compiler also counts places within blocks, which only its
// tables of lines tell apart; without those all functions begin with the same table of blocks, and have smaller numbers.
// A function whose tables cannot be told so stays as it is.
func renumber(code []instruction, row uint64, t table) (out []instruction, r renumbered, ok bool) {
	place := slices.IndexFunc(code, func(i instruction) bool { return i.op == opBrTable })
	if place < 0 {
		return code, r, false
	}
	labels := code[place].labels
	last := int64(labels[len(labels)-1])
	number := func(label int64) int64 {
		if label == 0 {
			return 0
		}
		return label + 1
	}
	begins := func(block int64) bool {
		return block > 0 && block < int64(len(labels)) && labels[block-1] < labels[block]
	}
	record := t.record(row)
	frames, maps := pieces{}, pieces{}
	frameAt, mapAt := t.half(record+funcStack), t.table(record, valuesOfMaps)
	mapOf := func(block int64) int64 { return max(0, t.value(mapAt, block)) } // the runtime takes none for the first
	ok = true
	// The frame is asked for where a call returns to, the map just before; where deferred calls are, both there.
	keep := func(block, before int64) (to int64) {
		if !begins(block) {
			ok = false
			return 0
		}
		to = number(int64(labels[block]))
		ok = ok && frames.set(to, t.value(frameAt, block)) && maps.set(to-before, mapOf(block-before))
		return to
	}
	for block := range int64(2) {
		frames.set(block, t.value(frameAt, block))
	}
	maps.set(0, mapOf(0))
	out = slices.Clone(code)
	for k := range out {
		switch {
		case at(out, k, opLocalGet, opI64Const, opI64Or, opI64Store) && out[k].number == localBase:
			out[k+1].number = keep(out[k+1].number, 1)
		case at(out, k, opI32Const, opLocalSet, opBr) && out[k+1].number == localBlock:
			out[k].number = number(int64(labels[min(int(out[k].number), len(labels)-1)]))
		}
	}
	if block := int64(t.half(record + funcDefer)); block != 0 {
		r.deferred = uint64(keep(block, 0))
	}
	if !ok {
		return code, r, false
	}
	order := []uint64{0}
	for label := range last + 1 {
		order = append(order, uint64(label))
	}
	out[place].labels = order
	r.frame = frames.table(last + 1)
	if mapAt != 0 {
		r.maps = maps.table(last + 1)
	}
	return out, r, true
}

// pieces is values by block, of which some are given.
type pieces map[int64]int64

// set gives one, and says whether it agrees with what is given already.
func (p pieces) set(block, value int64) bool {
	given, ok := p[block]
	p[block] = value
	return !ok || given == value
}

// table writes them as the runtime reads them, up to the last block; those not given are as the one before.
func (p pieces) table(last int64) (out []byte) {
	value, from := int64(-1), int64(0)
	for block := from; block <= last; block++ {
		next := p[from]
		if given, ok := p[block+1]; block < last && (!ok || given == next) {
			continue
		}
		step := next - value
		out = appendUnsigned(out, uint64(step<<1)^uint64(step>>63))
		out = appendUnsigned(out, uint64(block+1-from))
		value, from = next, block+1
	}
	return append(out, 0)
}

// repack puts the tables of values by block side by side, each once.
func repack(p *program) error {
	t, err := tableIn(p.memory)
	if err != nil {
		return err
	}
	old := append([]byte{}, t.bytes[t.values:t.rows]...)
	packed := []byte{0} // nothing is at 0
	places := map[string]uint64{}
	place := func(table []byte) uint64 {
		if len(table) == 0 {
			return 0
		}
		if _, ok := places[string(table)]; !ok {
			places[string(table)] = uint64(len(packed))
			packed = append(packed, table...)
		}
		return places[string(table)]
	}
	for row := range t.functions {
		record := t.record(row)
		frame, maps := tableAt(old, t.half(record+funcStack)), tableAt(old, t.table(record, valuesOfMaps))
		if r, ok := p.renumbered[row]; ok {
			frame, maps = r.frame, r.maps
			t.put(record+funcDefer, r.deferred)
		}
		t.put(record+funcStack, place(frame))
		if t.half(record+funcValues) > valuesOfMaps {
			t.put(record+funcSize+4*valuesOfMaps, place(maps))
		}
	}
	if len(packed) > len(old) {
		return errTable
	}
	clear(t.bytes[t.values:t.rows])
	copy(t.bytes[t.values:], packed)
	return nil
}

// tableAt is the table of values that begins there, none at 0.
func tableAt(values []byte, from uint64) []byte {
	if from == 0 {
		return nil
	}
	r := reader{rest: values[from:]}
	for first := true; (r.unsigned() != 0 || first) && !r.failed; first = false {
		r.unsigned()
	}
	return values[from : uint64(len(values))-uint64(len(r.rest))]
}
