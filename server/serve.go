package main

import (
	"context"
	"flag"
	"fmt"
	"log/slog"
	"net"
	"os"
	"runtime/debug"
	"time"

	"wirewake/embed"
	"wirewake/server/photos"
	"wirewake/server/store"
	"wirewake/server/wayin"
	"wirewake/server/web"
)

const serveHelp = `usage: wirewake serve [flags]

Serves the app to phones on the same network, and prints the address with a QR code to load it from.

  --listen ADDR    where to listen, as HOST:PORT or :PORT for every network (default :8610)
  --data DIR       where to keep what must outlive the server
                   (default: wirewake in the user's data directory, $XDG_DATA_HOME or ~/.local/share)
  --cert FILE      certificate to serve https with, in PEM with its chain; needs --key
  --key FILE       private key of the certificate, in PEM; needs --cert
  --address URL    what the QR code says, when phones know this computer by a name: https://boat.example:8610
  --verbose        log every request

Only over https can a phone keep the app and open it without signal. A phone keeps its rigs under the
address it loaded the app from, so choose one address and stay with it.

Stop with Ctrl-C.
`

const defaultListen = ":8610"

func listenForm(got string) string {
	return fmt.Sprintf("--listen must be HOST:PORT or :PORT, such as %s, not %q", defaultListen, got)
}

// serveFlags are the flags of serve, checked.
type serveFlags struct {
	listen, data, cert, key, address string
	verbose                          bool
}

func serve(ctx context.Context, io console, args []string) int {
	f, code, ok := readServeFlags(io, args)
	if !ok {
		return code
	}
	level := slog.LevelInfo
	if f.verbose {
		level = slog.LevelDebug
	}
	log := slog.New(slog.NewTextHandler(io.err, &slog.HandlerOptions{Level: level}))
	beSmall()
	if err := open(ctx, io, log, f); err != nil {
		fmt.Fprintf(io.err, "wirewake serve: %v\n", err)
		return failed
	}
	return done
}

// beSmall makes Go tidy its memory up more eagerly once it holds 20 MiB: a boat's computer is small, and has
// more time than room. Whoever sets GOMEMLIMIT knows better.
func beSmall() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(20 << 20)
	}
}

func readServeFlags(io console, args []string) (f serveFlags, code int, ok bool) {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.StringVar(&f.listen, "listen", defaultListen, "")
	dataFlag(flags, &f.data)
	flags.StringVar(&f.cert, "cert", "", "")
	flags.StringVar(&f.key, "key", "", "")
	flags.StringVar(&f.address, "address", "", "")
	flags.BoolVar(&f.verbose, "verbose", false, "")
	words, code, ok := parse(flags, io, args)
	if !ok {
		return f, code, false
	}
	if code, ok = noWords(io, "serve", words); !ok {
		return f, code, false
	}
	if what := f.check(); what != "" {
		return f, wrong(io, "serve", what), false
	}
	return f, done, true
}

// check says what is wrong with the flags, if anything is.
func (f *serveFlags) check() string {
	if _, _, err := net.SplitHostPort(f.listen); err != nil {
		return listenForm(f.listen)
	}
	switch {
	case f.data == "":
		return noData
	case f.cert != "" && f.key == "":
		return "--cert needs --key, the private key of that certificate"
	case f.key != "" && f.cert == "":
		return "--key needs --cert, the certificate of that key"
	case f.address == "":
		return ""
	}
	origin, problem := wayin.CheckAddress(f.address)
	if problem != "" {
		return fmt.Sprintf("--address %s, not %q", problem, f.address)
	}
	f.address = origin
	return ""
}

// open puts the server together and serves until ctx is done.
func open(ctx context.Context, io console, log *slog.Logger, f serveFlags) error {
	app, err := embed.App()
	if err != nil {
		return err
	}
	var pair *certificate
	if f.cert != "" {
		if pair, err = loadCertificate(f.cert, f.key); err != nil {
			return err
		}
	}
	listener, err := listen(f.listen)
	if err != nil {
		return err
	}
	defer listener.Close()

	door := &wayin.Door{
		Finder: wayin.Finder{
			Listen:  listener.Addr().(*net.TCPAddr).AddrPort(),
			Address: f.address,
			Machine: wayin.ThisMachine,
		},
		Log: log,
		Now: time.Now,
	}
	if pair != nil {
		door.Finder.Certificate = pair.leaf
		door.Notes = append(door.Notes, pair.notes(time.Now())...)
	}
	if f.address == "" && inContainer() {
		door.Notes = append(door.Notes, containerNote)
	}
	if door.Store, err = store.Open(ctx, f.data); err != nil {
		// The calculators need no memory: the server does without, and says what is lost.
		log.Warn("the data directory cannot be used", "error", err)
		door.Notes = append(door.Notes, forgetfulNote)
	} else {
		defer door.Store.Close()
	}
	shelf := photos.NewShelf(f.data)
	report, nobody := door.Report(), false
	if door.Store != nil {
		if err := remember(door.Store, shelf, report.Best.URL); err != nil {
			log.Warn("what changed since the last start cannot be written down", "error", err)
		}
		devices, err := door.Store.Devices()
		nobody = err == nil && len(devices) == 0
	}

	log.Info("serving", "listen", listener.Addr().String(), "data", f.data, "version", versionLine())
	greet(io, greeting{report: report, built: len(app.All()) > 0, tls: pair != nil, nobody: nobody})
	return serveUntil(ctx, listener, pair, web.New(web.Parts{
		App: app, Door: door, Store: door.Store, Shelf: shelf, Log: log, Now: time.Now, Sleep: time.Sleep,
	}), log, patience)
}

// remember writes down where phones find the server, for invitations from the terminal, and which photos
// somebody has taken away, so that the phones are asked for them.
func remember(s *store.Store, shelf *photos.Shelf, address string) error {
	if err := s.SetAddress(address); err != nil {
		return err
	}
	all, err := s.WholePhotos()
	if err != nil {
		return err
	}
	for _, photo := range shelf.Missing(all) {
		if err := s.SetWhole(photo, false); err != nil {
			return err
		}
	}
	return nil
}

const forgetfulNote = "The data directory cannot be used; the log says why. The app and its calculations work all the same, " +
	"but this server cannot bring the phones' notes together, and will not remember the addresses they load the app from."

const containerNote = "This server runs in a container, where it does not see the boat's network: the addresses shown may reach " +
	"nothing. Start it with --address and the address phones use."

// inContainer tells by the variable that container managers set, as does this project's own image.
func inContainer() bool { return os.Getenv("container") != "" }
