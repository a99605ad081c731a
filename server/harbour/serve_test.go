package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/json"
	"encoding/pem"
	"errors"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"wirewake/server/harness/cluster"
)

// wildcard issues a certificate for *.harbour.example, for itself.
func wildcard(t *testing.T) (certFile, keyFile string, trusts *x509.CertPool) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "harbour"}, DNSNames: []string{"*.harbour.example"},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), IsCA: true, BasicConstraintsValid: true, KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	certFile, keyFile, trusts = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem"), x509.NewCertPool()
	text := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
	err = errors.Join(os.WriteFile(certFile, text, 0o600), os.WriteFile(keyFile, pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: private}), 0o600))
	if err != nil || !trusts.AppendCertsFromPEM(text) {
		t.Fatal(err)
	}
	return certFile, keyFile, trusts
}

// journal is what a server logs.
type journal struct {
	mutex sync.Mutex
	text  bytes.Buffer
}

func (j *journal) Write(line []byte) (int, error) {
	j.mutex.Lock()
	defer j.mutex.Unlock()
	return j.text.Write(line)
}

// lines are those with a message, as far as they are there.
func (j *journal) lines(t *testing.T, message string) (all []map[string]any) {
	t.Helper()
	j.mutex.Lock()
	defer j.mutex.Unlock()
	for _, text := range strings.Split(strings.TrimSuffix(j.text.String(), "\n"), "\n") {
		var line map[string]any
		if err := json.Unmarshal([]byte(text), &line); err != nil && text != "" {
			t.Fatalf("a line that is no JSON: %s", text)
		}
		if line["msg"] == message {
			all = append(all, line)
		}
	}
	return all
}

// wait waits for a line, and gives one of its values.
func (j *journal) wait(t *testing.T, message, value string) string {
	t.Helper()
	for range 3000 {
		if all := j.lines(t, message); len(all) > 0 {
			text, _ := all[0][value].(string)
			return text
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("nothing of %q in %s", message, j.text.String())
	return ""
}

// The command itself: https for every boat with one certificate, http only as the way there, figures on a port of their own without
// any boat's name, logs with boat and number of the request, and an end that the balancer hears of first.
func TestTheHarbourServes(t *testing.T) {
	certFile, keyFile, trusts := wildcard(t)
	database, shelf := cluster.Fresh(t), t.TempDir()
	said := &journal{}
	ctx, end := context.WithCancel(t.Context())
	code := make(chan int, 1)
	go func() {
		code <- run(ctx, console{io.Discard, said}, []string{"serve", "--database", database, "--address", address, "--photos", shelf, "--listen", "127.0.0.1:0",
			"--cert", certFile, "--key", keyFile, "--metrics", "127.0.0.1:0", "--drain", "1s", "--verbose"})
	}()
	t.Cleanup(end)
	listens, figures := said.wait(t, "serving", "listen"), said.wait(t, "figures", "listen")
	begin(t, database, shelf).add(t, "tern")
	client := &http.Client{
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
		Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: trusts}, DialContext: func(ctx context.Context, network, _ string) (net.Conn, error) {
			return (&net.Dialer{}).DialContext(ctx, network, listens)
		}},
	}
	get := func(url string) (status int, header http.Header, body string) {
		t.Helper()
		r, err := client.Get(url)
		if err != nil {
			return 0, nil, err.Error()
		}
		defer r.Body.Close()
		text, _ := io.ReadAll(r.Body)
		return r.StatusCode, r.Header, string(text)
	}
	status, header, body := get("https://tern.harbour.example/healthz")
	if status != http.StatusOK || body != "ok\n" {
		t.Fatal(status, body)
	}
	if status, header, _ := get("http://tern.harbour.example/healthz"); status != http.StatusPermanentRedirect || header.Get("Location") != "https://tern.harbour.example/healthz" {
		t.Error(status, header)
	}
	if status, _, _ := get("https://gull.harbour.example/api/me"); status != http.StatusNotFound {
		t.Errorf("a boat that is not there: %d", status)
	}
	// One label and no more (RFC 6125, section 6.4.3).
	if status, _, wrong := get("https://a.tern.harbour.example/"); status != 0 || !strings.Contains(wrong, "certificate is valid for *.harbour.example") {
		t.Error(status, wrong)
	}
	told := false
	for _, line := range said.lines(t, "request") {
		told = told || line["boat"] == "tern" && line["request"] == header.Get("X-Request-Id") && line["path"] == "/healthz" && line["status"] == 200.0
	}
	if !told || header.Get("X-Request-Id") == "" {
		t.Errorf("%v is not in %v", header, said.lines(t, "request"))
	}
	metrics := func() string {
		t.Helper()
		r, err := http.Get("http://" + figures + "/metrics")
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		text, _ := io.ReadAll(r.Body)
		if kind := r.Header.Get("Content-Type"); !strings.HasPrefix(kind, "text/plain; version=0.0.4") {
			t.Errorf("%q is not the text format", kind)
		}
		return string(text)
	}
	text := metrics()
	for _, line := range []string{`wirewake_answers_total{method="GET",status="200"} 1`, `wirewake_answers_total{method="GET",status="404"} 1`, "wirewake_boats_open 1",
		`wirewake_answer_seconds_count 1`, "wirewake_answers_under_way 0", "wirewake_database_connections_most ", `wirewake_boats_nearly_full{of="bytes"} 0`,
		`wirewake_boats_nearly_full{of="entries"} 0`, "go_goroutines ", "process_open_fds "} {
		if !strings.Contains(text, "\n"+line) {
			t.Errorf("%s is not in\n%s", line, text)
		}
	}
	if strings.Contains(text, "tern") || strings.Contains(text, "gull") {
		t.Errorf("a boat is named in\n%s", text)
	}
	if status, _, body := get("https://tern.harbour.example/metrics"); status == http.StatusOK && strings.Contains(body, "wirewake_") {
		t.Error("figures are given to phones")
	}
	if status, _, body := get("https://tern.harbour.example/readyz"); status != http.StatusOK || body != "ok\n" {
		t.Error(status, body)
	}
	end()
	said.wait(t, "leaving", "")
	if status, _, _ := get("https://tern.harbour.example/readyz"); status != http.StatusServiceUnavailable {
		t.Errorf("it leaves, and is %d", status)
	}
	if status, _, _ := get("https://tern.harbour.example/livez"); status != http.StatusOK {
		t.Errorf("it runs, and is %d", status)
	}
	if c := <-code; c != done {
		t.Errorf("ended with %d: %s", c, said.text.String())
	}
}

// What keeps a server from beginning is told in plain words.
func TestAServerThatCannotBeginSaysWhy(t *testing.T) {
	for _, one := range []struct{ flags, says string }{
		{"--database postgres://nobody@/none?host=/nowhere", "cannot be reached"},
		{"--database http://x", "postgres://"},
		{"--photos s3://127.0.0.1/ ", "the address of an object store has the form"},
		{"--cert /nowhere.pem --key /nowhere.key", "nowhere"},
	} {
		var said bytes.Buffer
		flags := append([]string{"serve", "--database", cluster.Fresh(t), "--address", address, "--photos", t.TempDir(), "--listen", "127.0.0.1:0"}, strings.Fields(one.flags)...)
		ctx, end := context.WithTimeout(t.Context(), time.Minute)
		if code := run(ctx, console{io.Discard, &said}, flags); code != failed || !strings.Contains(said.String(), one.says) {
			t.Errorf("%s: %d %s, want %q", one.flags, code, said.String(), one.says)
		}
		end()
	}
}
