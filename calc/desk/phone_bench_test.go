//go:build unix

package desk

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/expect"
)

// BenchmarkSpreadOnThePhone is the whole way of a request with eight rods through the module that make build made, in
// Node, beside the same natively. Both are processor time, in rounds by turns, so that what else the machine does touches
// neither the times nor their ratio much; of the rounds it is the median.
func BenchmarkSpreadOnThePhone(b *testing.B) {
	public, err := filepath.Abs("../../webapp/public")
	if err != nil {
		b.Fatal(err)
	}
	module := filepath.Join(public, "calc.wasm")
	if _, err := os.Stat(module); err != nil {
		b.Skip("there is no module for the phone: make build makes it")
	}
	q := eightRods(b)
	request, err := codec.Encode(&q)
	if err != nil {
		b.Fatal(err)
	}
	node := exec.Command("node", "testdata/phone.js", filepath.Join(public, "wasm_exec.js"), module)
	node.Stderr = os.Stderr
	in, err := node.StdinPipe()
	if err != nil {
		b.Fatal(err)
	}
	out, err := node.StdoutPipe()
	if err != nil {
		b.Fatal(err)
	}
	if err := node.Start(); err != nil {
		b.Skip(err)
	}
	b.Cleanup(func() {
		in.Close()
		node.Wait()
	})
	fmt.Fprintf(in, "%s\n", request)
	const asks = 20
	onPhone := func() (micros float64) {
		fmt.Fprintln(in, asks)
		if _, err := fmt.Fscanln(out, &micros); err != nil {
			b.Fatal(err)
		}
		return micros / asks
	}
	natively := func() float64 {
		from := expect.Processor(b)
		for range asks {
			if _, err := (Desk{}).Answer("spread", request); err != nil {
				b.Fatal(err)
			}
		}
		return float64((expect.Processor(b) - from).Microseconds()) / asks
	}
	// Until the engine has compiled what is hot, for good.
	for range 15 {
		onPhone()
		natively()
	}
	for b.Loop() {
	}
	var phone, native, ratio []float64
	for range 25 {
		p, n := onPhone(), natively()
		phone, native, ratio = append(phone, p), append(native, n), append(ratio, p/n)
	}
	median := func(all []float64) float64 {
		slices.Sort(all)
		return all[len(all)/2]
	}
	b.ReportMetric(median(phone)/1000, "processor-ms")
	b.ReportMetric(median(native)/1000, "native-processor-ms")
	b.ReportMetric(median(ratio), "×native")
	b.ReportMetric(0, "ns/op")
}
