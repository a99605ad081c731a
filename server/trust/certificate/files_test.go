package certificate

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"encoding/pem"
	"log/slog"
	"math/big"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

// issue writes a certificate with this number and its key.
func issue(t *testing.T, certFile, keyFile string, number int64) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(number), NotBefore: time.Now(), NotAfter: time.Now().AddDate(1, 0, 0)}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	keyDER, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	for file, block := range map[string]*pem.Block{certFile: {Type: "CERTIFICATE", Bytes: der}, keyFile: {Type: "PRIVATE KEY", Bytes: keyDER}} {
		if err := os.WriteFile(file, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

func TestFilesThatChangeAreReadByThemselves(t *testing.T) { synctest.Test(t, reading) }

// In time of its own, in which it looks once a second.
func reading(t *testing.T) {
	dir := t.TempDir()
	cert, key := filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	issue(t, cert, key, 1)
	f, err := Load(cert, key)
	if err != nil {
		t.Fatal(err)
	}
	var log bytes.Buffer
	var over sync.WaitGroup
	ctx, cancel := context.WithCancel(t.Context())
	over.Go(func() { f.Watch(ctx, time.Second, nil, slog.New(slog.NewTextHandler(&log, nil))) })
	issue(t, cert, key, 22)
	// A disk that tells times coarsely may give both pairs the same.
	if err := os.Chtimes(cert, time.Now(), time.Now()); err != nil {
		t.Fatal(err)
	}
	time.Sleep(1500 * time.Millisecond)
	if got := f.Leaf().SerialNumber.Int64(); got != 22 {
		t.Fatalf("certificate %d is shown after the new one was there for a look", got)
	}
	// A bad one is told once, not at every look.
	noise := filepath.Join(dir, "noise")
	if err := os.WriteFile(noise, []byte("noise"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(noise, key); err != nil {
		t.Fatal(err)
	}
	time.Sleep(time.Minute)
	cancel()
	over.Wait()
	if f.Leaf().SerialNumber.Int64() != 22 {
		t.Error("a bad file took the certificate away")
	}
	if n := bytes.Count(log.Bytes(), []byte("are not a certificate and its key")); n != 1 {
		t.Errorf("a bad file is told %d times: %s", n, &log)
	}
}

func TestDomains(t *testing.T) {
	for name, good := range map[string]bool{
		"boat.example": true, "a.b-c.example": true, "boat": false, "Boat.example": false, "*.example": false, "192.0.2.7": false,
		"boat.example.": false, "https://boat.example": false, "-a.example": false, "": false, "boat.example:443": false,
	} {
		if (CheckDomain(name) == "") != good {
			t.Errorf("%q: %q", name, CheckDomain(name))
		}
	}
}
