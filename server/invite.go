package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/log/fold"
	"wirewake/server/reach/qr"
	"wirewake/server/reach/wayin"
	"wirewake/server/store"
	"wirewake/server/store/tables"
	"wirewake/server/sync/home"
	"wirewake/server/terminal"
	"wirewake/server/trust/authority"
	"wirewake/server/trust/enrol"
)

// roleHelp explains --role and --trip for the commands that take a phone aboard.
const roleHelp = `  --role ROLE      skipper: all of it. mate: the whole log. guest: one trip
  --trip TRIP      the trip of a guest, by its name, its id or the beginning of that
`

const inviteHelp = `usage: wirewake invite --role ROLE [flags]
       wirewake invite --list
       wirewake invite --end WORD

Lets phones come aboard: prints a link with its QR code, and a code to type in the app instead. The server
may be running. The first skipper needs none: wirewake welcome says yes to the phone that asks. After that the
skipper's phone can invite, too.
Whoever has the link of an invitation that is open can come aboard by it, also after being shut out.

` + roleHelp + `  --hours N        how long the invitation lives, 1 to 720 (default 24)
  --uses N         how many phones it is for, 1 to 32 (default 1)
  --list           list the invitations that are open, each with a word
  --end WORD       end one by its word, or all
  --address URL    where phones find the server (default: as it was last started)
` + dataHelp

// inviteFlags are the flags of invite.
type inviteFlags struct {
	role, trip, address, data string
	hours, uses               int
	// list and end are of the invitations that are open.
	list bool
	end  string
	// given is how many flags there were besides --data.
	given int
}

func invite(ctx context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("invite", flag.ContinueOnError)
	var f inviteFlags
	flags.StringVar(&f.role, "role", "", "")
	flags.StringVar(&f.trip, "trip", "", "")
	flags.IntVar(&f.hours, "hours", 24, "")
	flags.IntVar(&f.uses, "uses", 1, "")
	flags.StringVar(&f.address, "address", "", "")
	flags.BoolVar(&f.list, "list", false, "")
	flags.StringVar(&f.end, "end", "", "")
	dataFlag(flags, &f.data)
	words, code, ok := parse(flags, io, args)
	flags.Visit(func(one *flag.Flag) {
		if one.Name != "data" {
			f.given++
		}
	})
	if !ok {
		return code
	}
	if code, ok = noWords(io, "invite", words); !ok {
		return code
	}
	if what := f.check(); what != "" {
		return wrong(io, "invite", what)
	}
	do := f.make
	if f.isOfOpen() {
		do = f.open
	}
	if err := do(ctx, io); err != nil {
		fmt.Fprintf(io.err, "wirewake invite: %v\n", err)
		return failed
	}
	return done
}

// check says what is wrong with the flags, but for which trips there are.
func (f *inviteFlags) check() string {
	switch {
	case f.data == "":
		return noData
	case f.isOfOpen() && f.given > 1:
		return "--list and --end go alone"
	case f.isOfOpen():
		return ""
	case f.role == "":
		return "say who comes aboard: --role " + enrol.AnyRole()
	}
	if what := lacksTrip(f.role, f.trip); what != "" {
		return what
	}
	i := f.invitation(nil)
	if f.trip != "" {
		i.Trip = new(uuid.UUID)
	}
	if what := i.Check(); what != "" {
		return what
	}
	if f.address != "" {
		origin, problem := wayin.CheckAddress(f.address)
		if problem != "" {
			return fmt.Sprintf("--address %s, not %q", problem, f.address)
		}
		f.address = origin
	}
	return ""
}

// lacksTrip asks for the trip of a role that is bound to one, or is "".
func lacksTrip(role, trip string) string {
	if r := store.Role(role); slices.Contains(store.Roles(), r) && !r.May(contract.Trips) && trip == "" {
		return "say which trip the " + role + " sees: --trip TRIP"
	}
	return ""
}

func (f *inviteFlags) isOfOpen() bool { return f.list || f.end != "" }

func (f *inviteFlags) invitation(trip *uuid.UUID) enrol.Invitation {
	return enrol.Invitation{Role: store.Role(f.role), Trip: trip, Hours: f.hours, Uses: f.uses}
}

func (f *inviteFlags) make(ctx context.Context, io console) error {
	s, err := openThere(ctx, f.data)
	if err != nil {
		return err
	}
	defer s.Close()
	address := f.address
	if what := unreached(address); what != "" {
		fmt.Fprint(io.err, terminal.Wrap(what+"\n"))
	}
	if address == "" {
		if address, err = s.Address(); err != nil {
			return err
		}
	}
	if err := reachable(ctx, address); err != nil {
		return err
	}
	if u, err := url.Parse(address); err == nil && u.Hostname() == "localhost" {
		fmt.Fprint(io.err, terminal.Wrap("No other device can use this link: "+onlyHere+"then make another link.\n"))
	}
	var trip *uuid.UUID
	if f.trip != "" {
		if trip, err = findTrip(s, f.trip); err != nil {
			return err
		}
	}
	now := time.Now()
	ticket, err := f.invitation(trip).Make(s, address, now)
	if err != nil {
		return err
	}
	if err := printTicket(io, ticket); err != nil {
		return err
	}
	// A server at home does what the crew does, and takes nobody aboard.
	if r := store.Role(f.role); r.May(contract.Crew) && !r.May(contract.Invite) {
		f.printHome(io, ticket, address)
	}
	return nil
}

// printHome tells how another server of the boat comes aboard here: its link says by which authority to know this one.
func (f *inviteFlags) printHome(io console, t enrol.Ticket, address string) {
	link := home.Link{URL: address, Invitation: t.Invitation}
	if u, err := url.Parse(address); err == nil && authority.VouchesIn(f.data, u.Hostname()) {
		link.Root = strings.ToLower(strings.ReplaceAll(authority.FingerprintIn(f.data), ":", ""))
	}
	fmt.Fprintf(io.out, "\nThe boat's box comes aboard instead with\n%s--home %s\n", indent, terminal.Quoted(link.String()))
}

// onlyHere is why an address leads no phone here, and what to do about it first.
const onlyHere = "when the server was last started, only this computer could reach it. For phones, start it so that they " +
	"reach it (it says how), "

// reachable says why phones could not come aboard at an address.
func reachable(ctx context.Context, address string) error {
	if address == "" {
		return fmt.Errorf("%s, or say with --address where phones find it", startFirst(ctx))
	}
	u, err := url.Parse(address)
	if err != nil {
		return err
	}
	if u.Scheme != "https" && u.Hostname() != "localhost" {
		return fmt.Errorf("phones find the server at %s, and over plain http no phone can come aboard: start the server without "+
			"an --address that begins with http (wirewake serve --help says how), or say here with --address under which https address "+
			"phones find it", address)
	}
	return nil
}

// clock is how a moment of these days is written in the terminal.
const clock = "2 January, 15:04"

func printTicket(io console, t enrol.Ticket) error {
	code, err := qr.Terminal(t.URL, terminal.Coloured(io.out))
	if err != nil {
		return err
	}
	fmt.Fprintf(io.out, "\n  %s\n\n%s\n", t.URL, code)
	fmt.Fprint(io.out, terminal.Wrap(fmt.Sprintf("The link is good until %s. Or type this in the app, until %s, on one phone: %s\n",
		t.Ends.Local().Format(clock), t.CodeEnds.Local().Format("15:04"), t.Code)))
	return nil
}

// fewest is how much of the beginning of an id names a trip.
const fewest = 4

// findTrip finds a trip of the log by its id or the beginning of it, or by its name.
func findTrip(s *tables.Store, asked string) (*uuid.UUID, error) {
	entries, err := s.EntriesOf("trip")
	if err != nil {
		return nil, err
	}
	trips := fold.Records(entries)
	var found, begin []fold.Record
	for _, trip := range trips {
		switch id := trip.Trip.String(); {
		case strings.EqualFold(asked, id), isCalled(trip, asked):
			found = append(found, trip)
		case len(asked) >= fewest && strings.HasPrefix(id, strings.ToLower(asked)):
			begin = append(begin, trip)
		}
	}
	if len(found) == 0 {
		found = begin
	}
	switch {
	case len(found) == 1:
		return &found[0].Trip, nil
	case len(found) > 1:
		return nil, fmt.Errorf("there are %d trips %q; name one by so much of its id as no other has:\n%s", len(found), asked, listTrips(found))
	case len(trips) == 0:
		return nil, fmt.Errorf("there is no trip on this server yet; let a phone that has one come aboard and bring it")
	}
	return nil, fmt.Errorf("there is no trip %q; name one, or the beginning of its id:\n%s", asked, listTrips(trips))
}

// isCalled says whether a trip is called so: by its name, as a phone shows it with its ground, or as a list here has it.
func isCalled(trip fold.Record, asked string) bool {
	name := tripName(trip)
	return slices.ContainsFunc([]string{name, strconv.Quote(name), name + " · " + text(trip, "ground"), tripWords(trip)}, func(called string) bool {
		return strings.EqualFold(asked, called)
	})
}

func tripName(trip fold.Record) string {
	var name string
	// A name that is none has no text.
	_ = json.Unmarshal(trip.Fields["name"].Value, &name)
	return name
}

// tripWords tell a trip from another, also where it has no name.
func tripWords(trip fold.Record) string {
	opened := trip.Entries[0].At
	// Where it does not say so, the trip was opened when it was first noted.
	_ = json.Unmarshal(trip.Fields["opened"].Value, &opened)
	named := "without a name"
	if name := tripName(trip); name != "" {
		named = strconv.Quote(name)
	}
	return named + ", of " + time.UnixMilli(opened).Local().Format("2 January 2006, 15:04")
}

// listTrips lists the last trips, the newest first.
func listTrips(trips []fold.Record) string {
	const most = 10
	var text strings.Builder
	for i := len(trips) - 1; i >= max(0, len(trips)-most); i-- {
		fmt.Fprintf(&text, "  %v  %s\n", trips[i].Trip, tripWords(trips[i]))
	}
	return strings.TrimSuffix(text.String(), "\n")
}
