package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"os"
	"os/signal"
	"strings"
	"sync"
	"syscall"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/prometheus/client_golang/prometheus"

	"wirewake/embed"
	"wirewake/server/harbour/quay"
	"wirewake/server/http/serving"
	"wirewake/server/http/web"
	"wirewake/server/reach/wayin"
	"wirewake/server/store/postgres"
	"wirewake/server/sync/photos"
	"wirewake/server/trust/certificate"
	"wirewake/server/trust/enrol"
)

const serveHelp = `usage: wirewake-harbour serve [flags]

Serves all boats of the harbour. Any number of these may run beside each other, behind whatever spreads requests over
them: nothing is kept here. /readyz says whether to send requests here, /livez whether it runs at all.

` + placeHelp + `  --listen ADDR    where to listen, as HOST:PORT or :PORT (default :8610)
  --cert FILE      the certificate for *.harbour.example in PEM with its chain, read again when it changes; needs
                   --key. Without, something in front of this server speaks https
  --key FILE       its private key, in PEM
  --behind NETS    the networks, with commas between, of what stands in front: what it says in X-Forwarded-For of
                   who asks is believed, such as 10.0.0.0/8
  --metrics ADDR   where to give out figures in the Prometheus text format, at /metrics; for nobody outside
  --drain TIME     how long to go on once stopping, until whoever spreads requests has seen it (default 5s)
  --verbose        log every request

Logs are JSON, a line each, with the boat and the number of the request.
`

type serveFlags struct {
	place
	listen, cert, key, behind, metrics string
	drain                              time.Duration
	verbose                            bool
	from                               echo.IPExtractor
	crowd                              *enrol.Crowd
}

func serve(ctx context.Context, io console, args []string) int {
	f := serveFlags{}
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	f.place.flags(flags)
	flags.StringVar(&f.listen, "listen", ":8610", "")
	flags.StringVar(&f.cert, "cert", "", "")
	flags.StringVar(&f.key, "key", "", "")
	flags.StringVar(&f.behind, "behind", "", "")
	flags.StringVar(&f.metrics, "metrics", "", "")
	flags.DurationVar(&f.drain, "drain", 5*time.Second, "")
	flags.BoolVar(&f.verbose, "verbose", false, "")
	words, code, ok := parse(flags, io, serveHelp, args)
	if !ok {
		return code
	}
	if len(words) > 0 {
		return wrong(io, "serve", fmt.Sprintf("takes only flags, not %q", words[0]))
	}
	if what := f.check(); what != "" {
		return wrong(io, "serve", what)
	}
	level := slog.LevelInfo
	if f.verbose {
		level = slog.LevelDebug
	}
	log := slog.New(slog.NewJSONHandler(io.err, &slog.HandlerOptions{Level: level}))
	if err := f.run(ctx, log); err != nil {
		fmt.Fprintf(io.err, "wirewake-harbour serve: %v\n", err)
		return failed
	}
	return done
}

func (f *serveFlags) check() string {
	if (f.cert == "") != (f.key == "") {
		return "--cert and --key need each other"
	}
	if f.behind != "" {
		var trust []echo.TrustOption
		for _, text := range strings.Split(f.behind, ",") {
			_, network, err := net.ParseCIDR(text)
			if err != nil {
				return fmt.Sprintf("--behind must be networks such as 10.0.0.0/8,fd00::/8, not %q", text)
			}
			trust = append(trust, echo.TrustIPRange(network))
		}
		f.from = echo.ExtractIPFromXFFHeader(append(trust, echo.TrustLoopback(false), echo.TrustLinkLocal(false), echo.TrustPrivateNet(false))...)
	}
	if f.drain < 0 {
		return "--drain must not be less than nothing"
	}
	return f.place.check(needs{address: true, photos: true})
}

// run puts the server together and serves until ctx is done.
func (f *serveFlags) run(ctx context.Context, log *slog.Logger) error {
	harbour, err := f.open(ctx)
	if err != nil {
		return err
	}
	defer harbour.Close()
	proof, err := f.prove(ctx, log)
	if err != nil {
		return err
	}
	q, err := f.quay(ctx, harbour, proof != nil, log)
	if err != nil {
		return err
	}
	listener, err := listen("--listen", f.listen)
	if err != nil {
		return err
	}
	defer listener.Close()
	registry := prometheus.NewRegistry()
	q.Measured(registry)
	harbour.Measured(registry)
	quiet, err := f.tell(registry, log)
	if err != nil {
		return err
	}
	defer quiet()
	// Until it is over what is under way has to end.
	serves, end := context.WithCancel(context.Background())
	defer end()
	var over sync.WaitGroup
	over.Go(func() { q.Keep(serves) })
	visits := time.NewTicker(visitEach)
	defer visits.Stop()
	over.Go(func() { visit(serves, q, harbour, visits.C, log) })
	context.AfterFunc(ctx, func() {
		q.Leave()
		log.Info("leaving", "drain", f.drain)
		time.Sleep(f.drain)
		q.Close()
		end()
	})
	log.Info("serving", "listen", listener.Addr().String(), "address", f.address, "version", version())
	err = serving.Until(serves, listener, proof, q, log, serving.Patience)
	end()
	over.Wait()
	return err
}

// prove is the certificate that is shown; nil if something in front does that.
func (f *serveFlags) prove(ctx context.Context, log *slog.Logger) (serving.Proof, error) {
	if f.cert == "" {
		return nil, nil
	}
	files, err := certificate.Load(f.cert, f.key)
	if err != nil {
		return nil, err
	}
	if err := f.covers(files); err != nil {
		return nil, err
	}
	asked := make(chan os.Signal, 1)
	signal.Notify(asked, syscall.SIGHUP)
	go files.Watch(ctx, time.Minute, asked, log)
	return files, nil
}

// covers says that a certificate is not for the names of boats.
func (f *serveFlags) covers(files *certificate.Files) error {
	at, err := quay.At(f.address)
	if err != nil {
		return err
	}
	leaf := files.Leaf()
	if leaf.VerifyHostname(at.Host("any")) != nil {
		return fmt.Errorf("--cert %s is not for %s, which the boats of --address %s need, but for %s", f.cert, at.Host("*"), f.address, strings.Join(leaf.DNSNames, ", "))
	}
	return nil
}

// listen opens a port that a flag names.
func listen(flag, address string) (net.Listener, error) {
	listener, err := net.Listen("tcp", address)
	switch {
	case err == nil:
		return listener, nil
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("%s %s is in use by something else: end that, or name another port", flag, address)
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("%s %s: this user may not listen there; name a port from 1024 up", flag, address)
	}
	return nil, fmt.Errorf("%s must be HOST:PORT or :PORT of this computer, such as :8610: %w", flag, err)
}

// mostBodies is how many bodies of requests are read at a time from phones of all boats: each may have a megabyte.
const mostBodies = 512

// quay is the handler of all boats.
func (f *serveFlags) quay(ctx context.Context, harbour *postgres.Harbour, secure bool, log *slog.Logger) (*quay.Quay, error) {
	app, err := embed.App()
	if err != nil {
		return nil, err
	}
	key, err := harbour.Key(ctx)
	if err != nil {
		return nil, err
	}
	at, err := quay.At(f.address)
	if err != nil {
		return nil, err
	}
	f.crowd = &enrol.Crowd{Most: mostBodies}
	shelves, err := f.shelves(ctx)
	if err != nil {
		return nil, err
	}
	from := f.from
	if from == nil {
		from = echo.ExtractIPDirect()
	}
	return &quay.Quay{Boats: harbour, Address: at, Secure: secure, Log: log, Now: time.Now, Pace: int(postgres.Usual.Requests), From: from, Phone: func(boat string, r *http.Request) (string, bool) {
		return (&enrol.Bound{Boat: boat, Key: key}).Phone(r)
	}, Serve: func(b quay.Berth) http.Handler {
		return f.boat(b, harbour, app, key, shelves, log.With("boat", b.Name))
	}}, nil
}

// boat is the handler of one.
func (f *serveFlags) boat(b quay.Berth, harbour *postgres.Harbour, app embed.Files, key []byte, shelves shelves, log *slog.Logger) http.Handler {
	_, host, _ := strings.Cut(b.Origin, "://")
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	lie, all := shelves(b.Name)
	ledger := harbour.Ledger(b.Name)
	shelf, whole := &stowed{lie, b.Store, ledger}, &recorded{all, ledger}
	go (&care{b, harbour, &photos.Keeper{Shelf: shelf, Store: b.Store, Log: log}, shelf, whole, log}).keep()
	return web.New(web.Parts{
		App: app, Store: b.Store, Public: host, Shelf: shelf, Traces: whole, Log: log, Now: time.Now, Sleep: time.Sleep,
		Stopping: b.Stopping, Bound: &enrol.Bound{Boat: b.Name, Key: key}, Together: ledger, Crowd: f.crowd, From: f.from,
		Door: &wayin.Door{Finder: wayin.Finder{Listen: netip.AddrPort{}, Address: b.Origin, Machine: func() wayin.Machine { return wayin.Machine{} }},
			Store: b.Store, Log: log, Now: time.Now},
	})
}
