package main

import (
	"context"
	"flag"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	"wirewake/server/store"
	"wirewake/server/store/tables"
	"wirewake/server/trust/enrol"
)

const welcomeHelp = `usage: wirewake welcome [WORD --role ROLE [flags]]

Says yes to a phone that asks to come aboard, by the word that it shows; without a word, lists those that ask.
The first skipper's phone comes aboard by this. After that the skipper's phone can say yes, to a guest or a mate;
another skipper it invites, or is told yes here.

` + roleHelp + dataHelp

func welcome(ctx context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("welcome", flag.ContinueOnError)
	var role, trip, data string
	flags.StringVar(&role, "role", "", "")
	flags.StringVar(&trip, "trip", "", "")
	dataFlag(flags, &data)
	words, code, ok := parse(flags, io, args)
	switch {
	case !ok:
		return code
	case data == "":
		return wrong(io, "welcome", noData)
	case len(words) > 1:
		return wrong(io, "welcome", "takes one word, that which the phone shows")
	case len(words) == 1 && role == "":
		return wrong(io, "welcome", "say as what it comes aboard: --role "+enrol.AnyRole())
	case role != "" && !slices.Contains(store.Roles(), store.Role(role)):
		return wrong(io, "welcome", fmt.Sprintf("--role must be %s, not %q", enrol.AnyRole(), role))
	case len(words) == 1 && lacksTrip(role, trip) != "":
		return wrong(io, "welcome", lacksTrip(role, trip))
	case len(words) == 0 && role+trip != "":
		return wrong(io, "welcome", "say to which phone: the word that it shows")
	}
	s, err := openThere(ctx, data)
	if err == nil {
		defer s.Close()
		if len(words) == 0 {
			err = listAsks(io, s)
		} else {
			err = sayYes(io, s, data, words[0], enrol.Welcome{Role: store.Role(role)}, trip)
		}
	}
	if err != nil {
		fmt.Fprintf(io.err, "wirewake welcome: %v\n", err)
		return failed
	}
	return done
}

func listAsks(io console, s *tables.Store) error {
	all, err := s.Asks(time.Now())
	if err != nil {
		return err
	}
	for _, a := range all {
		stands := "since " + a.Asked.Local().Format("15:04")
		if a.Said == store.Yes {
			stands = fmt.Sprintf("was told yes as %s; it comes aboard by itself, until %s", a.Role, a.Ends.Local().Format("15:04"))
		}
		fmt.Fprintf(io.out, "  %-8s  %q, %s\n", a.Word, a.Name, stands)
	}
	if len(all) == 0 {
		fmt.Fprintln(io.out, "No phone asks to come aboard.")
	}
	return nil
}

func sayYes(io console, s *tables.Store, data, word string, w enrol.Welcome, trip string) (err error) {
	if trip != "" {
		if w.Trip, err = findTrip(s, trip); err != nil {
			return err
		}
	}
	w.Word = strings.ToLower(word)
	device, err := whoAsks(s, data, w.Word)
	if err != nil {
		return err
	}
	a, ok, what, err := w.Say(s, device, time.Now())
	switch {
	case err != nil:
		return err
	case what != "":
		return fmt.Errorf("%s", what)
	case !ok:
		return fmt.Errorf("no phone asks under the word %q any more", word)
	}
	fmt.Fprintf(io.out, "%q may come aboard as %s. It does so by itself, within an hour.\n", a.Name, w.Role)
	return nil
}

// whoAsks finds the phone that asks under a word.
func whoAsks(s *tables.Store, data, word string) (device uuid.UUID, err error) {
	all, err := s.Asks(time.Now())
	if err != nil {
		return device, err
	}
	for _, a := range all {
		if a.Word == word {
			return a.Device, nil
		}
	}
	return device, fmt.Errorf("no phone asks under the word %q; %s lists those that ask", word, sameData("wirewake welcome", data))
}
