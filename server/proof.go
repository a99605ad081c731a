package main

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"log/slog"
	"net/netip"
	"net/url"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
	"time"

	"wirewake/server/reach/wayin"
	"wirewake/server/trust/authority"
	"wirewake/server/trust/certificate"
)

// proof is what the server shows to prove who it is.
type proof interface {
	GetCertificate(*tls.ClientHelloInfo) (*tls.Certificate, error)
	// Leaf is the certificate shown at this moment, or one with the names of the one to come.
	Leaf() *x509.Certificate
	// Notes says what phones will hold against it at a moment.
	Notes(now time.Time) []string
}

// prove finds the proof that the flags ask for: nil for plain http only.
func (f *serveFlags) prove(ctx context.Context, log *slog.Logger) (proof, error) {
	switch {
	case f.cert != "":
		files, err := certificate.Load(f.cert, f.key)
		if err != nil {
			return nil, err
		}
		asked := make(chan os.Signal, 1)
		signal.Notify(asked, syscall.SIGHUP)
		go files.Watch(ctx, watching, asked, log)
		return files, nil
	case f.domain != "":
		domain := certificate.NewDomain(f.domain, f.data, f.acme)
		go domain.Get(ctx, log)
		return domain, nil
	case f.outside():
		return nil, nil
	}
	boat, err := authority.Open(f.data, f.name, f.addresses, time.Now)
	switch {
	case errors.Is(err, authority.ErrCannotMake):
		// The calculators need nobody to vouch for them: the server does without, and says what is lost.
		log.Warn("https cannot be spoken", "error", err)
		return nil, nil
	case err != nil:
		return nil, err
	}
	return boat, nil
}

// watching is how often the files of a certificate are looked at.
const watching = 15 * time.Second

// outside says that https is no matter of this server: the address given for phones is plain, or one that no
// authority of a boat may vouch for, so that something in front of this server has to.
func (f *serveFlags) outside() bool {
	if f.address == "" {
		return false
	}
	u, err := url.Parse(f.address)
	return err != nil || u.Scheme != "https" || !authority.Permits(f.name, u.Hostname())
}

// addresses are those that the boat's authority vouches for: the computer's, and the one given for phones,
// which may be that of another computer that passes on what comes to it.
func (f *serveFlags) addresses() []netip.Addr {
	all := wayin.ThisMachine().Addresses
	if u, err := url.Parse(f.address); err == nil {
		if ip, err := netip.ParseAddr(strings.Trim(u.Hostname(), "[]")); err == nil && !slices.Contains(all, ip) {
			all = append(all, ip)
		}
	}
	return all
}
