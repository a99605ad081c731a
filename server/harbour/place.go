package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"wirewake/server/harbour/objects"
	"wirewake/server/harbour/quay"
	"wirewake/server/reach/wayin"
	"wirewake/server/store"
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

// needs is what else than the database is needed.
type needs struct{ address, photos bool }

// check says what is wrong with the flags that are needed, if anything is.
func (p *place) check(n needs) string {
	if p.database == "" {
		return "--database must say where the database is, such as postgres://wirewake@127.0.0.1/wirewake"
	}
	if n.address {
		origin, problem := wayin.CheckAddress(p.address)
		if problem == "" {
			problem = public(origin)
		}
		if problem != "" {
			return fmt.Sprintf("--address %s, not %q", problem, p.address)
		}
		p.address = origin
	}
	if n.photos && p.photos == "" {
		return "--photos must say where photos are kept, such as " + objects.Form + ", or a directory"
	}
	return ""
}

// public says why phones would find no boat below an origin, as a sentence without its start.
func public(origin string) string {
	u, err := url.Parse(origin)
	if err != nil {
		return "must be whole, such as https://harbour.example"
	}
	host := u.Hostname()
	if _, err := netip.ParseAddr(host); err == nil {
		return "must be a name such as https://harbour.example, since each boat's stands before it"
	}
	if u.Scheme != "https" && !strings.HasSuffix(host, ".localhost") {
		return "must begin with https://, without which phones neither keep the app nor come aboard"
	}
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
		if err := writable(p.photos); err != nil {
			return nil, fmt.Errorf("--photos must be a directory that this user may write in: %w", err)
		}
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

// writable tries whether something can be kept in a directory, which is made if need be.
func writable(dir string) error {
	if err := store.MakeDir(dir); err != nil {
		return err
	}
	tried, err := os.CreateTemp(dir, ".tried-")
	if err != nil {
		return err
	}
	return errors.Join(tried.Close(), os.Remove(tried.Name()))
}
