package main

// In a function of Go that is called in Go's way the first parameter is the block to begin with (PC_B), the first local
// the stack pointer (cmd/internal/obj/wasm).
const (
	localBlock, localStack = 0, 1
	globalStack, globalG   = 0, 2
)

// shortenAddresses adds what is added to an address in the load or store that it is for, which has a place for that.
// The compiler does so for integers, but not for floats nor in its own stack frame.
func shortenAddresses(code []instruction) []instruction {
	out := code[:0:0]
	for k := 0; k < len(code); k++ {
		i := code[k]
		switch {
		case at(code, k, opI64ExtendU, opI64Const, opI64Add, opI32Wrap) && fits(code[k+1]):
			// Widened, added to and cut off again: the same sum in 32 bits.
			offset := code[k+1].number
			k += 3
			// The stack is where nothing overflows.
			if last := out[len(out)-1]; last.op == opLocalGet && last.number == localStack && addTo(code, k+1, offset) {
				continue
			}
			out = append(out, instruction{op: opI32Const, number: offset}, instruction{op: opI32Add})
		case at(code, k, opI64Const, opI64Add, opI32Wrap) && fits(i) && addTo(code, k+3, i.number):
			out = append(out, code[k+2])
			k += 2
		case at(code, k, opI64Const, opI32Wrap):
			out = append(out, instruction{op: opI32Const, number: int64(int32(i.number))})
			k++
		case i.op == opNop:
		default:
			out = append(out, i)
		}
	}
	return out
}

// fits says whether the constant may be an offset in an object or frame.
func fits(i instruction) bool { return i.number >= 0 && i.number < 1<<30 }

// addTo adds to the offset of the load or store whose address is the value on top of the stack before the place.
func addTo(code []instruction, place int, offset int64) bool {
	above := 0
	for ; place < len(code); place++ {
		i := &code[place]
		takes, puts := i.effect()
		if takes < 0 {
			return false
		}
		if takes > above {
			// The address is the first that a load or store takes.
			if i.op < opLoad || i.op >= opMemorySize || takes != above+1 {
				return false
			}
			i.number += offset
			return true
		}
		above += puts - takes
	}
	return false
}
