// Package objects keeps photos and traces of many boats in an object store that speaks S3, for several servers: all there is of
// one lies there, also while it is on its way.
package objects

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"net/url"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/minio/minio-go/v7"
	"github.com/minio/minio-go/v7/pkg/credentials"
)

// Bucket is one of an object store.
type Bucket struct {
	client *minio.Client
	name   string
}

// Form is how the address of one is written.
const Form = "s3://HOST:PORT/BUCKET or s3+http://HOST:PORT/BUCKET"

// Open opens a bucket at an address, as whoever the environment names: AWS_ACCESS_KEY_ID, AWS_SECRET_ACCESS_KEY and AWS_REGION.
func Open(ctx context.Context, address string) (*Bucket, error) {
	u, err := url.Parse(address)
	name := ""
	if err == nil {
		name = strings.Trim(u.Path, "/")
	}
	if err != nil || u.Scheme != "s3" && u.Scheme != "s3+http" || u.Host == "" || name == "" || strings.Contains(name, "/") || u.User != nil {
		return nil, fmt.Errorf("the address of an object store has the form %s", Form)
	}
	client, err := minio.New(u.Host, &minio.Options{
		Creds: credentials.NewEnvAWS(), Secure: u.Scheme == "s3", Region: region(), BucketLookup: minio.BucketLookupPath, MaxRetries: tries,
	})
	if err != nil {
		return nil, err
	}
	b := &Bucket{client, name}
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	switch there, err := client.BucketExists(ctx, name); {
	case err != nil:
		return nil, fmt.Errorf("the object store cannot be used: %w", err)
	case !there:
		return nil, fmt.Errorf("the object store has no bucket %s; make it first", name)
	}
	return b, nil
}

// patience is how long the store has to answer, tries how often it is asked until it does.
const (
	patience = 20 * time.Second
	tries    = 3
)

func in() (context.Context, context.CancelFunc) {
	return context.WithTimeout(context.Background(), patience)
}

// lacks turns what the store says of an object that is not there into [fs.ErrNotExist].
func lacks(err error) error {
	if said := minio.ToErrorResponse(err); said.StatusCode == http.StatusNotFound && said.Code != "NoSuchBucket" {
		return fs.ErrNotExist
	}
	return err
}

// size is how many bytes an object has.
func (b *Bucket) size(key string) (int64, error) {
	ctx, cancel := in()
	defer cancel()
	info, err := b.client.StatObject(ctx, b.name, key, minio.StatObjectOptions{})
	return info.Size, lacks(err)
}

// get is the content of an object, which may have so many bytes at most.
func (b *Bucket) get(key string, most int64) ([]byte, error) {
	ctx, cancel := in()
	defer cancel()
	object, err := b.client.GetObject(ctx, b.name, key, minio.GetObjectOptions{})
	if err != nil {
		return nil, lacks(err)
	}
	defer object.Close()
	content, err := io.ReadAll(io.LimitReader(object, most+1))
	if err == nil && int64(len(content)) > most {
		err = fmt.Errorf("%s has more than %d bytes", key, most)
	}
	return content, lacks(err)
}

func (b *Bucket) put(key string, content []byte) error {
	ctx, cancel := in()
	defer cancel()
	_, err := b.client.PutObject(ctx, b.name, key, bytes.NewReader(content), int64(len(content)), minio.PutObjectOptions{DisableMultipart: true, SendContentMd5: true})
	return err
}

// remove takes objects away; one that is not there is none the less gone.
func (b *Bucket) remove(keys ...string) error {
	for _, key := range keys {
		ctx, cancel := in()
		err := b.client.RemoveObject(ctx, b.name, key, minio.RemoveObjectOptions{})
		cancel()
		if err = lacks(err); err != nil && err != fs.ErrNotExist {
			return err
		}
	}
	return nil
}

// object is one by its name below what was asked for.
type object struct {
	name  string
	bytes int64
}

// list are the objects below a prefix, by name.
func (b *Bucket) list(prefix string) (all []object, err error) {
	ctx, cancel := in()
	defer cancel()
	for info := range b.client.ListObjects(ctx, b.name, minio.ListObjectsOptions{Prefix: prefix, Recursive: true}) {
		if info.Err != nil {
			return nil, info.Err
		}
		all = append(all, object{strings.TrimPrefix(info.Key, prefix), info.Size})
	}
	slices.SortFunc(all, func(a, b object) int { return cmp.Compare(a.name, b.name) })
	return all, nil
}

// region is where the environment says that the store is; one that stands alone has the name of the first that there was.
func region() string { return cmp.Or(os.Getenv("AWS_REGION"), "us-east-1") }
