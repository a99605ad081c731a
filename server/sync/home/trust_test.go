package home

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"
	"time"

	"wirewake/server/trust/authority"
)

// ashore is a server with an authority of its own in front of the handler of home, and that authority's fingerprint.
func ashore(t *testing.T, p *pair) (front *httptest.Server, root string, asked *[]string) {
	t.Helper()
	boat, err := authority.Open(t.TempDir(), "wirewake", func() []netip.Addr { return nil }, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	asked = &[]string{}
	front = httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		*asked = append(*asked, r.URL.Path+r.Header.Get("Cookie"))
		if r.URL.Path == rootPath {
			w.Write(boat.Root())
			return
		}
		p.boats[atHome].Handler.ServeHTTP(w, r)
	}))
	front.TLS = nil
	front.StartTLS()
	front.TLS.Certificates, front.TLS.GetCertificate = nil, boat.GetCertificate
	front.Config.ErrorLog = slog.NewLogLogger(slog.DiscardHandler, slog.LevelError)
	t.Cleanup(front.Close)
	hash := sha256.Sum256(boat.Root())
	return front, hex.EncodeToString(hash[:]), asked
}

func TestHomesOwnAuthorityIsKnownByTheInvitation(t *testing.T) {
	p, _, _ := fresh(t)
	front, root, _ := ashore(t, p)
	p.begin("")
	p.link.Client = NewClient()
	p.link.Link = Link{URL: front.URL, Invitation: p.invitation("mate"), Root: root}
	p.together(t)
	// Started again without the whole link: what was told is kept.
	p.begin("")
	p.link.Client = NewClient()
	p.link.Link = Link{URL: front.URL}
	p.together(t)

	// Another server at that address gets nothing, not even the credential.
	other, _, got := ashore(t, p)
	p.begin("")
	p.link.Client = NewClient()
	for _, link := range []Link{{URL: other.URL, Invitation: "x", Root: root}, {URL: other.URL, Invitation: "x", Root: strings.Repeat("ab", 32)}} {
		p.link.Link = link
		if err := p.link.run(t.Context()); err == nil || !strings.Contains(err.Error(), "is not the server that made the invitation") {
			t.Errorf("%v", err)
		}
	}
	for _, path := range *got {
		if path != rootPath {
			t.Errorf("the other server was asked for %s", path)
		}
	}
	// And without a fingerprint nobody vouches for it: what to do is said.
	p.link.Client = NewClient()
	p.link.Link = Link{URL: other.URL, Invitation: "x"}
	if err := p.link.run(t.Context()); err == nil || !strings.Contains(err.Error(), "--home the whole link") {
		t.Errorf("%v", err)
	}
}

// What is wrong is told once, however the words of the error change, and how it stands is written down.
func TestTheSameTroubleIsToldOnce(t *testing.T) {
	p, _, _ := fresh(t)
	p.together(t)
	var log bytes.Buffer
	p.link.Log = slog.New(slog.NewTextHandler(&log, nil))
	p.link.Pauses = Pauses{there: time.Millisecond, here: time.Millisecond, first: time.Millisecond, most: time.Millisecond}
	through := p.line.through
	tries := 0
	ctx, cancel := context.WithCancel(t.Context())
	p.line.through = roundTrip(func(*http.Request) (*http.Response, error) {
		if tries++; tries == 20 {
			cancel()
		}
		return nil, &net.OpError{Op: "read", Net: "tcp", Source: &net.TCPAddr{Port: 40000 + tries}, Err: io.ErrUnexpectedEOF}
	})
	p.link.Keep(ctx)
	if n := strings.Count(log.String(), "not together with home"); n != 1 {
		t.Errorf("told %d times: %s", n, &log)
	}
	stands, ok, err := p.boats[atBox].Store.HomeStands()
	if err != nil || !ok || stands.URL != p.front.URL || stands.Apart == nil || stands.Why != "" {
		t.Errorf("%+v %v %v", stands, ok, err)
	}
	p.line.through = through
	ctx, cancel = context.WithCancel(t.Context())
	go func() {
		for {
			if stands, _, _ := p.boats[atBox].Store.HomeStands(); stands.Together != nil {
				cancel()
				return
			}
			time.Sleep(time.Millisecond)
		}
	}()
	p.link.Keep(ctx)
	if stands, _, _ := p.boats[atBox].Store.HomeStands(); stands.Apart != nil || stands.Why != "" {
		t.Errorf("%+v", stands)
	}
}
