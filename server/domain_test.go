package main

import (
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"log"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"

	"github.com/letsencrypt/pebble/v2/ca"
	"github.com/letsencrypt/pebble/v2/db"
	"github.com/letsencrypt/pebble/v2/va"
	"github.com/letsencrypt/pebble/v2/wfe"
	"github.com/miekg/dns"
)

const publicName = "boat.example"

// publicAuthority is Pebble, the ACME server that Let's Encrypt's authors test clients with. It looks at
// publicName on this computer at a port.
type publicAuthority struct {
	directory string
	// certificates counts those that it was asked for.
	certificates func() int
	roots        *x509.CertPool
	// trust is a file with the certificate of its own https.
	trust string
}

func startPublicAuthority(t *testing.T, port int) publicAuthority {
	t.Helper()
	t.Setenv("PEBBLE_VA_NOSLEEP", "1")
	t.Setenv("PEBBLE_AUTHZREUSE", "0")
	t.Setenv("PEBBLE_WFE_NONCEREJECT", "0")
	quiet := log.New(io.Discard, "", 0)
	store := db.NewMemoryStore()
	authority := ca.New(quiet, store, "", "ecdsa", 0, 1, map[string]ca.Profile{"default": {}})
	look := va.New(quiet, 0, port, false, namesServer(t), store)
	front := wfe.New(quiet, store, look, authority, []string{publicName}, false, false, 1, 1)
	var issued atomic.Int64
	handler := front.Handler()
	server := httptest.NewTLSServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.Contains(r.URL.Path, "finalize") {
			issued.Add(1)
		}
		handler.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	roots := x509.NewCertPool()
	roots.AppendCertsFromPEM(authority.GetRootCert(0).PEM())
	trust := filepath.Join(t.TempDir(), "trust.pem")
	if err := os.WriteFile(trust, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: server.Certificate().Raw}), 0o600); err != nil {
		t.Fatal(err)
	}
	return publicAuthority{server.URL + wfe.DirectoryPath, func() int { return int(issued.Load()) }, roots, trust}
}

// namesServer answers that every name is this computer.
func namesServer(t *testing.T) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	server := &dns.Server{Listener: listener, Handler: dns.HandlerFunc(func(w dns.ResponseWriter, asked *dns.Msg) {
		answer := new(dns.Msg).SetReply(asked)
		if q := asked.Question[0]; q.Qtype == dns.TypeA {
			answer.Answer = []dns.RR{&dns.A{Hdr: dns.RR_Header{Name: q.Name, Rrtype: dns.TypeA, Class: dns.ClassINET, Ttl: 1}, A: net.IPv4(127, 0, 0, 1)}}
		}
		w.WriteMsg(answer)
	})}
	go server.ActivateAndServe()
	t.Cleanup(func() { server.Shutdown() })
	return listener.Addr().String()
}

func freePort(t *testing.T) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

func TestAPublicNameGetsItsCertificateByItselfAndKeepsIt(t *testing.T) {
	port := freePort(t)
	authority := startPublicAuthority(t, port)
	t.Setenv("SSL_CERT_FILE", authority.trust)
	data := t.TempDir()
	flags := []string{"--data", data, "--domain", publicName, "--acme", authority.directory, "--listen", "127.0.0.1:" + strconv.Itoa(port)}
	s := start(t, flags...)
	s.err.wait(t, regexp.MustCompile(`msg="there is a certificate" name=boat.example`))
	s.out.wait(t, regexp.MustCompile(`on a phone +https://boat\.example/#/enrol\n`))

	phone := &http.Client{Transport: &http.Transport{
		TLSClientConfig: &tls.Config{RootCAs: authority.roots, ServerName: publicName}, ForceAttemptHTTP2: true,
	}}
	ask := func(host string) *http.Response {
		t.Helper()
		request, err := http.NewRequest("GET", "https://127.0.0.1:"+s.port+"/", nil)
		if err != nil {
			t.Fatal(err)
		}
		request.Host = host
		r, err := phone.Do(request)
		if err != nil {
			t.Fatal(err)
		}
		r.Body.Close()
		return r
	}
	if r := ask(publicName); r.StatusCode != 200 || r.ProtoMajor != 2 || r.Header.Get("Strict-Transport-Security") != "max-age=31536000" {
		t.Errorf("%s over %s, %v", r.Status, r.Proto, r.Header)
	}
	if r := ask("192.168.1.5"); r.Header.Get("Strict-Transport-Security") != "" {
		t.Error("a name that is not the public one is bound to https")
	}
	s.sendsOn(t, publicName, "https://"+publicName+"/")
	if r, text := s.get("/api/way-in", "localhost"); r.StatusCode != 200 || !strings.Contains(text, `"notes":[]`) || strings.Contains(text, "boat.crt") {
		t.Errorf("%s %s", r.Status, text)
	}
	if r, _ := s.get("/boat.crt", "localhost"); r.StatusCode != 404 {
		t.Errorf("/boat.crt: %s", r.Status)
	}
	// Only this name: anybody could fill the authority's limits with others.
	if c, err := tls.Dial("tcp", "127.0.0.1:"+s.port, &tls.Config{ServerName: "other.example", InsecureSkipVerify: true}); err == nil {
		c.Close()
		t.Error("it shows a certificate for another name")
	}
	keeps(t, filepath.Join(data, "acme"))
	s.stop(syscall.SIGTERM)

	again := start(t, flags...)
	again.err.wait(t, regexp.MustCompile(`msg="there is a certificate"`))
	if n := authority.certificates(); n != 1 {
		t.Errorf("%d certificates were asked for in two starts", n)
	}
	if again.stop(syscall.SIGTERM); strings.Contains(again.err.String(), "PRIVATE KEY") {
		t.Errorf("a key is in the log: %s", again.err)
	}
}

// keeps sees that there are files in a directory which nobody else may read.
func keeps(t *testing.T, dir string) {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil || len(files) == 0 {
		t.Fatalf("%v: %v", files, err)
	}
	for _, file := range files {
		if info, err := file.Info(); err != nil || info.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s is %v, %v", file.Name(), info.Mode(), err)
		}
	}
}

func TestWithoutACertificateTheServerSaysWhy(t *testing.T) {
	// Nothing listens where the authority looks.
	authority := startPublicAuthority(t, freePort(t))
	t.Setenv("SSL_CERT_FILE", authority.trust)
	s := start(t, "--data", t.TempDir(), "--domain", publicName, "--acme", authority.directory)
	s.err.wait(t, regexp.MustCompile(`level=ERROR msg="there is no certificate yet" name=boat.example`))
	if r, text := s.get("/api/way-in", "localhost"); r.StatusCode != 200 || !strings.Contains(text, "port 443 must reach it") {
		t.Errorf("%s %s", r.Status, text)
	}
	if r, text := s.get("/", "localhost"); r.StatusCode != 200 || text != testPage {
		t.Errorf("meanwhile, on this computer: %s %q", r.Status, text)
	}
	if code := s.stop(syscall.SIGTERM); code != done {
		t.Errorf("exit %d", code)
	}
}
