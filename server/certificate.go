package main

import (
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"os"
	"strings"
	"time"
)

// certificate is what the server shows to prove who it is.
type certificate struct {
	pair tls.Certificate
	leaf *x509.Certificate
}

// loadCertificate reads a certificate and its key. The error names the flag to look at.
func loadCertificate(certFile, keyFile string) (*certificate, error) {
	cert, err := os.ReadFile(certFile)
	if err != nil {
		return nil, fmt.Errorf("--cert cannot be read: %w", err)
	}
	key, err := os.ReadFile(keyFile)
	if err != nil {
		return nil, fmt.Errorf("--key cannot be read: %w", err)
	}
	pair, err := tls.X509KeyPair(cert, key)
	switch {
	case err == nil:
		return &certificate{pair, pair.Leaf}, nil
	case strings.Contains(err.Error(), "does not match"):
		return nil, fmt.Errorf("--key %s is not the key of --cert %s", keyFile, certFile)
	}
	return nil, fmt.Errorf("--cert %s and --key %s are not a certificate and its key in PEM: %w", certFile, keyFile, err)
}

// soon is how long before its end a certificate is worth a word: time to renew it between two trips.
const soon = 14 * 24 * time.Hour

// notes says what phones will hold against the certificate's dates.
func (c *certificate) notes(now time.Time) []string {
	const day = "2 January 2006"
	begin, end := c.leaf.NotBefore.Local().Format(day), c.leaf.NotAfter.Local().Format(day)
	switch {
	case now.After(c.leaf.NotAfter):
		return []string{"The certificate ran out on " + end + ", so phones will refuse it. Renew it, then start again."}
	case now.Before(c.leaf.NotBefore):
		return []string{"The certificate is good only from " + begin + ", and by this computer's clock it is " +
			now.Local().Format(day) + ". Set the clock if it is wrong; until the certificate begins, phones will refuse it."}
	case now.Add(soon).After(c.leaf.NotAfter):
		return []string{"The certificate runs out on " + end + ". Renew it before then, or phones will refuse it."}
	}
	return nil
}
