package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"path"

	"golang.org/x/term"

	"wirewake/calc/codec"
	"wirewake/calc/desk"
	"wirewake/calc/tide"
	"wirewake/embed"
)

const calcHelp = `usage: wirewake calc                          list the calculations
       wirewake calc NAME --example           print a complete request to edit
       wirewake calc NAME < request.json      print the answer

  --example   print a request that NAME answers

Requests and answers are JSON in SI units: metres, kilograms, newtons, seconds, radians. The answer goes
to standard output. What is wrong with a request goes to standard error, a line each as "field: what to
do", and the exit status is 1.
`

func calculate(_ context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("calc", flag.ContinueOnError)
	example := flags.Bool("example", false, "")
	words, code, ok := parse(flags, io, args)
	switch {
	case !ok:
		return code
	case len(words) == 0 && *example:
		return wrong(io, "calc", "--example needs the name of a calculation")
	case len(words) == 0:
		list(io)
		return done
	case len(words) > 1:
		return wrong(io, "calc", fmt.Sprintf("takes one name, and the request on standard input, not %q", words[1]))
	}
	name := words[0]
	sample, known := desk.Example(name)
	switch {
	case !known:
		fmt.Fprintf(io.err, "wirewake calc: there is no calculation %q; wirewake calc lists them\n", name)
		return misuse
	case *example:
		return print(io, sample)
	}
	request, code, ok := readRequest(io, name)
	if !ok {
		return code
	}
	stations, err := stations()
	if err != nil {
		fmt.Fprintf(io.err, "wirewake calc: the stations of tide and current cannot be read: %v\n", err)
		return failed
	}
	answer, err := desk.Box(stations).Answer(name, request)
	if err != nil {
		for _, p := range codec.ProblemsOf(err) {
			if p.Field != "" {
				fmt.Fprintf(io.err, "%s: ", p.Field)
			}
			fmt.Fprintln(io.err, p.Text)
		}
		return failed
	}
	return print(io, codec.Indent(answer))
}

func list(io console) {
	fmt.Fprint(io.out, "Calculations:\n\n")
	for _, c := range desk.List() {
		fmt.Fprintf(io.out, "  %-12s%s\n", c.Name, c.Summary)
	}
	fmt.Fprint(io.out, "\nStart from an example:\n\n"+
		"  wirewake calc NAME --example > request.json\n  wirewake calc NAME < request.json\n")
}

// readRequest reads standard input; from a keyboard it first says that it waits.
func readRequest(console console, name string) (request []byte, code int, ok bool) {
	if term.IsTerminal(int(console.in.Fd())) {
		fmt.Fprintf(console.err, "Waiting for a request: paste it here and end with Ctrl-D, or stop with Ctrl-C and use\n"+
			"  wirewake calc %[1]s --example > request.json\n  wirewake calc %[1]s < request.json\n", name)
	}
	request, err := io.ReadAll(io.LimitReader(console.in, codec.MaxBytes+1))
	switch {
	case err != nil:
		fmt.Fprintf(console.err, "wirewake calc: the request cannot be read: %v\n", err)
	case len(request) > codec.MaxBytes:
		fmt.Fprintf(console.err, "wirewake calc: the request is larger than %d bytes\n", codec.MaxBytes)
	case len(request) == 0:
		fmt.Fprintf(console.err, "wirewake calc: no request on standard input; start from wirewake calc %s --example\n", name)
	default:
		return request, done, true
	}
	return nil, failed, false
}

// print writes an answer; one that did not arrive whole is a failure.
func print(io console, text []byte) int {
	if _, err := fmt.Fprintf(io.out, "%s\n", text); err != nil {
		fmt.Fprintf(io.err, "wirewake calc: the answer cannot be written: %v\n", err)
		return failed
	}
	return done
}

// stations are the tables that phones load from this binary; none when it was built without the webapp.
func stations() (all tide.Tables, err error) {
	app, err := embed.App()
	if err != nil {
		return nil, err
	}
	for _, file := range app.All() {
		if path.Dir(file.Path) != "tides" {
			continue
		}
		data, err := app.ReadAll(file)
		if err != nil {
			return nil, err
		}
		table, err := tide.Read(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file.Path, err)
		}
		all = append(all, table)
	}
	return all, nil
}
