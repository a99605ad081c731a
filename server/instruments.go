package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"golang.org/x/term"

	"wirewake/calc/sentence"
	"wirewake/server/instruments"
	"wirewake/server/instruments/heard"
	"wirewake/server/instruments/source"
	"wirewake/server/instruments/stream"
	"wirewake/server/instruments/trace"
	"wirewake/server/store/tables"
	"wirewake/server/sync/traces"
)

const instrumentsHelp = `usage: wirewake instruments [flags] SOURCE...

Listens to instruments that speak NMEA 0183, and shows what is heard, how fresh it is, and what is nonsense.
A source is one of
  tcp://HOST:PORT       a gateway on the network, such as tcp://192.168.1.5:10110
  udp://:PORT           whatever comes to that port; udp://HOST:PORT only what that host sends
  serial:DEVICE@BAUD    a serial line, such as serial:/dev/ttyUSB0@4800; on Windows serial:COM3; 4800 without @
  file:PATH             former lines, at the pace of the times in them, again and again
  nearby                what announces itself on the network

  --lines          show every line, with what is made of it
  --transducer M   how many metres the sounder is below the water, where it does not tell that itself
  --keel M         the same of the keel, for sounders that tell the depth below it

A serial line can be listened to by one program at a time: stop wirewake serve first. Stop with Ctrl-C.
`

// sourcesFlag is --instruments, which may be given several times.
type sourcesFlag struct {
	all   []source.Source
	wrong string
}

func (f *sourcesFlag) String() string {
	var all []string
	for _, s := range f.all {
		all = append(all, s.String())
	}
	return strings.Join(all, " ")
}

func (f *sourcesFlag) Set(text string) error {
	s, what := source.Read(text)
	if what != "" {
		f.wrong = what
		return nil
	}
	if !slices.Contains(f.all, s) {
		f.all = append(f.all, s)
	}
	return nil
}

// metresFlag is a depth below the water.
type metresFlag struct{ value *float64 }

func (f metresFlag) String() string {
	if f.value == nil {
		return ""
	}
	return fmt.Sprint(*f.value)
}

func (f metresFlag) Set(text string) error {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(value) {
		value = -1
	}
	*f.value = value
	return nil
}

// mostBelow is how far below the water a transducer or a keel of a boat of this size may be, m.
const mostBelow = 10

// mountsFlags are the flags that say where the sounder is.
func mountsFlags(flags *flag.FlagSet, m *heard.Mounts) {
	flags.Var(metresFlag{&m.Transducer}, "transducer", "")
	flags.Var(metresFlag{&m.Keel}, "keel", "")
}

// checkMounts says what is wrong with them.
func checkMounts(m heard.Mounts) string {
	for name, v := range map[string]float64{"transducer": m.Transducer, "keel": m.Keel} {
		if v < 0 || v > mostBelow {
			return fmt.Sprintf("--%s must be how many metres it is below the water, from 0 to %d, as a number without a unit, such as 0.5", name, mostBelow)
		}
	}
	return ""
}

func showInstruments(ctx context.Context, console console, args []string) int {
	var mounts heard.Mounts
	flags := flag.NewFlagSet("instruments", flag.ContinueOnError)
	every := flags.Bool("lines", false, "")
	mountsFlags(flags, &mounts)
	words, code, ok := parse(flags, console, args)
	if !ok {
		return code
	}
	var sources sourcesFlag
	for _, word := range words {
		if sources.Set(word); sources.wrong != "" {
			return wrong(console, "instruments", "a source "+sources.wrong)
		}
	}
	if len(words) == 0 {
		return wrong(console, "instruments", "needs a source: "+source.Forms)
	}
	if what := checkMounts(mounts); what != "" {
		return wrong(console, "instruments", what)
	}
	p := &heard.Picture{Now: time.Now, Mounts: mounts}
	var writing sync.Mutex
	hear := func(source, line string) {
		p.Hear(source, line)
		if *every {
			writing.Lock()
			defer writing.Unlock()
			fmt.Fprintln(console.out, explained(line))
		}
	}
	log := slog.New(slog.NewTextHandler(console.err, nil))
	var over sync.WaitGroup
	over.Go(func() { instruments.New(sources.all, log, hear, p.Tell).Run(ctx) })
	defer over.Wait()
	terminal, ok := console.out.(interface{ Fd() uintptr })
	screen := ok && term.IsTerminal(int(terminal.Fd()))
	ticker := time.NewTicker(time.Second)
	defer ticker.Stop()
	for {
		select {
		case <-ctx.Done():
			return done
		case <-ticker.C:
		}
		if *every {
			continue
		}
		if screen {
			fmt.Fprint(console.out, "\x1b[H\x1b[2J")
		}
		s, _ := p.Look()
		writePicture(console.out, s)
	}
}

// explained is a line with what is made of it; what a terminal would obey is not in it.
func explained(line string) string {
	s := sentence.Parse(line)
	text := strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '.'
		}
		return r
	}, strings.TrimRight(line, "\r\n"))
	if s.Why != sentence.WhyNone {
		return fmt.Sprintf("%s\n    nothing: %s", text, s.Why)
	}
	for _, r := range s.Readings {
		text += fmt.Sprintf("\n    %s %.6g", r.Quantity, r.Value)
	}
	return text
}

// writePicture writes what is known as a table.
func writePicture(out io.Writer, s heard.Snapshot) {
	for _, one := range s.Sources {
		state := "not reached"
		switch {
		case one.On && one.Silent < 0:
			state = "nothing came yet"
		case one.On:
			state = fmt.Sprintf("silent for %.0f s", one.Silent)
		}
		fmt.Fprintf(out, "%s: %s; %d lines, %d of use, %d broken", one.Name, state, one.Lines, one.Taken, one.Broken)
		if one.Why != "" {
			fmt.Fprintf(out, " (%s)", one.Why)
		}
		fmt.Fprintln(out)
	}
	if d := s.Depth; d != nil {
		fmt.Fprintf(out, "  %-18s %9.2f m below the %s, %s, ±%.1f m, age %.0f s, from %s%s\n", "depth", d.Value.Value, d.Below, d.State, d.Doubt, d.Age, d.Voice, marks(d.Value))
		if d.Echo != 0 {
			fmt.Fprintf(out, "  %-18s %9.2f m is not taken for the bottom\n", "", d.Echo)
		}
	}
	for _, name := range heard.Names() {
		if v, ok := s.Values[name]; ok {
			fmt.Fprintf(out, "  %-18s %9.4g, age %.0f s, from %s%s\n", name, v.Value, v.Age, v.Voice, marks(v))
		}
	}
}

func marks(v heard.Value) (text string) {
	if v.Others > 0 {
		text += fmt.Sprintf(", %d more speak of it", v.Others)
	}
	if v.Differs {
		text += ", another says otherwise"
	}
	if v.Jumped {
		text += ", jumped"
	}
	return text
}

// hear listens to the boat's instruments until stop is called; without any the hub is nil.
func (f *serveFlags) hear(ctx context.Context, log *slog.Logger, s *tables.Store, shelf *traces.Shelf, mayGrow func() error) (hub *stream.Hub, stop func()) {
	if len(f.instruments.all) == 0 {
		return nil, func() {}
	}
	ctx, cancel := context.WithCancel(ctx)
	p := &heard.Picture{Now: time.Now, Mounts: f.mounts}
	hub = stream.NewHub(p)
	if s != nil {
		keeper := &trace.Keeper{Store: s, Shelf: shelf, Log: log, Now: time.Now, Behind: p.Behind, MayGrow: mayGrow}
		note, written := stream.Behind(keeper.Note, func() {
			log.Warn("the disk does not keep up: of what the instruments say some seconds are not kept")
		})
		hub.Noted = note
		defer func() {
			quiet := stop
			stop = func() {
				quiet()
				written()
				if err := keeper.Close(); err != nil {
					log.Warn("the trace of the instruments is not on the disk", "error", err)
				}
			}
		}()
	}
	var over sync.WaitGroup
	over.Go(func() { instruments.New(f.instruments.all, log, p.Hear, p.Tell).Run(ctx) })
	over.Go(func() { hub.Run(ctx) })
	return hub, func() { cancel(); over.Wait() }
}
