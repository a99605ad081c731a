//go:build js

// Command wasm is the desk on the phone: built for js/wasm, it makes the global function
//
//	wirewakeDesk(name: string, request: string): string
//
// which answers the JSON request to the calculation of this name with {"answer":…} or {"problems":[…]}, and
//
//	wirewakeStations(table: Uint8Array): string
//
// which gives the desk a table of tide and current stations to answer from, for good; what is wrong with it, or "". Both
// are there as soon as run of wasm_exec.js has returned its promise; that promise settles only when the
// program has failed. With env.GOGC of wasm_exec.js at 200, garbage is collected half as often, for 4 MB.
//
// Every byte is loaded over a dockside signal, so the Makefile builds it without inlining where speed does not matter
// and lets tools/lean rewrite it. That needs the functions' names and this Go release: what is linked with -s, or laid
// out in another way, it refuses, and says so.
package main

import (
	"syscall/js"

	"wirewake/calc/codec"
	"wirewake/calc/desk"
	"wirewake/calc/tide"
)

func main() {
	var counter desk.Desk
	js.Global().Set("wirewakeStations", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := make([]byte, args[0].Length())
		js.CopyBytesToGo(data, args[0])
		table, err := tide.Read(data)
		if err != nil {
			return err.Error()
		}
		counter.Stations = append(counter.Stations, table)
		return ""
	}))
	js.Global().Set("wirewakeDesk", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 2 || args[0].Type() != js.TypeString || args[1].Type() != js.TypeString {
			return reply(nil, codec.Fault("", "notAsked", "must be asked with a name and a request, both texts"))
		}
		return reply(counter.Answer(args[0].String(), []byte(args[1].String())))
	}))
	select {}
}

// reply puts the answer, or what is wrong, in one JSON object.
func reply(answer []byte, err error) string {
	if err == nil {
		return `{"answer":` + string(answer) + `}`
	}
	w := codec.NewWriter()
	w.Open()
	w.Name("problems")
	codec.ProblemsOf(err).Encode(w)
	w.Close()
	problems, _ := w.Bytes() // their limits are finite
	return string(problems)
}
