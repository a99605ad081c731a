package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"time"

	"wirewake/server/reach/qr"
	"wirewake/server/store"
	"wirewake/server/store/postgres"
	"wirewake/server/terminal"
	"wirewake/server/trust/enrol"
)

var boatHelp = `usage: wirewake-harbour boat add NAME       a boat of that name, and the link for its skipper's phone
       wirewake-harbour boat list           all of them, and how much each has of what it may
       wirewake-harbour boat quota NAME     how much it has of what it may; by the flags below, how much that is from now on.
                                            What is more stays; nothing more is taken, and phones keep it
       wirewake-harbour boat restored       say that the database was put back behind PostgreSQL's back, as by a snapshot of the
                                            volume: every boat has another epoch, and phones bring what is lacking
       wirewake-harbour boat suspend NAME   serve it no more, within two seconds on every server; nothing of it goes
       wirewake-harbour boat resume NAME    serve it again
       wirewake-harbour boat invite NAME    another link; --role mate, with which its box comes aboard by --home
       wirewake-harbour boat import NAME DIR
                                            a boat of that name with all that is in the data directory DIR of a boat's
                                            own server, which has to be stopped: notes, phones, photos, the same epoch
       wirewake-harbour boat export NAME DIR
                                            the same way out, into a new directory; suspend it first

NAME is small letters, digits and hyphens: the first part of the boat's address.

` + placeHelp + `  --role ROLE      with invite: skipper or mate (default skipper)
` + fmt.Sprintf(`  --entries N      with quota: how many entries the log may have (usual: %d)
  --bytes SIZE     with quota: how large photos and traces may be together, such as 500M or 20G (usual: %s)
  --requests N     with quota: how many requests each server answers in a second (usual: %d)
                   The word usual instead of a number is as much as that, should it change, too.
`, postgres.Usual.Entries, size(postgres.Usual.Bytes), postgres.Usual.Requests)

type boatFlags struct {
	place
	role string
	// As they were typed, and read.
	entries, bytes, requests string
	most                     postgres.Quota
}

func boat(ctx context.Context, io console, args []string) int {
	f := boatFlags{}
	flags := flag.NewFlagSet("boat", flag.ContinueOnError)
	f.place.flags(flags)
	flags.StringVar(&f.role, "role", string(store.Skipper), "")
	flags.StringVar(&f.entries, "entries", "", "")
	flags.StringVar(&f.bytes, "bytes", "", "")
	flags.StringVar(&f.requests, "requests", "", "")
	words, code, ok := parse(flags, io, boatHelp, args)
	if !ok {
		return code
	}
	do, what := f.find(words)
	if what = cmp.Or(what, f.checkQuota(words)); what != "" {
		return wrong(io, "boat", what)
	}
	if what := f.check(needed[words[0]]); what != "" {
		return wrong(io, "boat", what)
	}
	harbour, err := f.open(ctx)
	if err == nil {
		err = do(ctx, io, harbour)
		harbour.Close()
	}
	if err != nil {
		fmt.Fprintf(io.err, "wirewake-harbour boat: %v\n", err)
		return failed
	}
	return done
}

// act is something done to the boats.
type act func(ctx context.Context, io console, h *postgres.Harbour) error

// needed are the commands there are, each with what it needs besides the database.
var needed = map[string]needs{
	"list": {}, "restored": {}, "quota": {}, "suspend": {}, "resume": {},
	"add": {address: true}, "invite": {address: true}, "import": {photos: true}, "export": {photos: true},
}

// find finds what is asked for.
func (f *boatFlags) find(words []string) (do act, wrong string) {
	if len(words) == 0 {
		return nil, "takes what to do and the name of a boat, such as add tern"
	}
	what := words[0]
	if _, there := needed[what]; !there {
		return nil, fmt.Sprintf("there is no command boat %s", what)
	}
	ofAll := map[string]act{"list": list, "restored": func(ctx context.Context, _ console, h *postgres.Harbour) error { return h.Restored(ctx) }}
	if do := ofAll[what]; do != nil {
		if len(words) > 1 {
			return nil, fmt.Sprintf("%s is of all boats and takes no name, not %q", what, words[1])
		}
		return do, ""
	}
	moves := what == "import" || what == "export"
	switch {
	case moves && len(words) != 3:
		return nil, what + " takes the name of a boat and a directory, such as " + what + " tern DIR"
	case !moves && len(words) != 2:
		return nil, what + " takes the name of one boat, such as " + what + " tern"
	}
	name := words[1]
	if wrong := postgres.CheckName(name); wrong != "" {
		return nil, fmt.Sprintf("a boat's name %s, not %q", wrong, name)
	}
	if moves {
		return func(ctx context.Context, io console, h *postgres.Harbour) error {
			return f.move(ctx, io, h, what, name, words[2])
		}, ""
	}
	role := store.Role(f.role)
	switch what {
	case "add":
		if role != store.Skipper {
			return nil, fmt.Sprintf("--role goes with invite: the first link is the skipper's, not that of a %s", f.role)
		}
		return func(ctx context.Context, io console, h *postgres.Harbour) error { return f.add(ctx, io, h, name) }, ""
	case "quota":
		return func(ctx context.Context, io console, h *postgres.Harbour) error { return f.quota(ctx, io, h, name) }, ""
	case "suspend":
		return func(ctx context.Context, io console, h *postgres.Harbour) error {
			return suspend(ctx, io, h, name, time.Now())
		}, ""
	case "resume":
		return func(ctx context.Context, io console, h *postgres.Harbour) error {
			return suspend(ctx, io, h, name, time.Time{})
		}, ""
	}
	if role != store.Skipper && role != store.Mate {
		return nil, fmt.Sprintf("--role must be skipper or mate, not %q: guests are invited by the crew", f.role)
	}
	return func(ctx context.Context, io console, h *postgres.Harbour) error { return f.invite(ctx, io, h, name) }, ""
}

func list(ctx context.Context, io console, h *postgres.Harbour) error {
	all, err := h.List(ctx)
	if err == nil && len(all) == 0 {
		fmt.Fprintln(io.out, "There is no boat yet: boat add NAME adds one.")
	}
	for _, b := range all {
		since := ""
		if b.Suspended != nil {
			since = ", suspended since " + b.Suspended.Local().Format(time.DateOnly)
		}
		fmt.Fprintf(io.out, "%s, since %s%s: %s\n", b.Name, b.Added.Local().Format(time.DateOnly), since, told(b))
	}
	return err
}

// add adds a boat together with the link for its skipper.
func (f *boatFlags) add(ctx context.Context, io console, h *postgres.Harbour, name string) error {
	origin, err := f.origin(name)
	if err != nil {
		return err
	}
	now := time.Now()
	ticket, invited := f.invitation().Draw(origin, now)
	ok, err := h.Add(ctx, name, now, invited)
	switch {
	case err != nil:
		return err
	case !ok:
		return taken(name)
	}
	return show(io, ticket, name)
}

func suspend(ctx context.Context, _ console, h *postgres.Harbour, name string, since time.Time) error {
	ok, err := h.Suspend(ctx, name, since)
	if err == nil && !ok {
		err = none(name)
	}
	return err
}

func taken(name string) error { return fmt.Errorf("there is a boat %s already", name) }

func none(name string) error {
	return fmt.Errorf("there is no boat %s; boat list tells which there are", name)
}

// inviteHours is how long the first link is good: it is handed on by whoever keeps the harbour.
const inviteHours = 72

func (f *boatFlags) invite(ctx context.Context, io console, h *postgres.Harbour, name string) error {
	s, ok, err := h.Boat(ctx, name)
	switch {
	case err != nil:
		return err
	case !ok:
		return none(name)
	case s == nil:
		return fmt.Errorf("the boat %s is suspended: resume it first", name)
	}
	origin, err := f.origin(name)
	if err != nil {
		return err
	}
	ticket, err := f.invitation().Make(s, origin, time.Now())
	if err != nil {
		return err
	}
	if store.Role(f.role) == store.Mate {
		fmt.Fprintf(io.out, "The boat's box comes aboard with\n  --home %s\n", terminal.Quoted(ticket.URL))
		return nil
	}
	return show(io, ticket, name)
}

func (f *boatFlags) invitation() enrol.Invitation {
	return enrol.Invitation{Role: store.Role(f.role), Hours: inviteHours, Uses: 1}
}

// show shows the link for the phone of a skipper.
func show(io console, ticket enrol.Ticket, boat string) error {
	code, err := qr.Terminal(ticket.URL, terminal.Coloured(io.out))
	if err == nil {
		fmt.Fprintf(io.out, "%s\n\n%s\nFor the phone of the skipper of %s, until %s, once.\n", ticket.URL, code, boat, ticket.Ends.Local().Format("2 January, 15:04"))
	}
	return err
}
