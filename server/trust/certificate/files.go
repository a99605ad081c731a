// Package certificate is what proves to phones who the server is, where something other than the boat's own
// authority vouches for it: a certificate kept in two files, or one had for a public name.
package certificate

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"log/slog"
	"os"
	"strings"
	"sync/atomic"
	"time"
)

// Files is a certificate and its key in two files, read anew when they change.
type Files struct {
	cert, key string
	now       atomic.Pointer[tls.Certificate]
	// stamp is what the files looked like when they were last read.
	stamp string
}

// Load reads a certificate and its key. The error names the flag to look at.
func Load(certFile, keyFile string) (*Files, error) {
	f := &Files{cert: certFile, key: keyFile, stamp: stampOf(certFile, keyFile)}
	pair, err := f.read()
	if err != nil {
		return nil, err
	}
	f.now.Store(pair)
	return f, nil
}

func (f *Files) read() (*tls.Certificate, error) {
	cert, err := os.ReadFile(f.cert)
	if err != nil {
		return nil, fmt.Errorf("--cert cannot be read: %w", err)
	}
	key, err := os.ReadFile(f.key)
	if err != nil {
		return nil, fmt.Errorf("--key cannot be read: %w", err)
	}
	pair, err := tls.X509KeyPair(cert, key)
	switch {
	case err == nil:
		return &pair, nil
	case strings.Contains(err.Error(), "does not match"):
		return nil, fmt.Errorf("--key %s is not the key of --cert %s", f.key, f.cert)
	}
	return nil, fmt.Errorf("--cert %s and --key %s are not a certificate and its key in PEM: %w", f.cert, f.key, err)
}

// stampOf changes when one of the files does.
func stampOf(files ...string) string {
	var stamp strings.Builder
	for _, name := range files {
		info, err := os.Stat(name)
		if err != nil {
			fmt.Fprintf(&stamp, "%v;", err)
			continue
		}
		fmt.Fprintf(&stamp, "%d %d;", info.ModTime().UnixNano(), info.Size())
	}
	return stamp.String()
}

// Watch reads the files again when they changed, looking so often, and whenever asked, until ctx is done. What
// cannot be used is told, and the certificate of before stays.
func (f *Files) Watch(ctx context.Context, often time.Duration, asked <-chan os.Signal, log *slog.Logger) {
	tick := time.NewTicker(often)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			if stampOf(f.cert, f.key) == f.stamp {
				continue
			}
		case <-asked:
		}
		f.stamp = stampOf(f.cert, f.key)
		pair, err := f.read()
		if err == nil && !time.Now().Before(pair.Leaf.NotAfter) {
			err = fmt.Errorf("the certificate in --cert %s ran out on %s", f.cert, pair.Leaf.NotAfter.Format(time.DateOnly))
		}
		if err != nil {
			log.Error("the new certificate cannot be used; the old one is still shown", "error", err)
			continue
		}
		f.now.Store(pair)
		log.Info("the certificate was read again", "until", pair.Leaf.NotAfter.Format(time.DateOnly))
	}
}

// GetCertificate is for tls.Config.
func (f *Files) GetCertificate(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	return f.now.Load(), nil
}

// Leaf is the certificate itself.
func (f *Files) Leaf() *x509.Certificate { return f.now.Load().Leaf }

// soon is how long before its end a certificate is worth a word: time to renew it between two trips.
const soon = 14 * 24 * time.Hour

// Notes says what phones will hold against the certificate's dates.
func (f *Files) Notes(now time.Time) []string {
	const day = "2 January 2006"
	leaf := f.Leaf()
	begin, end := leaf.NotBefore.Local().Format(day), leaf.NotAfter.Local().Format(day)
	switch {
	case now.After(leaf.NotAfter):
		return []string{"The certificate ran out on " + end + ", so phones will refuse it. Renew it; the server reads the new one by itself."}
	case now.Before(leaf.NotBefore):
		return []string{"The certificate is good only from " + begin + ", and by this computer's clock it is " +
			now.Local().Format(day) + ". Set the clock if it is wrong; until the certificate begins, phones will refuse it."}
	case now.Add(soon).After(leaf.NotAfter):
		return []string{"The certificate runs out on " + end + ". Renew it before then, or phones will refuse it."}
	}
	return nil
}
