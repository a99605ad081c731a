package main

import "slices"

// straighten lets jumps forward be branches. Go's compiler nests a function's body in a block for each place where it
// may be entered or jumped to, all in a loop that begins with a table: it jumps by setting the block's number and going
// round the loop. A block that has not ended yet can be left at once.
func straighten(code []instruction) []instruction {
	table, loop := dispatch(code)
	if loop < 0 {
		return code
	}
	labels := code[table].labels
	out := slices.Clone(code[:table+1])
	opened := table - 3 // blocks, and the loop, that are open
	depth := opened     // with those in them
	ended := 0          // numbered blocks that have ended
	for k := table + 1; k < len(code); k++ {
		switch code[k].op {
		case opBlock, opLoop, opIf:
			depth++
		case opEnd:
			depth--
			if depth < opened {
				opened--
				ended++
			}
		}
		if !at(code, k, opI32Const, opLocalSet, opBr) || code[k+1].number != localBlock || int(code[k+2].number) != depth-1-loop {
			out = append(out, code[k])
			continue
		}
		block := int(labels[min(int(code[k].number), len(labels)-1)])
		if block < ended { // backward
			out = append(out, code[k])
			continue
		}
		label := int64(block - ended + depth - opened)
		if last := &out[len(out)-1]; last.op == opIf && at(code, k+3, opEnd) {
			*last = instruction{op: opBrIf, number: label - 1}
			depth--
			k += 3
			continue
		}
		out = append(out, instruction{op: opBr, number: label})
		k += 2
	}
	return out
}

// dispatch is where a function's table of blocks stands, and how many blocks are around its loop; -1 if it has none, or
// does anything with the block's number but to go round.
func dispatch(code []instruction) (table, loop int) {
	if !at(code, 0, opGlobalGet, opLocalSet) {
		return -1, -1
	}
	k := 2
	loop = -1
	for ; code[k].op == opBlock || code[k].op == opLoop; k++ {
		if code[k].op == opLoop {
			loop = k - 2
		}
	}
	if !at(code, k, opLocalGet, opBrTable) || code[k].number != localBlock || loop < 0 {
		return -1, -1
	}
	table = k + 1
	for _, label := range code[table].labels {
		if int(label) >= table-3-(loop+1) {
			return -1, -1
		}
	}
	for k := table + 1; k < len(code); k++ {
		// An indirect call puts its function there for a moment.
		if code[k].op == opLocalGet && code[k].number == localBlock && !at(code, k-2, opLocalSet, opI32Const) {
			return -1, -1
		}
	}
	return table, loop
}
