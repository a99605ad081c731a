package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"net/url"
	"strings"

	"golang.org/x/term"

	"wirewake/server/log/fold"
	"wirewake/server/reach/placard"
	"wirewake/server/reach/wayin"
	"wirewake/server/store/tables"
	"wirewake/server/terminal"
	"wirewake/server/trust/authority"
)

const placardHelp = `usage: wirewake placard --ssid NAME [flags] > placard.html

Makes the sheet by which guests come aboard: one code that joins the boat's Wi-Fi, one that opens the app.
Open it in a browser and print it on one page of A5, letter or A4. Start the server first, so that it knows
where phones find it.

  --ssid NAME      the name of the Wi-Fi
  --password WORD  its password; - asks for it, or reads it from the input, so that it is in no history
                   of commands; without, the network is an open one
  --hidden         the Wi-Fi does not tell its name
  --boat NAME      the boat's, above all (default: as the skipper has entered it in the app)
  --language LIST  of the words: en, es, or two on one sheet, such as en,es (default en)
  --address URL    where phones find the server (default: as it was last started)
` + dataHelp

func makePlacard(ctx context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("placard", flag.ContinueOnError)
	var sheet placard.Sheet
	var data string
	flags.StringVar(&sheet.WiFi.SSID, "ssid", "", "")
	flags.StringVar(&sheet.WiFi.Password, "password", "", "")
	flags.BoolVar(&sheet.WiFi.Hidden, "hidden", false, "")
	flags.StringVar(&sheet.Enter, "address", "", "")
	flags.StringVar(&sheet.Boat, "boat", "", "")
	language := flags.String("language", "en", "")
	dataFlag(flags, &data)
	words, code, ok := parse(flags, io, args)
	if !ok {
		return code
	}
	if code, ok = noWords(io, "placard", words); !ok {
		return code
	}
	switch {
	case sheet.WiFi.SSID == "":
		return wrong(io, "placard", "say which Wi-Fi guests join: --ssid NAME")
	case data == "":
		return wrong(io, "placard", noData)
	}
	sheet.Languages = strings.Split(*language, ",")
	if what := placard.CheckLanguages(sheet.Languages); what != "" {
		return wrong(io, "placard", fmt.Sprintf("--language %s, not %q", what, *language))
	}
	if sheet.Enter != "" {
		origin, problem := wayin.CheckAddress(sheet.Enter)
		if problem != "" {
			return wrong(io, "placard", fmt.Sprintf("--address %s, not %q", problem, sheet.Enter))
		}
		sheet.Enter = origin
		if u, err := url.Parse(origin); err == nil {
			sheet.Enter = wayin.Enter(origin, authority.VouchesIn(data, u.Hostname()))
		}
		if what := unreached(origin); what != "" {
			fmt.Fprint(io.err, terminal.Wrap(what+"\n"))
		}
	}
	if sheet.WiFi.Password == "-" {
		line, err := readPassword(ctx, io)
		if err != nil {
			return wrong(io, "placard", "no password came from the input")
		}
		sheet.WiFi.Password = line
	}
	if what := sheet.WiFi.Check(); what != "" {
		return wrong(io, "placard", what)
	}
	if err := writePlacard(ctx, io.out, io.err, sheet, data); err != nil {
		fmt.Fprintf(io.err, "wirewake placard: %v\n", err)
		return failed
	}
	return done
}

// readPassword asks for the password where somebody types it, and shows none of it.
func readPassword(ctx context.Context, io console) (string, error) {
	fd := int(io.in.Fd())
	before, err := term.GetState(fd)
	if err != nil {
		return readLine(io.in) // it is no terminal
	}
	fmt.Fprint(io.err, "Password of the Wi-Fi: ")
	defer fmt.Fprintln(io.err)
	type answer struct {
		typed []byte
		err   error
	}
	answered := make(chan answer, 1)
	go func() {
		typed, err := term.ReadPassword(fd)
		answered <- answer{typed, err}
	}()
	select {
	case a := <-answered:
		return string(a.typed), a.err
	case <-ctx.Done():
		// Else the terminal would go on showing nothing.
		return "", errors.Join(ctx.Err(), term.Restore(fd, before))
	}
}

// readLine reads the first line of the input.
func readLine(in io.Reader) (string, error) {
	line, err := bufio.NewReader(in).ReadString('\n')
	if line = strings.TrimRight(line, "\r\n"); line != "" {
		return line, nil
	}
	return "", errors.Join(io.EOF, err)
}

// boatName is that which the skipper has entered, "" if there is none.
func boatName(s *tables.Store) (name string, err error) {
	entries, err := s.EntriesOf("boat")
	if err != nil {
		return "", err
	}
	for _, boat := range fold.Records(entries) {
		var told string
		// A name that is none has no text.
		if _ = json.Unmarshal(boat.Fields["name"].Value, &told); told != "" {
			name = told
		}
	}
	return name, nil
}

// fillIn puts on a sheet what was not told and the server knows.
func fillIn(ctx context.Context, sheet *placard.Sheet, s *tables.Store, warn io.Writer) (err error) {
	if sheet.Boat == "" {
		if sheet.Boat, err = boatName(s); err != nil {
			return err
		}
	}
	if sheet.Enter != "" {
		return nil
	}
	if sheet.Enter, err = s.Enter(); err != nil {
		return err
	}
	if sheet.Enter == "" {
		return fmt.Errorf("%s, or say with --address where phones find it", startFirst(ctx))
	}
	if u, err := url.Parse(sheet.Enter); err == nil && u.Hostname() == "localhost" {
		fmt.Fprint(warn, terminal.Wrap("The code on this sheet leads no phone to the app: "+onlyHere+"then make another sheet.\n"))
	}
	return nil
}

func writePlacard(ctx context.Context, to, warn io.Writer, sheet placard.Sheet, data string) error {
	s, err := openThere(ctx, data)
	switch {
	case err == nil:
		defer s.Close()
		if err := fillIn(ctx, &sheet, s, warn); err != nil {
			return err
		}
	case sheet.Enter == "":
		return fmt.Errorf("%w, or say with --address where phones find the server", err)
	}
	if strings.HasPrefix(sheet.Enter, "http://") {
		// Then the boat vouches for itself, if anybody does.
		sheet.Fingerprint = authority.FingerprintIn(data)
	}
	return sheet.Write(to)
}
