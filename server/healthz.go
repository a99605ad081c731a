package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"
)

const healthzHelp = `usage: wirewake healthz [--listen ADDR]

Asks the server on this computer whether it is well: that it answers, and keeps notes. The exit status is 0
if it is, 1 if not. Containers ask it of themselves.

  --listen ADDR    where the server listens, as given to serve (default :8610)
`

func healthz(ctx context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("healthz", flag.ContinueOnError)
	address := flags.String("listen", defaultListen, "")
	words, code, ok := parse(flags, io, args)
	if !ok {
		return code
	}
	if code, ok := noWords(io, "healthz", words); !ok {
		return code
	}
	host, port, err := net.SplitHostPort(*address)
	if err != nil {
		return wrong(io, "healthz", listenForm(*address))
	}
	if host == "" {
		host = "127.0.0.1"
	}
	if runs, err := askHealth(ctx, net.JoinHostPort(host, port)); err != nil {
		if !runs {
			err = fmt.Errorf("no server answers at %s; start it, or give --listen as to serve (%w)", *address, err)
		}
		fmt.Fprintf(io.err, "wirewake healthz: %v\n", err)
		return failed
	}
	fmt.Fprintln(io.out, "ok")
	return done
}

// askHealth asks over http, which every server speaks: whether its certificate is good for this address is
// no matter of health. runs says that a server answers, well or not.
func askHealth(ctx context.Context, hostPort string) (runs bool, err error) {
	client := &http.Client{Timeout: 5 * time.Second}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+hostPort+"/healthz", nil)
	if err != nil {
		return false, err
	}
	response, err := client.Do(request)
	if err != nil {
		return false, err
	}
	defer response.Body.Close()
	if response.StatusCode != http.StatusOK {
		why, _ := io.ReadAll(io.LimitReader(response.Body, 500)) // the status says enough without
		return true, fmt.Errorf("the server answers %s: %s", response.Status, strings.TrimSpace(string(why)))
	}
	return true, nil
}
