package main

import (
	"cmp"
	"context"
	"encoding/hex"
	"fmt"
	"strings"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/fold"
	"wirewake/server/store"
	"wirewake/server/store/tables"
)

// open lists the invitations that are open, or ends one of them.
func (f *inviteFlags) open(ctx context.Context, io console) error {
	s, err := openThere(ctx, f.data)
	if err != nil {
		return err
	}
	defer s.Close()
	all, err := s.Invitations(time.Now())
	if err != nil {
		return err
	}
	if f.list {
		return listOpen(io, s, all)
	}
	ended := 0
	for _, o := range all {
		if f.end != "all" && !strings.EqualFold(f.end, wordOf(o)) {
			continue
		}
		ok, err := s.EndInvitation(o.ID)
		if err != nil {
			return err
		}
		if ok {
			ended++
		}
	}
	if ended == 0 && f.end != "all" {
		return fmt.Errorf("no open invitation has the word %q; %s tells which there are", f.end, sameData("wirewake invite --list", f.data))
	}
	them := "them"
	if ended == 1 {
		them = "it"
	}
	fmt.Fprintf(io.out, "%d ended; nobody comes aboard by %s any more.\n", ended, them)
	return nil
}

// wordOf is by what an invitation is named in the terminal: no one can come aboard by it.
func wordOf(o store.OpenInvitation) string { return hex.EncodeToString(o.ID[:4]) }

func listOpen(io console, s *tables.Store, all []store.OpenInvitation) error {
	if len(all) == 0 {
		fmt.Fprintln(io.out, "No invitation is open.")
		return nil
	}
	entries, err := s.EntriesOf("trip")
	if err != nil {
		return err
	}
	trips := map[uuid.UUID]string{}
	for _, trip := range fold.Records(entries) {
		trips[trip.Trip] = tripWords(trip)
	}
	for _, o := range all {
		what := string(o.Role)
		if o.Trip != nil {
			what += " of the trip " + cmp.Or(trips[*o.Trip], "that is not here, "+o.Trip.String())
		}
		made := ""
		if o.Made != nil {
			made = ", made " + o.Made.Local().Format(clock)
			if o.Maker != "" {
				made += fmt.Sprintf(" by %q", o.Maker)
			}
		}
		phones := "phones"
		if o.Uses == 1 {
			phones = "phone"
		}
		fmt.Fprintf(io.out, "  %s  %s, for %d %s, until %s%s\n", wordOf(o), what, o.Uses, phones, o.Ends.Local().Format(clock), made)
	}
	return nil
}
