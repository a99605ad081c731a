package main

import (
	"context"
	"flag"
	"fmt"
	"os"

	"wirewake/server/harbour/quay"
	"wirewake/server/reach/wayin"
	"wirewake/server/store/postgres"
)

// placeHelp explains the flags that all commands need.
const placeHelp = `  --database URL   postgres://USER@HOST:PORT/NAME; its user owns the database and is no superuser
                   (default: $WIREWAKE_DATABASE, which nobody else on the computer can read)
  --address URL    where phones find the harbour, such as https://harbour.example: each boat is at its own name
                   before it, https://BOAT.harbour.example (default: $WIREWAKE_ADDRESS)
  --photos DIR     where photos are kept, the same place for all servers (default: $WIREWAKE_PHOTOS)
`

// place is where the harbour is.
type place struct{ database, address, photos string }

func (p *place) flags(flags *flag.FlagSet) {
	flags.StringVar(&p.database, "database", os.Getenv("WIREWAKE_DATABASE"), "")
	flags.StringVar(&p.address, "address", os.Getenv("WIREWAKE_ADDRESS"), "")
	flags.StringVar(&p.photos, "photos", os.Getenv("WIREWAKE_PHOTOS"), "")
}

// check says what is wrong with the flags, if anything is.
func (p *place) check() string {
	origin, problem := wayin.CheckAddress(p.address)
	switch {
	case p.database == "":
		return "--database must say where the database is, such as postgres://wirewake@127.0.0.1/wirewake"
	case problem != "":
		return fmt.Sprintf("--address %s, not %q", problem, p.address)
	case p.photos == "":
		return "--photos must name a directory"
	}
	p.address = origin
	return ""
}

// origin is where phones find a boat.
func (p *place) origin(boat string) (string, error) {
	at, err := quay.At(p.address)
	return at.Origin(boat), err
}

func (p *place) open(ctx context.Context) (*postgres.Harbour, error) {
	return postgres.Open(ctx, p.database)
}
