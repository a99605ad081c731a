package main

import (
	"crypto/tls"
	"crypto/x509"
	"os"
	"regexp"
	"syscall"
	"testing"
	"time"
)

// shown is the certificate that the server shows now.
func (s *served) shown(t *testing.T) *x509.Certificate {
	t.Helper()
	// Which certificate it is, is asked; whether it is trusted is no matter here.
	c, err := tls.Dial("tcp", "127.0.0.1:"+s.port, &tls.Config{InsecureSkipVerify: true})
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	return c.ConnectionState().PeerCertificates[0]
}

func TestANewCertificateIsReadAtSIGHUPAndABadOneIsNot(t *testing.T) {
	now := time.Now()
	certFile, keyFile, _ := issue(t, now.Add(-time.Hour), now.AddDate(0, 1, 0), "boat.example")
	s := start(t, "--data", t.TempDir(), "--cert", certFile, "--key", keyFile)
	first := s.shown(t)
	put := func(from, to string) {
		t.Helper()
		content, err := os.ReadFile(from)
		if err == nil {
			err = os.WriteFile(to, content, 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	hang := func() {
		if err := s.cmd.Process.Signal(syscall.SIGHUP); err != nil {
			t.Fatal(err)
		}
	}
	renewed, renewedKey, _ := issue(t, now.Add(-time.Hour), now.AddDate(0, 3, 0), "boat.example")
	ended, endedKey, _ := issue(t, now.AddDate(-1, 0, 0), now.AddDate(0, 0, -1), "boat.example")

	// Half of a renewal: the key is still the old one.
	put(renewed, certFile)
	hang()
	s.err.wait(t, regexp.MustCompile(`level=ERROR .*the old one is still shown.*is not the key of`))
	if !s.shown(t).Equal(first) {
		t.Error("half of a renewal replaced the certificate")
	}
	// One that phones would refuse is worse than the old one.
	put(ended, certFile)
	put(endedKey, keyFile)
	hang()
	s.err.wait(t, regexp.MustCompile(`the old one is still shown.*ran out on`))
	if !s.shown(t).Equal(first) {
		t.Error("a certificate that ran out replaced a good one")
	}
	put(renewed, certFile)
	put(renewedKey, keyFile)
	hang()
	s.err.wait(t, regexp.MustCompile(`the certificate was read again`))
	if s.shown(t).Equal(first) {
		t.Error("the new certificate is not shown")
	}
	if code := s.stop(syscall.SIGTERM); code != done {
		t.Errorf("exit %d", code)
	}
}
