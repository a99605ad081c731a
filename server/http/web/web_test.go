package web

import (
	"bytes"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/andybalholm/brotli"

	"wirewake/embed"
	"wirewake/server/reach/qr"
	"wirewake/server/reach/wayin"
	"wirewake/server/store/sqlite"
	"wirewake/server/sync/photos"
)

var (
	page   = strings.Repeat("<p>wire</p>", 100)
	script = strings.Repeat("let out;", 100)
)

func packed(text string) string {
	var b strings.Builder
	w := brotli.NewWriter(&b)
	io.WriteString(w, text)
	w.Close()
	return b.String()
}

func app(t *testing.T) embed.Files {
	t.Helper()
	files, err := embed.Read(fstest.MapFS{
		"index.html":               {Data: []byte(page)},
		"index.html.br":            {Data: []byte("br of index")},
		"index.html.gz":            {Data: []byte("gzip of index")},
		"sw.js":                    {Data: []byte("worker")},
		"calc.wasm":                {Data: []byte("\x00asm and more")},
		"calc.wasm.br":             {Data: []byte("br wasm")},
		"packed.js.br":             {Data: []byte(packed(script))},
		"manifest.webmanifest":     {Data: []byte("{}")},
		"icon.svg":                 {Data: []byte("<svg/>")},
		"assets/index-D3x_9aB.js":  {Data: []byte("script")},
		"assets/index-D3x_9aC.css": {Data: []byte("style")},
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func door(t *testing.T) *wayin.Door {
	t.Helper()
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return &wayin.Door{
		Finder: wayin.Finder{
			Listen: netip.MustParseAddrPort("0.0.0.0:8610"),
			Machine: func() wayin.Machine {
				return wayin.Machine{Addresses: []netip.Addr{netip.MustParseAddr("192.168.1.5")}}
			},
		},
		Store: s.Store,
		Notes: []string{"A note."},
		Log:   slog.New(slog.DiscardHandler),
		Now:   time.Now,
	}
}

func serving(t *testing.T, files embed.Files, d *wayin.Door, log slog.Handler) http.Handler {
	t.Helper()
	return New(Parts{App: files, Door: d, Store: d.Store, Shelf: photos.NewFolder(t.TempDir()), Log: slog.New(log), Now: time.Now, Sleep: time.Sleep})
}

func handler(t *testing.T) http.Handler {
	t.Helper()
	return serving(t, app(t), door(t), slog.DiscardHandler)
}

func ask(h http.Handler, method, path string, header ...string) *http.Response {
	r := httptest.NewRequest(method, path, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Add(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func contentOf(t *testing.T, r *http.Response) string {
	t.Helper()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestFilesOfTheApp(t *testing.T) {
	h := handler(t)
	const forever, anew = "public, max-age=31536000, immutable", "no-cache"
	for _, c := range []struct{ path, mediaType, caching, content string }{
		{"/", "text/html; charset=utf-8", anew, page},
		{"/index.html", "text/html; charset=utf-8", anew, page},
		{"/sw.js", "text/javascript; charset=utf-8", anew, "worker"},
		{"/calc.wasm", "application/wasm", anew, "\x00asm and more"},
		{"/manifest.webmanifest", "application/manifest+json", anew, "{}"},
		{"/icon.svg", "image/svg+xml", anew, "<svg/>"},
		{"/assets/index-D3x_9aB.js", "text/javascript; charset=utf-8", forever, "script"},
		{"/assets/index-D3x_9aC.css", "text/css; charset=utf-8", forever, "style"},
		{"/?from=code", "text/html; charset=utf-8", anew, page},
	} {
		r := ask(h, "GET", c.path)
		if r.StatusCode != 200 || contentOf(t, r) != c.content {
			t.Errorf("%s: %s, or the wrong content", c.path, r.Status)
		}
		for name, want := range map[string]string{
			"Content-Type": c.mediaType, "Cache-Control": c.caching, "Vary": "Accept-Encoding",
			"Content-Encoding": "", "Last-Modified": "",
		} {
			if got := r.Header.Get(name); got != want {
				t.Errorf("%s: %s = %q, want %q", c.path, name, got, want)
			}
		}
	}
}

func TestPrecompressedForms(t *testing.T) {
	h := handler(t)
	for _, c := range []struct{ path, accept, coding, content string }{
		{"/", "gzip, deflate, br", "br", "br of index"},
		{"/", "gzip, deflate", "gzip", "gzip of index"},
		{"/", "br;q=0, gzip;q=0", "", page},
		{"/calc.wasm", "gzip, br", "br", "br wasm"},
		{"/calc.wasm", "gzip", "", "\x00asm and more"},
		{"/packed.js", "gzip, br", "br", packed(script)},
		{"/packed.js", "gzip", "", script},
		{"/packed.js", "br;q=0", "", script},
	} {
		for _, method := range []string{"GET", "HEAD"} {
			r := ask(h, method, c.path, "Accept-Encoding", c.accept)
			if got := r.Header.Get("Content-Encoding"); r.StatusCode != 200 || got != c.coding {
				t.Errorf("%s %s, %q: %s with %q, want %q", method, c.path, c.accept, r.Status, got, c.coding)
			}
			if got := r.ContentLength; got != int64(len(c.content)) {
				t.Errorf("%s %s, %q: length %d, want %d", method, c.path, c.accept, got, len(c.content))
			}
			want := c.content
			if method == "HEAD" {
				want = ""
			}
			if got := contentOf(t, r); got != want {
				t.Errorf("%s %s, %q: content %q, want %q", method, c.path, c.accept, got, want)
			}
		}
	}
	r := ask(h, "GET", "/sw.js", "Accept-Encoding", "identity;q=0")
	if r.StatusCode != 406 || r.Header.Get("Vary") != "Accept-Encoding" {
		t.Errorf("nothing acceptable: %s, Vary %q", r.Status, r.Header.Get("Vary"))
	}
}

// RFC 9110: strong entity tags differ between codings (8.8.3.3); 13.1.2 says when to answer 304, and
// 15.4.5 what a 304 carries.
func TestEntityTags(t *testing.T) {
	h := handler(t)
	tags := map[string]string{}
	for _, accept := range []string{"br", "gzip", "identity"} {
		r := ask(h, "GET", "/", "Accept-Encoding", accept)
		tag := r.Header.Get("ETag")
		if len(tag) < 10 || tag[0] != '"' || tag[len(tag)-1] != '"' {
			t.Errorf("ETag of %s = %s, want a strong one", accept, tag)
		}
		if other, ok := tags[tag]; ok {
			t.Errorf("%s and %s share the tag %s", accept, other, tag)
		}
		tags[tag] = accept

		for match, status := range map[string]int{
			tag: 304, `W/` + tag: 304, `"other", ` + tag: 304, "*": 304, `"other"`: 200, "": 200,
		} {
			for _, method := range []string{"GET", "HEAD"} {
				r := ask(h, method, "/", "Accept-Encoding", accept, "If-None-Match", match)
				if r.StatusCode != status {
					t.Errorf("%s %s, If-None-Match %s: %s, want %d", method, accept, match, r.Status, status)
				}
				if r.Header.Get("ETag") != tag || r.Header.Get("Vary") == "" || r.Header.Get("Cache-Control") == "" {
					t.Errorf("%s %s, If-None-Match %s: header %v", method, accept, match, r.Header)
				}
				if status == 304 && contentOf(t, r) != "" {
					t.Errorf("%s %s: a 304 with content", method, accept)
				}
			}
		}
	}
	for tag, of := range tags {
		if of != "br" {
			r := ask(h, "GET", "/", "Accept-Encoding", "br", "If-None-Match", tag)
			if r.StatusCode != 200 {
				t.Errorf("the tag of the %s form matched the br form", of)
			}
		}
	}
}

func TestWhatIsNotThere(t *testing.T) {
	h := handler(t)
	for _, path := range []string{
		"/lines", "/assets/", "/assets", "/index.html.br", "/.keep", "/../index.html", "/%2e%2e/etc/passwd",
		"//index.html", "/index.html/", "/api/", "/api/none", "/a%00b", "/INDEX.HTML",
	} {
		r := ask(h, "GET", path)
		if r.StatusCode != 404 {
			t.Errorf("%s: %s, want 404", path, r.Status)
		}
		text := contentOf(t, r)
		if strings.HasPrefix(path, "/api/") {
			var answer struct{ Code, Text string }
			if json.Unmarshal([]byte(text), &answer) != nil || answer.Code != "nothing" || answer.Text == "" {
				t.Errorf("%s: %q, want JSON with a code and a text", path, text)
			}
		} else if !strings.HasPrefix(r.Header.Get("Content-Type"), "text/plain") {
			t.Errorf("%s: %s, want plain text", path, r.Header.Get("Content-Type"))
		}
	}
	for _, path := range []string{"/", "/sw.js", "/api/way-in", "/qr.svg", "/healthz"} {
		for _, method := range []string{"POST", "PUT", "DELETE", "PATCH"} {
			r := ask(h, method, path)
			if r.StatusCode != 405 || !strings.Contains(r.Header.Get("Allow"), "GET") {
				t.Errorf("%s %s: %s, Allow %q", method, path, r.Status, r.Header.Get("Allow"))
			}
			// A sentence for the person (server/sync/README.md).
			if text := contentOf(t, r); !strings.Contains(text, "Allow says how.") {
				t.Errorf("%s %s: %q", method, path, text)
			}
		}
	}
}

func TestABinaryWithoutTheAppSaysHowToBuildIt(t *testing.T) {
	h := serving(t, embed.Files{}, door(t), slog.DiscardHandler)
	for _, path := range []string{"/", "/index.html"} {
		r := ask(h, "GET", path)
		if text := contentOf(t, r); r.StatusCode != 503 || !strings.Contains(text, "make build") {
			t.Errorf("%s: %s %q", path, r.Status, text)
		}
	}
	if r := ask(h, "GET", "/healthz"); r.StatusCode != 200 {
		t.Errorf("/healthz: %s", r.Status)
	}
}

func TestEveryAnswerIsGuarded(t *testing.T) {
	h := handler(t)
	// Directives by name: https://www.w3.org/TR/CSP3/
	csp := []string{
		"default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'", "img-src 'self' data: blob:",
		"connect-src 'self'", "worker-src 'self'", "manifest-src 'self'", "base-uri 'none'", "form-action 'none'",
		"frame-ancestors 'none'",
	}
	for _, path := range []string{"/", "/none", "/assets/index-D3x_9aB.js", "/api/way-in", "/api/none", "/qr.svg", "/healthz"} {
		header := ask(h, "GET", path).Header
		got := strings.Split(header.Get("Content-Security-Policy"), "; ")
		slices.Sort(got)
		if want := slices.Sorted(slices.Values(csp)); !slices.Equal(got, want) {
			t.Errorf("%s: policy %q\nwant %q", path, got, want)
		}
		for name, want := range map[string]string{
			"X-Content-Type-Options":       "nosniff",
			"Referrer-Policy":              "no-referrer",
			"Cross-Origin-Opener-Policy":   "same-origin",
			"Cross-Origin-Resource-Policy": "same-origin",
			"Strict-Transport-Security":    "",
			"Access-Control-Allow-Origin":  "",
			"Server":                       "",
			"Set-Cookie":                   "",
		} {
			if got := header.Get(name); got != want {
				t.Errorf("%s: %s = %q, want %q", path, name, got, want)
			}
		}
		for _, rule := range []string{"geolocation=(self)", "camera=()", "microphone=()"} {
			if !strings.Contains(header.Get("Permissions-Policy"), rule) {
				t.Errorf("%s: Permissions-Policy lacks %s", path, rule)
			}
		}
	}
}

func TestABodyOverAMegabyteIsRefused(t *testing.T) {
	h := handler(t)
	for size, want := range map[int]int{1_000_000: 405, 1_000_001: 413} {
		r := httptest.NewRequest("POST", "/api/way-in", bytes.NewReader(make([]byte, size)))
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("%d bytes: %d, want %d", size, w.Code, want)
		}
	}
}

func TestWayIn(t *testing.T) {
	d := door(t)
	if err := d.Store.Served("http://192.168.1.9:8610", time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	d.Now = func() time.Time { return time.Date(2031, 7, 1, 0, 0, 0, 0, time.UTC) }
	h := serving(t, app(t), d, slog.DiscardHandler)
	r := ask(h, "GET", "/api/way-in")
	if r.StatusCode != 200 || r.Header.Get("Cache-Control") != "no-store" {
		t.Fatalf("%s, header %v", r.Status, r.Header)
	}
	const want = `{` +
		`"best":{"url":"http://192.168.1.5:8610","reach":"network","secure":false,"enter":"http://192.168.1.5:8610","qr":"/qr.svg?address=http%3A%2F%2F192.168.1.5%3A8610"},` +
		`"others":[{"url":"http://localhost:8610","reach":"computer","secure":true,"enter":"http://localhost:8610","qr":"/qr.svg?address=http%3A%2F%2Flocalhost%3A8610"}],` +
		`"earlier":[{"url":"http://192.168.1.9:8610","lastServed":"2031-06-01T12:00:00Z","keep":"give this computer the network address 192.168.1.9 again (a router can reserve it)"}],` +
		`"notes":["A note."]}` + "\n"
	if got := contentOf(t, r); got != want {
		t.Errorf("got  %swant %s", got, want)
	}
}

func TestLoadingTheAppIsRemembered(t *testing.T) {
	for path, want := range map[string]int{"/": 1, "/sw.js": 1, "/calc.wasm": 0, "/none": 0, "/api/way-in": 0} {
		d := door(t)
		r := httptest.NewRequest("GET", path, nil)
		r.Host = "192.168.1.5:8610"
		serving(t, app(t), d, slog.DiscardHandler).ServeHTTP(httptest.NewRecorder(), r)
		origins, err := d.Store.Origins()
		if err != nil || len(origins) != want {
			t.Errorf("%s: origins %v, %v; want %d", path, origins, err, want)
		}
	}
}

func TestTheCodeIsOfOneOfOurAddresses(t *testing.T) {
	h := handler(t)
	for query, address := range map[string]string{
		"": "http://192.168.1.5:8610",
		"?address=" + url.QueryEscape("http://192.168.1.5:8610"): "http://192.168.1.5:8610",
		"?address=" + url.QueryEscape("http://localhost:8610"):   "http://localhost:8610",
	} {
		want, err := qr.SVG(address)
		if err != nil {
			t.Fatal(err)
		}
		r := ask(h, "GET", "/qr.svg"+query)
		if got := contentOf(t, r); r.StatusCode != 200 || got != string(want) || r.Header.Get("Content-Type") != "image/svg+xml" {
			t.Errorf("/qr.svg%s: %s, %s, or not the code of %s", query, r.Status, r.Header.Get("Content-Type"), address)
		}
	}
	if r := ask(h, "GET", "/qr.svg?address=https://stranger.example"); r.StatusCode != 404 {
		t.Errorf("a stranger's address: %s, want 404", r.Status)
	}
}

func TestTheLogHoldsNoQueryAndNoHeader(t *testing.T) {
	var log bytes.Buffer
	h := serving(t, app(t), door(t), slog.NewTextHandler(&log, &slog.HandlerOptions{Level: slog.LevelDebug}))
	ask(h, "GET", "/?token=hush", "Cookie", "session=hush", "Authorization", "Bearer hush", "Referer", "http://x/hush")
	if !strings.Contains(log.String(), "path=/ ") || !strings.Contains(log.String(), "status=200") {
		t.Errorf("log = %q, want the request", &log)
	}
	if strings.Contains(log.String(), "hush") {
		t.Errorf("a secret is in the log: %q", &log)
	}
}

func TestAPanicIsAnAnswerWithoutItsWords(t *testing.T) {
	var log bytes.Buffer
	d := door(t)
	d.Finder.Machine = func() wayin.Machine { panic("inner words") }
	h := serving(t, app(t), d, slog.NewTextHandler(&log, nil))
	r := ask(h, "GET", "/api/way-in")
	if text := contentOf(t, r); r.StatusCode != 500 || strings.Contains(text, "inner words") {
		t.Errorf("%s %q", r.Status, text)
	}
	if !strings.Contains(log.String(), "inner words") {
		t.Errorf("the log does not say what happened: %q", &log)
	}
}

func TestWhoComesAboardIsInTheLogAndWithWhatIsNot(t *testing.T) {
	var log bytes.Buffer
	h := serving(t, app(t), door(t), slog.NewTextHandler(&log, nil))
	for path, content := range map[string]string{
		"/api/enrol": `{"code":"HUSH-HUSH","name":"hush"}`, "/api/invitations": `{}`, "/api/devices/x/revoke": `{}`, "/api/exchange": `{}`,
	} {
		r := httptest.NewRequest("POST", "https://boat.example"+path, strings.NewReader(content))
		r.Header.Set("Origin", "https://boat.example")
		r.Header.Set("Content-Type", "application/json")
		h.ServeHTTP(httptest.NewRecorder(), r)
	}
	for path, want := range map[string]int{"/api/enrol": 1, "/api/invitations": 1, "/api/devices/x/revoke": 1, "/api/exchange": 0} {
		if n := strings.Count(log.String(), "level=WARN msg=request method=POST path="+path+" status=4"); n != want {
			t.Errorf("%s is told %d times, want %d: %s", path, n, want, &log)
		}
	}
	if strings.Contains(strings.ToLower(log.String()), "hush") || !strings.Contains(log.String(), "from=192.0.2.1") {
		t.Errorf("the log says too much or too little: %s", &log)
	}
}

// A stranger who asks again and again, by as long a path as may be, fills no disk with what is told of it.
func TestRefusalsFillNoDisk(t *testing.T) {
	var log bytes.Buffer
	h := serving(t, app(t), door(t), slog.NewTextHandler(&log, nil))
	for range 1000 {
		r := httptest.NewRequest("POST", "https://boat.example/api/devices/"+strings.Repeat("A", 4000), nil)
		r.Header.Set("Origin", "https://boat.example")
		h.ServeHTTP(httptest.NewRecorder(), r)
	}
	if n := strings.Count(log.String(), "level=WARN"); n < 60 || n > 300 || log.Len() > 300*400 {
		t.Errorf("%d lines of %d bytes", n, log.Len())
	}
}
