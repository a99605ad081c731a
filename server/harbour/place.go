package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"wirewake/server/harbour/objects"
	"wirewake/server/harbour/quay"
	"wirewake/server/reach/wayin"
	"wirewake/server/store/postgres"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

// placeHelp explains the flags that all commands need.
const placeHelp = `  --database URL   postgres://USER@HOST:PORT/NAME; its user owns the database and is no superuser
                   (default: $WIREWAKE_DATABASE, which nobody else on the computer can read)
  --address URL    where phones find the harbour, such as https://harbour.example: each boat is at its own name
                   before it, https://BOAT.harbour.example (default: $WIREWAKE_ADDRESS)
  --photos PLACE   where photos are kept, the same for all servers: a bucket of an object store, as s3://HOST:PORT/BUCKET, or
                   s3+http:// on a network of your own, with AWS_ACCESS_KEY_ID, AWS_SECRET_ACCESS_KEY and AWS_REGION; or
                   a directory (default: $WIREWAKE_PHOTOS)
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
		return "--photos must say where photos are kept, such as " + objects.Form + ", or a directory"
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

// shelves give each boat the place of its photos and traces.
type shelves func(boat string) (photos.Shelf, traces.Whole)

func (p *place) shelves(ctx context.Context) (shelves, error) {
	if !strings.HasPrefix(p.photos, "s3") || !strings.Contains(p.photos, "://") {
		return func(boat string) (photos.Shelf, traces.Whole) {
			data := filepath.Join(p.photos, boat)
			return photos.NewFolder(data), traces.NewShelf(data)
		}, nil
	}
	bucket, err := objects.Open(ctx, p.photos)
	if err != nil {
		return nil, err
	}
	return func(boat string) (photos.Shelf, traces.Whole) { return bucket.Photos(boat), bucket.Traces(boat) }, nil
}
