package main

import (
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"encoding/hex"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"wirewake/server/http/web"
)

// onTheBoat is a host as phones on the boat's network ask for it.
const onTheBoat = "192.168.1.5:8610"

// trusting is a phone that took the boat's certificate from the way in, as a person does.
func trusting(t *testing.T, s *served) *http.Client {
	t.Helper()
	r, root := s.get("/boat.crt", onTheBoat)
	if r.StatusCode != 200 || r.Header.Get("Content-Type") != "application/x-x509-ca-cert" {
		t.Fatalf("%s, %v", r.Status, r.Header)
	}
	certificate, err := x509.ParseCertificate([]byte(root))
	if err != nil {
		t.Fatal(err)
	}
	pool := x509.NewCertPool()
	pool.AddCert(certificate)
	return &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}, ForceAttemptHTTP2: true}}
}

func TestWithoutFlagsTheBoatVouchesForItself(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	for _, host := range []string{"127.0.0.1", "localhost"} {
		r, err := trusting(t, s).Get("https://" + host + ":" + s.port + "/")
		if err != nil {
			t.Fatal(err)
		}
		text, _ := io.ReadAll(r.Body)
		r.Body.Close()
		if string(text) != testPage || r.ProtoMajor != 2 || r.TLS.Version != tls.VersionTLS13 {
			t.Errorf("%s over %s, TLS %x: %q", r.Status, r.Proto, r.TLS.Version, text)
		}
		if r.Header.Get("Strict-Transport-Security") != "" {
			t.Error("a name of the boat's own network is bound to https for ever")
		}
	}
	// A phone that does not know the boat is told nothing by the server's log, which would fill up with it.
	if _, err := http.Get("https://127.0.0.1:" + s.port + "/"); err == nil {
		t.Error("a phone that was told nothing trusts the boat")
	}
	if strings.Contains(s.err.String(), "level=WARN") {
		t.Errorf("the log warns: %s", s.err)
	}
	first, _ := s.get("/boat.crt", onTheBoat)
	s.stop(syscall.SIGTERM)
	again := start(t, "--data", data)
	if r, _ := again.get("/boat.crt", onTheBoat); r.Header.Get("Content-Length") != first.Header.Get("Content-Length") {
		t.Error("the next start has another authority")
	}
}

func TestOverPlainHTTPThereIsOnlyTheWayIn(t *testing.T) {
	s := start(t, "--data", t.TempDir())
	for path, want := range map[string]string{"/": testDoor, "/index.html": testDoor, "//": testDoor, "/?x=1": testDoor} {
		if r, text := s.get(path, onTheBoat); r.StatusCode != 200 || text != want {
			t.Errorf("%s: %s %q", path, r.Status, text)
		}
	}
	// The app, its worker and its calculations, the log, and who is aboard: only over https.
	for _, path := range []string{"/sw.js", "/calc.wasm", "/manifest.webmanifest", "/api/me", "/api/devices", "/api/exchange", "/api/trusted", "/assets/../sw.js", "//api/me"} {
		if r, text := s.get(path, onTheBoat); r.StatusCode != 403 || !strings.Contains(text, "https") {
			t.Errorf("%s: %s %q", path, r.Status, text)
		}
	}
	for _, path := range []string{"/api/exchange", "/api/enrol", "/"} {
		request, _ := http.NewRequest("POST", s.url()+path, strings.NewReader("{}"))
		request.Host = onTheBoat
		request.Header.Set("Origin", "http://"+onTheBoat)
		r, err := http.DefaultClient.Do(request)
		if err != nil {
			t.Fatal(err)
		}
		if r.Body.Close(); r.StatusCode != 403 {
			t.Errorf("POST %s: %s", path, r.Status)
		}
	}
	// A page that leads a browser on this computer here under another name (DNS rebinding) is no better off.
	if r, text := s.get("/", "localhost.example:"+s.port); r.StatusCode != 200 || text != testDoor {
		t.Errorf("%s %q", r.Status, text)
	}
	_, text := s.get("/api/way-in", onTheBoat)
	var ways web.WayIn
	if err := json.Unmarshal([]byte(text), &ways); err != nil || ways.Boat == nil || ways.Boat.Name != "wirewake.local" {
		t.Fatalf("%s: %v", text, err)
	}
	_, root := s.get(ways.Boat.Certificate, onTheBoat)
	hash := sha256.Sum256([]byte(root))
	if got := strings.ToLower(strings.ReplaceAll(ways.Boat.Fingerprint, ":", "")); got != hex.EncodeToString(hash[:]) {
		t.Errorf("the fingerprint %s is not that of the file", ways.Boat.Fingerprint)
	}
	if r, profile := s.get(ways.Boat.Profile, onTheBoat); r.Header.Get("Content-Type") != "application/x-apple-aspen-config" ||
		!strings.Contains(profile, "com.apple.security.root") {
		t.Errorf("%v %s", r.Header, profile)
	}
}

func TestOverHTTPSAnyPageMayAskWhetherThePhoneTrustsTheBoat(t *testing.T) {
	s := start(t, "--data", t.TempDir())
	r, err := trusting(t, s).Get("https://127.0.0.1:" + s.port + "/api/trusted")
	if err != nil {
		t.Fatal(err)
	}
	if r.Body.Close(); r.StatusCode != 204 || r.Header.Get("Access-Control-Allow-Origin") != "*" || r.Header.Get("Cross-Origin-Resource-Policy") != "cross-origin" {
		t.Errorf("%s, %v", r.Status, r.Header)
	}
}

func TestTheGreetingIntroducesTheBoat(t *testing.T) {
	s := start(t, "--data", t.TempDir(), "--name", "sea-2", "--address", "https://192.168.77.7:8610")
	s.out.wait(t, regexp.MustCompile(`on a phone +http://192\.168\.77\.7:8610\n`))
	for _, text := range []string{"▄", "fingerprint", "the app at https://192.168.77.7:8610", "wirewake invite --role skipper"} {
		if !strings.Contains(s.out.plain(), text) {
			t.Errorf("the greeting lacks %q: %s", text, s.out)
		}
	}
	_, text := s.get("/api/way-in", onTheBoat)
	var ways web.WayIn
	if err := json.Unmarshal([]byte(text), &ways); err != nil || !strings.Contains(s.out.plain(), ways.Boat.Fingerprint) || ways.Boat.Name != "sea-2.local" {
		t.Errorf("%v: the greeting lacks the fingerprint of %s: %s", err, text, s.out)
	}
	config := trusting(t, s).Transport.(*http.Transport).TLSClientConfig
	for _, host := range []string{"192.168.77.7", "sea-2.local"} {
		config.ServerName = host
		c, err := tls.Dial("tcp", "127.0.0.1:"+s.port, config)
		if err != nil {
			t.Errorf("%s: %v", host, err)
			continue
		}
		c.Close()
	}
}

func TestAnAuthorityThatCannotBeUsedStopsTheStart(t *testing.T) {
	data := t.TempDir()
	start(t, "--data", data).stop(syscall.SIGTERM)
	if _, err, code := tell(t, "", "serve", "--listen", "127.0.0.1:0", "--data", data, "--name", "other"); code != failed || !strings.Contains(err, "was made for wirewake.local") {
		t.Errorf("exit %d, %q", code, err)
	}
	if err := os.Remove(filepath.Join(data, "authority", "issuer.key")); err != nil {
		t.Fatal(err)
	}
	if _, err, code := tell(t, "", "serve", "--listen", "127.0.0.1:0", "--data", data); code != failed || !strings.Contains(err, "let the phones install a new one") {
		t.Errorf("exit %d, %q", code, err)
	}
}
