package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"strings"
	"time"

	"wirewake/server/store/sqlite"
	"wirewake/server/store/tables"
	"wirewake/server/sync/photos"
	"wirewake/server/terminal"
)

const checkHelp = `usage: wirewake check [--data DIR]

Reads all that the server keeps, and says what is wrong with it: pages of the database, numbers of the log
without gaps, every entry as it was taken, every photo as it was sent. The server may be running; it looks
at a part of all this by itself every hour, and asks the phones for what the disk has spoilt. The exit status
is 1 if anything is wrong.

` + dataHelp

func check(ctx context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("check", flag.ContinueOnError)
	var dir string
	dataFlag(flags, &dir)
	words, code, ok := parse(flags, io, args)
	if !ok {
		return code
	}
	if code, ok := noWords(io, "check", words); !ok {
		return code
	}
	if dir == "" {
		return wrong(io, "check", noData)
	}
	s, err := sqlite.OpenThere(ctx, dir)
	if err != nil {
		fmt.Fprintf(io.err, "wirewake check: %v\n", err)
		return failed
	}
	defer s.Close()
	found := 0
	report := func(what string) {
		found++
		fmt.Fprintln(io.out, what)
	}
	state, err := s.Verify(report)
	if err == nil {
		err = checkPhotos(s.Store, photos.NewFolder(dir), report)
	}
	if err != nil {
		fmt.Fprintf(io.err, "wirewake check: %v\n", err)
		return failed
	}
	// Whatever of it was known before: phones bring it again, and a backup that lacks it can be restored.
	if spoilt := len(state.Spoilt); spoilt > 0 {
		if _, _, err := s.NoteSpoilt(state.Spoilt); err != nil {
			fmt.Fprintf(io.err, "wirewake check: %v\n", err)
			return failed
		}
		found += spoilt
		brought := "it again: the disk has spoilt it"
		if spoilt > 1 {
			brought = "them again: the disk has spoilt them"
		}
		fmt.Fprintf(io.out, "%s withheld until a phone brings %s.\n", count(int64(spoilt), "entry is", "entries are"), brought)
	}
	for _, d := range state.Devices {
		if d.Missing > 0 {
			fmt.Fprintf(io.out, "%s has not brought %s that it counted; they may still be on it.\n", d.Name, count(d.Missing, "entry", "entries"))
		}
	}
	stands, todo, err := homeStands(s.Store)
	if err != nil {
		fmt.Fprintf(io.err, "wirewake check: %v\n", err)
		return failed
	}
	fmt.Fprint(io.out, terminal.Wrap(stands))
	if found > 0 {
		fmt.Fprint(io.out, "\n"+terminal.Wrap("Make a backup of what there is under a name of its own. A restored backup gets back from the phones "+
			"what it lacks.\n"))
		return failed
	}
	well := "All is well"
	if todo {
		well = "All that is kept here is well"
	}
	fmt.Fprintf(io.out, "%s: %s, numbered without gaps; %s.\n", well, count(state.Entries, "entry", "entries"),
		count(int64(len(state.Devices)), "phone", "phones"))
	if todo {
		return failed
	}
	return done
}

// homeStands says how the exchange with home stands, "" if there never was one; todo says that somebody has to do
// something about it.
func homeStands(s *tables.Store) (text string, todo bool, err error) {
	h, ok, err := s.HomeStands()
	if err != nil || !ok {
		return "", false, err
	}
	text = "With home, " + h.URL + ", this server was never together yet"
	if h.Together != nil {
		text = "With home, " + h.URL + ", this server was last together on " + h.Together.Local().Format(clock)
	}
	text += "; " + count(h.Waiting, "entry waits", "entries wait") + " for it."
	switch {
	case h.Why != "":
		text += " Since " + h.Apart.Local().Format(clock) + " it is not: " + h.Why + ". If there is no such home any more, start the server once with --home none."
	case h.Apart != nil:
		text += " It has been out of reach since " + h.Apart.Local().Format(clock) + "."
	}
	return text + "\n", h.Why != "", nil
}

func checkPhotos(s *tables.Store, shelf *photos.Folder, report func(string)) error {
	all, err := s.WholePhotos()
	if err != nil {
		return err
	}
	for _, photo := range all {
		switch err := photos.Verify(shelf.File(photo), photo); {
		case errors.Is(err, fs.ErrNotExist):
			report(fmt.Sprintf("Photo %v is missing; phones are asked for it when the server starts.", photo))
		case errors.Is(err, photos.ErrHash):
			report(fmt.Sprintf("Photo %v is not as it was sent. Remove %s, and phones are asked for it when the server starts.", photo, shelf.File(photo)))
		case err != nil:
			return err
		}
	}
	return nil
}

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
