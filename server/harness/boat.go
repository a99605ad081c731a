// Package harness runs the real handler over the real store for tests, and plays phones that keep to the
// protocol document.
package harness

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/embed"
	"wirewake/server/http/web"
	"wirewake/server/instruments/heard"
	"wirewake/server/instruments/stream"
	"wirewake/server/reach/wayin"
	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/tables"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
	"wirewake/server/trust/enrol"
)

// TB is what the harness needs of a test, a benchmark or a property.
type TB interface {
	Helper()
	Fatalf(format string, args ...any)
}

// Origin is where the app is loaded from.
const Origin = "https://boat.example:8610"

// Clock is a clock that stands still unless it is moved.
type Clock struct {
	mu    sync.Mutex
	now   time.Time
	slept time.Duration
}

// Now is the time it shows.
func (c *Clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

// Move moves it on.
func (c *Clock) Move(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
}

// Sleep moves it on, too, and is remembered.
func (c *Clock) Sleep(d time.Duration) {
	c.Move(max(0, d))
	c.mu.Lock()
	defer c.mu.Unlock()
	c.slept += max(0, d)
}

// Slept is for how long Sleep was asked in all.
func (c *Clock) Slept() time.Duration {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.slept
}

// Boat is a server: the real handler over the real store, without the network.
type Boat struct {
	Dir   string
	Store *tables.Store
	// File is the store as the file that it is in.
	File    *sqlite.Store
	Shelf   *photos.Folder
	Clock   *Clock
	Handler http.Handler
	// Instruments is what they say; Hub tells it to phones, when a test lets it beat.
	Instruments *heard.Picture
	Hub         *stream.Hub
	// Stopping, once it is closed, ends what lasts.
	Stopping chan struct{}
}

// FreshBoat is a server over a data directory of its own, closed at the end of the test.
func FreshBoat(t testing.TB) *Boat {
	t.Helper()
	b := NewBoat(t, t.TempDir())
	t.Cleanup(b.Close)
	return b
}

// NewBoat opens a server over a data directory. Close it before another opens over the same.
func NewBoat(t TB, dir string) *Boat {
	t.Helper()
	b := &Boat{Dir: dir, Stopping: make(chan struct{}), Clock: &Clock{now: time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)}}
	s, err := sqlite.Open(context.Background(), dir)
	if err != nil {
		t.Fatalf("the store does not open: %v", err)
	}
	b.Store, b.File, b.Shelf = s.Store, s, photos.NewFolder(dir)
	log := slog.New(slog.DiscardHandler)
	b.Instruments = &heard.Picture{Now: b.Clock.Now}
	b.Hub = stream.NewHub(b.Instruments)
	b.Handler = web.New(web.Parts{
		App: embed.Files{}, Store: b.Store, Shelf: b.Shelf, Log: log, Now: b.Clock.Now, Sleep: b.Clock.Sleep, Stopping: b.Stopping, Instruments: b.Hub, Traces: traces.NewShelf(dir),
		Door: &wayin.Door{
			Finder: wayin.Finder{
				Listen:  netip.MustParseAddrPort("127.0.0.1:8610"),
				Address: Origin,
				Machine: func() wayin.Machine { return wayin.Machine{} },
			},
			Store: b.Store, Log: log, Now: b.Clock.Now,
		},
	})
	return b
}

// Keeper looks after the photos.
func (b *Boat) Keeper() *photos.Keeper {
	return &photos.Keeper{Shelf: b.Shelf, Store: b.Store, Log: slog.New(slog.DiscardHandler)}
}

// Close closes the store.
func (b *Boat) Close() { b.Store.Close() }

// Reply is what the server answered.
type Reply struct {
	Status int
	Header http.Header
	Body   []byte
}

// Read reads a reply of JSON.
func (r Reply) Read(t TB, into any) {
	t.Helper()
	if err := json.Unmarshal(r.Body, into); err != nil {
		t.Fatalf("%d %s: %v", r.Status, r.Body, err)
	}
}

// Code is the code of a reply that is not a success.
func (r Reply) Code() string {
	var said struct{ Code, Text string }
	if json.Unmarshal(r.Body, &said) != nil || said.Text == "" {
		return ""
	}
	return said.Code
}

// Asker is a browser at the app's page: with a cookie if it is aboard.
type Asker struct {
	Handler http.Handler
	// At is where its page was loaded from, [Origin] if that is not said.
	At     string
	Token  string
	Device uuid.UUID
	// Name and Key are those it came aboard with.
	Name string
	Key  *Key
}

// Ask sends a request as a page of the app does. A body that is not bytes is sent as JSON; header is names
// and values by turns, and may replace what is sent by itself.
func (a *Asker) Ask(method, path string, content any, header ...string) Reply {
	var body io.Reader
	kind := "application/json"
	switch c := content.(type) {
	case nil:
	case []byte:
		body, kind = bytes.NewReader(c), "image/jpeg"
	case io.Reader:
		body, kind = c, "image/jpeg"
	default:
		text, err := json.Marshal(c)
		if err != nil {
			panic(err) // the test is wrong
		}
		body = bytes.NewReader(text)
	}
	r := httptest.NewRequest(method, cmp.Or(a.At, Origin)+path, body)
	r.Header.Set("Origin", cmp.Or(a.At, Origin))
	if content != nil {
		r.Header.Set("Content-Type", kind)
	}
	if a.Token != "" {
		r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: a.Token})
	}
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	a.Handler.ServeHTTP(w, r)
	return Reply{w.Code, w.Header(), w.Body.Bytes()}
}

// Listen asks with a context, and writes what is answered as it comes.
func (a *Asker) Listen(ctx context.Context, path string, to http.ResponseWriter) {
	r := httptest.NewRequestWithContext(ctx, http.MethodGet, cmp.Or(a.At, Origin)+path, nil)
	r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: a.Token})
	a.Handler.ServeHTTP(to, r)
}

// Stranger is a browser that is not aboard.
func (b *Boat) Stranger() *Asker { return &Asker{Handler: b.Handler} }

// Aboard takes a phone aboard: invited from the terminal, enrolled over HTTP.
func (b *Boat) Aboard(t TB, name string, role store.Role, trip *uuid.UUID) *Asker {
	t.Helper()
	a := b.Stranger()
	a.Enrol(t, b, name, role, trip)
	return a
}

// Trip begins a trip, and brings it.
func (a *Asker) Trip(t TB) uuid.UUID {
	t.Helper()
	phone, trip := NewPhone(), uuid.New()
	phone.Write("trip", trip, trip, map[string]any{"opened": 0}, false, 0)
	if r := a.Ask("POST", "/api/exchange", phone.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	return trip
}

// Enrol takes this phone aboard, anew if it was before. Where another one is aboard by that name, or what the server still
// takes for another, the skipper shuts that one out first.
func (a *Asker) Enrol(t TB, b *Boat, name string, role store.Role, trip *uuid.UUID) {
	t.Helper()
	ticket, err := enrol.Invitation{Role: role, Trip: trip, Hours: 1, Uses: 1}.Make(b.Store, Origin, b.Clock.Now())
	if err != nil {
		t.Fatalf("no invitation: %v", err)
	}
	key := NewKey()
	reply := a.come(key, ticket.Invitation, name)
	if reply.Status == http.StatusConflict && reply.Code() == "name" {
		b.shutOut(t, name)
		reply = a.come(key, ticket.Invitation, name)
	}
	a.aboard(t, reply, key, name)
}

// Come takes this phone aboard by an invitation.
func (a *Asker) Come(t TB, invitation, name string) {
	t.Helper()
	key := NewKey()
	a.aboard(t, a.come(key, invitation, name), key, name)
}

func (a *Asker) come(key *Key, invitation, name string) Reply {
	return a.Ask("POST", "/api/enrol", map[string]string{"invitation": invitation, "name": name,
		"key": key.Public(), "proof": key.Sign("wirewake aboard\n" + invitation + "\n" + name)})
}

func (a *Asker) aboard(t TB, reply Reply, key *Key, name string) {
	t.Helper()
	if reply.Status != http.StatusOK {
		t.Fatalf("not aboard: %d %s", reply.Status, reply.Body)
	}
	var you struct{ Device uuid.UUID }
	reply.Read(t, &you)
	a.Device, a.Token, a.Name, a.Key = you.Device, reply.Token(t), name, key
}

// shutOut shuts out whoever is aboard by a name.
func (b *Boat) shutOut(t TB, name string) {
	t.Helper()
	all, err := b.Store.Devices()
	if err != nil {
		t.Fatalf("no list of phones: %v", err)
	}
	for _, l := range all {
		if l.Name != name || l.Revoked != nil {
			continue
		}
		if _, _, err := b.Store.Revoke(l.ID, b.Clock.Now()); err != nil {
			t.Fatalf("not shut out: %v", err)
		}
	}
}

// Token is that of the cookie that a reply sets.
func (r Reply) Token(t TB) string {
	t.Helper()
	cookies := (&http.Response{Header: r.Header}).Cookies()
	if len(cookies) != 1 {
		t.Fatalf("cookies %v, want one", fmt.Sprint(cookies))
	}
	return cookies[0].Value
}
