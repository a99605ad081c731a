// Package bucket is an object store for tests.
//
// It is the module gofakes3. [Store] answers S3's requests from memory as a handler, so that a test can lose any one of them on the
// way there or back; [Process] is one of its own, which a test can kill.
package bucket

import (
	"net/http"
	"net/http/httptest"
	"sync/atomic"
	"testing"

	"github.com/johannesboyne/gofakes3"
	"github.com/johannesboyne/gofakes3/backend/s3mem"
)

// Store is one with a bucket in it.
type Store struct {
	// Address is where the bucket is.
	Address string
	// Lose, if it is not nil, says what becomes of a request.
	Lose atomic.Pointer[func(r *http.Request) Loss]
	// Asked counts requests.
	Asked atomic.Int64
}

// Loss is where a request is lost.
type Loss int

// A request comes about, is lost on the way there, or its answer on the way back.
const (
	Nothing Loss = iota
	There
	Back
)

// name is that of the bucket.
const name = "wirewake"

// mayEnter gives a test keys; any are good.
func mayEnter(t testing.TB) {
	t.Helper()
	t.Setenv("AWS_ACCESS_KEY_ID", "tests")
	t.Setenv("AWS_SECRET_ACCESS_KEY", "tests of the harbour")
}

// New starts one for the time of a test.
func New(t testing.TB) *Store {
	t.Helper()
	mayEnter(t)
	kept := s3mem.New()
	if err := kept.CreateBucket(name); err != nil {
		t.Fatal(err)
	}
	return before(t, gofakes3.New(kept).Server())
}

// before is one that loses requests before they come to a handler, or its answers.
func before(t testing.TB, inner http.Handler) *Store {
	t.Helper()
	s := &Store{}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.Asked.Add(1)
		loss := Nothing
		if lose := s.Lose.Load(); lose != nil {
			loss = (*lose)(r)
		}
		if loss == Back {
			inner.ServeHTTP(httptest.NewRecorder(), r)
		}
		if loss != Nothing {
			panic(http.ErrAbortHandler)
		}
		inner.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	s.Address = "s3+" + server.URL + "/" + name
	return s
}
