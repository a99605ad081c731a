package main

import "encoding/binary"

// saying is a text in memory that is handed to a function that ends the program.
type saying struct{ from, length int64 }

// cut takes out what only leads to the program's end: with a call of a trap, what it is called with, and what would
// come after it. It tells the texts that were to be said.
func cut(code []instruction, traps map[int64]bool) (out []instruction, said []saying) {
	for k := 0; k < len(code); k++ {
		if code[k].op != opCall || !traps[code[k].number] {
			out = append(out, code[k])
			continue
		}
		from := len(out)
		for from > 0 {
			if takes, _ := out[from-1].effect(); takes < 0 {
				break
			}
			from--
		}
		said = append(said, sayings(out[from:])...)
		out = append(out[:from], instruction{op: opUnreachable})
		for depth := 0; k+1 < len(code) && (depth > 0 || code[k+1].op != opEnd && code[k+1].op != opElse); k++ {
			switch code[k+1].op {
			case opBlock, opLoop, opIf:
				depth++
			case opEnd:
				depth--
			}
		}
	}
	return out, said
}

// sayings is the constant texts that are put first in what a function is called with.
func sayings(code []instruction) (said []saying) {
	first := []byte{opLocalGet, opI64Const, opI64Store}
	for k := range code {
		if at(code, k, first...) && at(code, k+3, first...) && code[k].number == localStack && code[k+3].number == localStack &&
			code[k+2].number == 0 && code[k+5].number == 8 {
			said = append(said, saying{code[k+1].number, code[k+4].number})
		}
	}
	return said
}

// hush zeroes the texts that nothing left in the code, nor a pointer in memory, leads to. Go's linker puts each
// constant text in memory by itself, and code names it by where it begins.
func hush(memory []byte, said []saying, named map[int64]bool) {
	for at := 0; at+8 <= len(memory); at += 8 {
		named[int64(binary.LittleEndian.Uint64(memory[at:]))] = true
	}
	for _, s := range said {
		if s.from <= 0 || s.length <= 0 || s.from+s.length > int64(len(memory)) {
			continue
		}
		free := true
		for at := s.from; at < s.from+s.length; at++ {
			free = free && !named[at]
		}
		if free {
			clear(memory[s.from:][:s.length])
		}
	}
}
