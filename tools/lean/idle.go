package main

import (
	"errors"
	"regexp"
)

// idle are the runtime's functions that only somebody who looks into a program needs: the execution tracer, the
// profiler, and whatever prints for people, which nobody reads on a phone. In a program that is well they are never
// called; one that is not ends then, and the worker that runs it is replaced. Names are as the linker writes them, where
// (*T).f is __T_.f.
var idle = regexp.MustCompile(`^runtime\.(` +
	// the tracer, beyond the questions whether it is on
	`traceLocker\.([A-NP-Z]|[a-np-z])\w*|traceWriter\..*|__trace(StackTable|StringTable|TypeTable|Map|RegionAlloc|Buf)_\..*|` +
	`trace(Advance|Stack|ReadCPU|RegisterLabelsAndReasons|SyncBatch|StopReadCPU|StartReadCPU)(\..*)?|` +
	// the profiler
	`__profBuf_\..*|saveblockevent|saveBlockEventStack|` +
	// stacks, panics and schedules in print
	`traceback[12]?(\..*)?|traceback(trap|others|someothers|Hexdump)(\..*)?|schedtrace(\..*)?|goroutineheader|dopanic_m(\..*)?|` +
	`print(panics|panicval|anycustomtype|quoted|indented|Args|createdby1?|FuncName|Ancestor\w*|Cgo\w*|OneCgo\w*|ScavTrace)(\..*)?|` +
	`preprintpanics(\..*)?|funcNamePiecesForPrint|hexdump\w*(\..*)?|dump(ScanStats|StacksRec|TypesRec|gstatus)(\..*)?|` +
	`checkFinalizersAndCleanups(\..*)?|` +
	// what ends the program, and what is printed before
	`throw|fatal|fatalthrow|fatalpanic|print(lock|unlock|sp|nl|bool|u?int|uintptr|hex|hexopts|pointer|string|slice|[ei]face|(float|complex)\d*))$`)

// leastIdle is how many such functions there must be for the names to be those of this Go release.
const leastIdle = 100

var errNames = errors.New("the runtime's functions have no names, or others than in this Go release: link without -s, or adapt tools/lean")

// trap is the body of a function that ends the program when it is called.
var trap = []byte{0, 0x00 /* unreachable */, end}

// quiet puts a trap in the place of what is idle.
func quiet(p *program) error {
	p.traps = map[int64]bool{}
	trapped := 0
	for i := range p.bodies {
		if idle.MatchString(p.names[p.imported+uint64(i)]) {
			p.bodies[i] = trap
			p.traps[int64(p.imported)+int64(i)] = true
			trapped++
		}
	}
	if trapped < leastIdle {
		return errNames
	}
	return nil
}

// namesIn is the names of functions by index, nil if this custom section has none.
func namesIn(body []byte) map[uint64]string {
	r := reader{rest: body}
	if string(r.take(r.unsigned())) != "name" {
		return nil
	}
	for len(r.rest) > 0 && !r.failed {
		kind := r.take(1)[0]
		part := reader{rest: r.take(r.unsigned())}
		if kind != functionNames {
			continue
		}
		names := map[uint64]string{}
		for n := part.unsigned(); n > 0 && !part.failed; n-- {
			index := part.unsigned()
			names[index] = string(part.take(part.unsigned()))
		}
		return names
	}
	return nil
}

// countImported counts the functions in an import section: their indexes come first.
func countImported(body []byte) (functions uint64) {
	r := reader{rest: body}
	for n := r.unsigned(); n > 0 && !r.failed; n-- {
		r.take(r.unsigned()) // module
		r.take(r.unsigned()) // name
		// Go's linker imports nothing but functions.
		if kind := r.take(1); r.failed || kind[0] != 0 {
			return functions
		}
		r.unsigned() // type
		functions++
	}
	return functions
}
