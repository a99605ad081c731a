package main

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// issue makes a certificate that vouches for itself, good from begin to end, and writes both files.
func issue(t *testing.T, begin, end time.Time, names ...string) (certFile, keyFile string, pool *x509.CertPool) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{
		SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "boat"}, NotBefore: begin, NotAfter: end,
		KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign, BasicConstraintsValid: true, IsCA: true,
	}
	for _, name := range names {
		if ip := net.ParseIP(name); ip != nil {
			template.IPAddresses = append(template.IPAddresses, ip)
		} else {
			template.DNSNames = append(template.DNSNames, name)
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	keyDER, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	certFile, keyFile = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for file, block := range map[string]*pem.Block{
		certFile: {Type: "CERTIFICATE", Bytes: der}, keyFile: {Type: "PRIVATE KEY", Bytes: keyDER},
	} {
		if err := os.WriteFile(file, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	pool = x509.NewCertPool()
	pool.AddCert(leaf)
	return certFile, keyFile, pool
}

func TestServingOverTLS(t *testing.T) {
	now := time.Now()
	certFile, keyFile, pool := issue(t, now.Add(-time.Hour), now.AddDate(1, 0, 0), "boat.example", "127.0.0.1")
	s := start(t, "--data", t.TempDir(), "--cert", certFile, "--key", keyFile)
	s.out.wait(t, regexp.MustCompile(`on a phone +https://boat\.example:`+s.port))
	for _, word := range []string{"plain http", "certificate"} {
		if strings.Contains(s.out.plain(), word) {
			t.Errorf("nothing is wrong, but the greeting speaks of %s: %s", word, s.out)
		}
	}

	ask := func(config *tls.Config) (*http.Response, error) {
		config.RootCAs = pool
		client := &http.Client{Transport: &http.Transport{TLSClientConfig: config, ForceAttemptHTTP2: true}}
		defer client.CloseIdleConnections()
		return client.Get("https://127.0.0.1:" + s.port + "/")
	}
	r, err := ask(&tls.Config{})
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if text, _ := io.ReadAll(r.Body); string(text) != testPage || r.ProtoMajor != 2 || r.TLS.Version != tls.VersionTLS13 {
		t.Errorf("%s over %s, TLS %x: %q", r.Status, r.Proto, r.TLS.Version, text)
	}
	if r.Header.Get("Strict-Transport-Security") != "" {
		t.Error("a name of the boat's own network is bound to https for ever")
	}
	if r, err := ask(&tls.Config{MaxVersion: tls.VersionTLS11}); err == nil {
		r.Body.Close()
		t.Error("TLS 1.1 is spoken")
	}
	if r, text := s.get("/", "127.0.0.1:"+s.port); r.StatusCode != 200 || text != testPage {
		t.Errorf("plain http on this computer: %s %q", r.Status, text)
	}
	s.sendsOn(t, "boat.example:"+s.port, "https://boat.example:"+s.port+"/")
	if out, err, code := tell(t, "", "healthz", "--listen", "127.0.0.1:"+s.port); code != done {
		t.Errorf("wirewake healthz: exit %d, %q, %q", code, out, err)
	}
	for _, file := range []string{certFile, keyFile} {
		content, _ := os.ReadFile(file)
		if secret := strings.Split(string(content), "\n")[1]; strings.Contains(s.out.String()+s.err.String(), secret) {
			t.Errorf("%s is in the log", file)
		}
	}
}

func TestCertificatesPhonesWouldRefuse(t *testing.T) {
	now := time.Now()
	for name, c := range map[string]struct {
		begin, end time.Time
		names      []string
		says       string
	}{
		"past":      {now.AddDate(-1, 0, 0), now.AddDate(0, 0, -1), []string{"boat.example"}, "The certificate ran out on"},
		"future":    {now.AddDate(0, 0, 1), now.AddDate(1, 0, 0), []string{"boat.example"}, "Set the clock if it is wrong"},
		"near":      {now.AddDate(-1, 0, 0), now.AddDate(0, 0, 3), []string{"boat.example"}, "The certificate runs out on"},
		"not ours":  {now.AddDate(-1, 0, 0), now.AddDate(1, 0, 0), []string{"other.example"}, "not for boat.example"},
		"a pattern": {now.AddDate(-1, 0, 0), now.AddDate(1, 0, 0), []string{"*.example"}, ""},
	} {
		certFile, keyFile, _ := issue(t, c.begin, c.end, c.names...)
		s := start(t, "--data", t.TempDir(), "--cert", certFile, "--key", keyFile, "--address", "https://boat.example")
		if c.says == "" && strings.Contains(s.out.plain(), "certificate") {
			t.Errorf("%s: nothing is wrong, but the greeting says %s", name, s.out)
		}
		if !strings.Contains(s.out.plain(), c.says) {
			t.Errorf("%s: the greeting lacks %q: %s", name, c.says, s.out)
		}
		s.stop(os.Kill)
	}
}

func TestCertificatesThatCannotBeUsed(t *testing.T) {
	now := time.Now()
	certFile, keyFile, _ := issue(t, now, now.AddDate(1, 0, 0), "boat.example")
	_, otherKey, _ := issue(t, now, now.AddDate(1, 0, 0), "boat.example")
	noise := filepath.Join(t.TempDir(), "noise.pem")
	if err := os.WriteFile(noise, []byte("noise"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct{ cert, key, says string }{
		"no certificate": {"/nowhere/cert.pem", keyFile, "--cert cannot be read"},
		"no key":         {certFile, "/nowhere/key.pem", "--key cannot be read"},
		"a directory":    {filepath.Dir(certFile), keyFile, "--cert cannot be read"},
		"another key":    {certFile, otherKey, "is not the key of"},
		"swapped":        {keyFile, certFile, "are not a certificate and its key"},
		"noise":          {noise, keyFile, "are not a certificate and its key"},
	} {
		out, err, code := tell(t, "", "serve", "--listen", "127.0.0.1:0", "--data", t.TempDir(), "--cert", c.cert, "--key", c.key)
		if code != failed || out != "" || !strings.Contains(err, c.says) {
			t.Errorf("%s: exit %d, out %q, err %q; want %q", name, code, out, err, c.says)
		}
	}
}

// sendsOn sees that a browser that asks over plain http under a host is sent to https, and gets nothing else.
func (s *served) sendsOn(t *testing.T, host, to string) {
	t.Helper()
	for path, status := range map[string]int{"/": 307, "/calc.wasm": 307, "/api/me": 403, "/api/exchange": 403, "/api/way-in": 403} {
		request, err := http.NewRequest("GET", "http://127.0.0.1:"+s.port+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		request.Host = host
		r, err := http.DefaultTransport.RoundTrip(request)
		if err != nil {
			t.Fatal(err)
		}
		r.Body.Close()
		if r.StatusCode != status || status == 307 && r.Header.Get("Location") != to {
			t.Errorf("%s: %s to %q, want %d", path, r.Status, r.Header.Get("Location"), status)
		}
	}
}
