package main

// The runtime looks for a function in a table that has a row for every 4096 bytes of the program (runtime/symtab.go:
// findfuncbucket). Here a function is 64 KB long, but for the last one, whose row is left as it is.
const (
	bucketSize  = 20
	bucketsEach = 16
)

// derive takes out of the tables what follows from the rest, and puts in a function that writes it when the module
// starts: that a function's address is its number, how far its record is from the one before, and where to look for it.
func derive(p *program) error {
	t, err := tableIn(p.memory)
	if err != nil {
		return err
	}
	buckets := bucketsEach * (t.functions - 1)
	if t.functions == 0 || t.buckets+bucketSize*buckets > t.size {
		return errTable
	}
	first := t.record(0)
	// All that is derived, and what it must be.
	var places, values []uint64
	derived := func(at, value uint64) { places, values = append(places, at), append(values, value) }
	record := first
	for i := range t.functions {
		derived(t.rows+rowSize*i, firstFunction+i)
		derived(t.rows+rowSize*i+4, record-t.rows)
		derived(record, firstFunction+i)
		if record = t.end(record); record > t.size-funcSize {
			return errTable
		}
	}
	for i := range buckets {
		derived(t.buckets+bucketSize*i, i/bucketsEach)
	}
	for i, at := range places {
		if t.half(at) != values[i] {
			return errTable
		}
	}
	for _, at := range places {
		clear(t.bytes[at:][:4])
	}
	p.start(derivation(t, first, buckets))
	return nil
}

// derivation is the function that writes it.
func derivation(t table, first, buckets uint64) function {
	const number, row, record, bucket = 0, 1, 2, 3
	const opI32Load8U, opI32LessU, opI32Mul, opI32And, opI32ShrU = 0x2d, 0x49, 0x6c, 0x71, 0x76
	get := func(local int64) instruction { return instruction{op: opLocalGet, number: local} }
	set := func(local int64) instruction { return instruction{op: opLocalSet, number: local} }
	tee := func(local int64) instruction { return instruction{op: opLocalTee, number: local} }
	constant := func(v uint64) instruction { return instruction{op: opI32Const, number: int64(int32(v))} }
	sum, product, less := instruction{op: opI32Add}, instruction{op: opI32Mul}, instruction{op: opI32LessU}
	loop, again, end := instruction{op: opLoop, number: noResult}, instruction{op: opBrIf}, instruction{op: opEnd}
	store := func(offset int64) instruction { return instruction{op: opStore, hint: 2, number: offset} }
	rows := t.start + t.rows
	return function{[]locals{{4, i32}}, []instruction{
		constant(rows), set(row), constant(t.start + first), set(record),
		loop,
		// the row: the function's address, and where its record is
		get(row), get(number), constant(firstFunction), sum, store(0),
		get(row), get(record), constant(rows), {op: opI32Sub}, store(4),
		// the record
		get(record), get(number), constant(firstFunction), sum, store(0),
		// the next, at a multiple of 8
		get(row), constant(rowSize), sum, set(row),
		get(record), {op: opI32Load, hint: 2, number: funcValues}, get(record), {op: opI32Load8U, number: funcData}, sum,
		constant(4), product, get(record), sum, constant(funcSize + 7), sum, constant(1<<32 - 8), {op: opI32And}, set(record),
		get(number), constant(1), sum, tee(number), constant(t.functions), less, again,
		end,
		// where to look for it
		loop,
		get(bucket), constant(bucketSize), product, get(bucket), constant(4), {op: opI32ShrU}, store(int64(t.start + t.buckets)),
		get(bucket), constant(1), sum, tee(bucket), constant(buckets), less, again,
		end,
		end,
	}}
}
