package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"log/slog"
	"net"
	"net/url"
	"os"
	"runtime/debug"
	"sync"
	"time"

	"wirewake/embed"
	"wirewake/server/http/serving"
	"wirewake/server/http/web"
	"wirewake/server/instruments/heard"
	"wirewake/server/reach/nearby"
	"wirewake/server/reach/wayin"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/store/tables"
	"wirewake/server/sync/home"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
	"wirewake/server/trust/authority"
	"wirewake/server/trust/certificate"
	"wirewake/server/upkeep"
)

const serveHelp = `usage: wirewake serve [flags]

Serves the app to phones on the same network, and prints the address with a QR code to load it from.

  --listen ADDR    where to listen, as HOST:PORT or :PORT for every network (default :8610, or :443
                   with --domain); http and https are spoken on the same port
  --data DIR       where to keep what must outlive the server
                   (default: wirewake in the user's data directory, $XDG_DATA_HOME or ~/.local/share)
  --address URL    where phones find the server, when they know it by another address than its own:
                   https://192.168.1.5:8610
  --home LINK      another server of the same boat, to keep this one's notes and photos equal to: at first
                   the whole link of an invitation as mate, as wirewake invite prints it there; none forgets
                   the one that was
  --instruments SOURCE
                   listen to the boat's instruments (NMEA 0183) and tell the phones aboard; may be given
                   several times: tcp://HOST:PORT, udp://:PORT, serial:/dev/ttyUSB0@4800, file:PATH, or
                   nearby for what announces itself on the network. Nothing proves who speaks: name only
                   what is the boat's. More by wirewake instruments --help
  --transducer M   how many metres the sounder is below the water, where it does not tell that itself
  --keel M         the same of the keel, for sounders that tell the depth below it
  --verbose        log every request

Only over https can a phone keep the app and open it without signal. Who vouches for the server:

  the boat's own authority, without any of the flags below. It is made at the first start. Over plain http
  phones get its certificate, to be installed once, and nothing else.
  --name NAME      the boat's: phones that look names up find NAME.local (default wirewake)

  a public authority, for a server with a name in the internet and port 443 open to it
  --domain NAME    that name, such as boat.example; the certificate is asked for and renewed by itself
  --acme URL       directory of another authority that speaks ACME than Let's Encrypt

  a certificate that you have, read again when the files change or at SIGHUP
  --cert FILE      the certificate in PEM with its chain; needs --key
  --key FILE       its private key, in PEM; needs --cert

  something in front of this server, if --address is an https address of the internet; or nobody, if it
  begins with http

A phone keeps its rigs under the address it loaded the app from, so choose one address and stay with it.

Stop with Ctrl-C.
`

// noHome is --home where there is none any more.
const noHome = "none"

const defaultListen = ":8610"

// domainListen is the port at which a public authority looks.
const domainListen = ":443"

func listenForm(got string) string {
	return fmt.Sprintf("--listen must be HOST:PORT or :PORT, such as %s, not %q", defaultListen, got)
}

// serveFlags are the flags of serve, checked.
type serveFlags struct {
	listen, data, address string
	name, domain, acme    string
	cert, key             string
	homeLink              string
	home                  home.Link
	instruments           sourcesFlag
	mounts                heard.Mounts
	verbose               bool
	// given are the flags that were typed.
	given []given
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

// beSmall makes Go tidy its memory up eagerly once it holds 20 MiB, since a boat's computer is small, and seldom below that:
// of the few megabytes that are in use it would do so thirty times a second while phones write. Whoever sets GOMEMLIMIT or
// GOGC knows better.
func beSmall() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(20 << 20)
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(300)
	}
}

func readServeFlags(io console, args []string) (f serveFlags, code int, ok bool) {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.StringVar(&f.listen, "listen", "", "")
	dataFlag(flags, &f.data)
	flags.StringVar(&f.name, "name", "wirewake", "")
	flags.StringVar(&f.domain, "domain", "", "")
	flags.StringVar(&f.acme, "acme", "", "")
	flags.StringVar(&f.homeLink, "home", "", "")
	flags.StringVar(&f.cert, "cert", "", "")
	flags.StringVar(&f.key, "key", "", "")
	flags.StringVar(&f.address, "address", "", "")
	flags.Var(&f.instruments, "instruments", "")
	mountsFlags(flags, &f.mounts)
	flags.BoolVar(&f.verbose, "verbose", false, "")
	words, code, ok := parse(flags, io, args)
	if !ok {
		return f, code, false
	}
	if code, ok = noWords(io, "serve", words); !ok {
		return f, code, false
	}
	flags.Visit(func(one *flag.Flag) { f.given = append(f.given, given{one.Name, one.Value.String()}) })
	if what := f.check(); what != "" {
		return f, wrong(io, "serve", what), false
	}
	return f, done, true
}

// check says what is wrong with the flags, if anything is.
func (f *serveFlags) check() string {
	f.listen = cmp.Or(f.listen, map[bool]string{true: domainListen, false: defaultListen}[f.domain != ""])
	if _, _, err := net.SplitHostPort(f.listen); err != nil {
		return listenForm(f.listen)
	}
	if what := authority.CheckName(f.name); what != "" {
		return fmt.Sprintf("--name %s, not %q", what, f.name)
	}
	if what := f.checkDomain(); what != "" {
		return what
	}
	if f.instruments.wrong != "" {
		return "--instruments " + f.instruments.wrong
	}
	if what := checkMounts(f.mounts); what != "" {
		return what
	}
	if f.homeLink != "" && f.homeLink != noHome {
		var what string
		if f.home, what = home.ReadLink(f.homeLink); what != "" {
			return fmt.Sprintf("--home %s, not %q", what, f.homeLink)
		}
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

// checkDomain says what is wrong with --domain and --acme.
func (f *serveFlags) checkDomain() string {
	if f.domain == "" {
		if f.acme != "" {
			return "--acme needs --domain, the name that the certificate is for"
		}
		return ""
	}
	if what := certificate.CheckDomain(f.domain); what != "" {
		return fmt.Sprintf("--domain %s, not %q", what, f.domain)
	}
	if f.cert != "" {
		return "--domain gets a certificate, and --cert has one: choose"
	}
	f.acme = cmp.Or(f.acme, certificate.LetsEncrypt)
	if u, err := url.Parse(f.acme); err != nil || u.Scheme != "https" || u.Host == "" {
		return fmt.Sprintf("--acme must be the https address of an ACME directory, not %q", f.acme)
	}
	f.address = cmp.Or(f.address, "https://"+f.domain)
	return ""
}

// open puts the server together and serves until ctx is done.
func open(ctx context.Context, io console, log *slog.Logger, f serveFlags) error {
	app, err := embed.App()
	if err != nil {
		return err
	}
	release, err := folder.Serve(f.data)
	if err != nil {
		return fmt.Errorf("%s: %w; stop that one, or give this one a directory of its own with --data", f.data, err)
	}
	defer release()
	listener, err := serving.Listen(f.listen)
	if err != nil {
		return err
	}
	defer listener.Close()
	// A public authority looks here at once, so the port must be open.
	proof, err := f.prove(ctx, log)
	if err != nil {
		return err
	}
	boat, _ := proof.(*authority.Authority)

	door := &wayin.Door{
		Finder: wayin.Finder{
			Listen:  listener.Addr().(*net.TCPAddr).AddrPort(),
			Address: f.address,
			Machine: wayin.ThisMachine,
		},
		Log: log,
		Now: time.Now,
	}
	if proof != nil {
		door.Finder.Certificate, door.Finder.Introduce = proof.Leaf, boat != nil
		door.Dated = proof.Notes
	}
	switch {
	case f.address == "" && inContainer():
		door.Notes = append(door.Notes, containerNote)
	case f.address != "" && !inContainer():
		port := uint16(0)
		if boat != nil {
			// Else something in front may well have another.
			port = door.Finder.Listen.Port()
		}
		if what := wayin.Unreached(f.address, wayin.ThisMachine(), port, looksUp); what != "" {
			door.Notes = append(door.Notes, what)
		}
	}
	kept, fault := sqlite.Open(ctx, f.data)
	if fault != nil {
		// The calculators need no memory: the server does without, and says what is lost.
		log.Warn("the data directory cannot be used", "error", fault)
	} else {
		door.Store = kept.Store
		defer kept.Close()
	}
	shelf := photos.NewFolder(f.data)
	report, nobody, stands := door.Report(), false, ""
	if fault != nil {
		// Why is for the owner alone: it names files of this computer.
		door.Notes = append(door.Notes, "The data directory cannot be used; the log says why. "+forgetfulNote)
	}
	if door.Store != nil {
		if err := door.Store.SetAddress(report.Best.URL, report.Best.Enter); err != nil {
			log.Warn("where phones find this server cannot be written down", "error", err)
		}
		nobody, _ = door.Store.Nobody()
		if stands, err = f.homeStood(door.Store); err != nil {
			return err
		}
		stop := keepUp(ctx, kept, shelf, log)
		defer stop()
	}

	if boat != nil && door.Finder.Listen.Addr().IsUnspecified() {
		go nearby.Announce(ctx, boat.Name+".local", log)
	}
	stop := f.keepHome(ctx, door.Store, shelf, log)
	defer stop()
	shelfOfTraces := traces.NewShelf(f.data)
	hub, quiet := f.hear(ctx, log, door.Store, shelfOfTraces, shelf.MayGrow)
	defer quiet()
	log.Info("serving", "listen", listener.Addr().String(), "data", f.data, "version", versionLine())
	greet(io, greeting{report: report, fault: fault, built: len(app.All()) > 0, tls: proof != nil, own: wayin.Own(f.address, wayin.ThisMachine(), door.Finder.Listen.Port()), boat: boat, nobody: nobody, home: stands, flags: &f})
	return serving.Until(ctx, listener, proof, web.New(web.Parts{
		App: app, Door: door, Boat: boat, Public: f.domain, Store: door.Store, Shelf: shelf, Traces: shelfOfTraces, Log: log, Now: time.Now, Sleep: time.Sleep,
		Instruments: hub, Stopping: ctx.Done(),
	}), log, serving.Patience)
}

// keepHome keeps this server together with the one at home, if there is one, until stop is called.
func (f *serveFlags) keepHome(ctx context.Context, s *tables.Store, shelf *photos.Folder, log *slog.Logger) (stop func()) {
	if f.home.URL == "" || s == nil {
		return func() {}
	}
	ctx, cancel := context.WithCancel(ctx)
	var over sync.WaitGroup
	other := &home.Home{
		Link: f.home, Data: f.data, Name: "Server " + f.name, Store: s, Shelf: shelf, Traces: traces.NewShelf(f.data), Log: log, Now: time.Now,
		Client: home.NewClient(), Pauses: home.Patient,
	}
	over.Go(func() { other.Keep(ctx) })
	return func() { cancel(); over.Wait() }
}

// homeStood says how the exchange with the home that was given stood when this server was last stopped, and forgets it
// where that was asked for.
func (f *serveFlags) homeStood(s *tables.Store) (text string, err error) {
	h, ok, err := s.HomeStands()
	if err != nil {
		return "", err
	}
	switch {
	case f.homeLink == noHome && ok:
		return "Home, " + h.URL + ", is forgotten. It still knows this server: shut it out there, in the list of phones.\n", home.Forget(f.data, s)
	case f.homeLink == noHome:
		return "", home.Forget(f.data, s)
	case f.home.URL == "":
		return "", nil
	case ok && h.URL == f.home.URL:
		text, _, err = homeStands(s)
		return text, err
	case f.home.Invitation == "" && !home.Knows(f.data, f.home.URL):
		return "", fmt.Errorf("nothing is known here of the home at %s: give --home the whole link, with #join=, that "+
			"wirewake invite --role mate prints there", f.home.URL)
	}
	return "With home, " + f.home.URL + ", this server was never together yet.\n", nil
}

// keepUp looks after what the server keeps until stop is called.
func keepUp(ctx context.Context, s *sqlite.Store, shelf *photos.Folder, log *slog.Logger) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	hours := time.NewTicker(time.Hour)
	u := &upkeep.Upkeep{Store: s, Keeper: &photos.Keeper{Shelf: shelf, Store: s.Store, Log: log}, Log: log, Now: time.Now}
	var over sync.WaitGroup
	over.Go(func() { u.Run(ctx, hours.C) })
	return func() { cancel(); over.Wait(); hours.Stop() }
}

const forgetfulNote = "The app and its calculations work all the same while this computer is in reach, but this server cannot " +
	"bring the phones' notes together, and will not remember the addresses they load the app from."

const containerNote = "This server runs in a container, where it does not see the boat's network: the addresses shown may reach " +
	"nothing. Start it with --address and the address phones use."

// inContainer tells by the variable that container managers set, as does this project's own image.
func inContainer() bool { return os.Getenv("container") != "" }
