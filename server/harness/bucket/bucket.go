// Package bucket is an object store for tests.
//
// It is the module gofakes3, which answers S3's requests from memory as a handler: so a test can lose any one of them on the way
// there or back.
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

// New starts one for the time of a test.
func New(t testing.TB) *Store {
	t.Helper()
	t.Setenv("AWS_ACCESS_KEY_ID", "tests")
	t.Setenv("AWS_SECRET_ACCESS_KEY", "tests of the harbour")
	kept := s3mem.New()
	if err := kept.CreateBucket("wirewake"); err != nil {
		t.Fatal(err)
	}
	inner := gofakes3.New(kept).Server()
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
	s.Address = "s3+" + server.URL + "/wirewake"
	return s
}
