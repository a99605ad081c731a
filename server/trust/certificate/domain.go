package certificate

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"log/slog"
	"net"
	"path/filepath"
	"regexp"
	"sync/atomic"
	"time"

	"golang.org/x/crypto/acme"
	"golang.org/x/crypto/acme/autocert"
)

// DomainDirName is the directory of a domain's certificate in the data directory.
const DomainDirName = "acme"

// Domain is a certificate for a public name, had from an authority that speaks ACME (RFC 8555), and renewed
// by itself. The authority sees that the name is ours by a connection to port 443 (RFC 8737).
type Domain struct {
	name    string
	manager *autocert.Manager
	// trouble is why there is none, "" once there is.
	trouble atomic.Value
}

// LetsEncrypt is the directory of an authority that all phones trust.
const LetsEncrypt = autocert.DefaultACMEDirectory

var domainForm = regexp.MustCompile(`^([a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?\.)+[a-z][a-z0-9-]{0,61}[a-z0-9]$`)

// CheckDomain says what is wrong with a public name, as a sentence without its start.
func CheckDomain(name string) string {
	if len(name) > 253 || !domainForm.MatchString(name) || net.ParseIP(name) != nil {
		return "must be one whole name in small letters, such as boat.example"
	}
	return ""
}

// NewDomain keeps what it gets in the data directory. Nothing is asked for yet.
func NewDomain(name, data, directory string) *Domain {
	d := &Domain{name: name, manager: &autocert.Manager{
		Prompt:     autocert.AcceptTOS,
		Cache:      autocert.DirCache(filepath.Join(data, DomainDirName)),
		HostPolicy: autocert.HostWhitelist(name),
		Client:     &acme.Client{DirectoryURL: directory},
	}}
	d.trouble.Store("it is being asked for")
	return d
}

// again is how long to wait before a certificate that was not given is asked for again: the authorities
// allow a few tries an hour.
const again = 15 * time.Minute

// Get asks for the certificate until there is one or ctx is done. Phones that come meanwhile ask, too.
func (d *Domain) Get(ctx context.Context, log *slog.Logger) {
	for {
		certificate, err := d.manager.GetCertificate(&tls.ClientHelloInfo{
			ServerName: d.name, CipherSuites: []uint16{tls.TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256},
		})
		if err == nil {
			d.trouble.Store("")
			log.Info("there is a certificate", "name", d.name, "until", certificate.Leaf.NotAfter.Format(time.DateOnly))
			return
		}
		d.trouble.Store(err.Error())
		log.Error("there is no certificate yet", "name", d.name, "error", err, "again", again)
		select {
		case <-ctx.Done():
			return
		case <-time.After(again):
		}
	}
}

// GetCertificate is for tls.Config, and answers the authority's own connections, too.
func (d *Domain) GetCertificate(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
	certificate, err := d.manager.GetCertificate(hello)
	if err == nil && hello.ServerName == d.name && certificate.Leaf != nil && certificate.Leaf.VerifyHostname(d.name) == nil {
		d.trouble.Store("")
	}
	return certificate, err
}

// Protocols are what the server speaks over TLS besides HTTP: that by which the authority looks.
func (d *Domain) Protocols() []string { return []string{acme.ALPNProto} }

// Leaf stands for the certificate: whether there is one yet, its name is this.
func (d *Domain) Leaf() *x509.Certificate { return &x509.Certificate{DNSNames: []string{d.name}} }

// Notes says why there is no certificate.
func (d *Domain) Notes(time.Time) []string {
	trouble := d.trouble.Load().(string)
	if trouble == "" {
		return nil
	}
	return []string{"There is no certificate for " + d.name + " yet (" + trouble + "). The name must lead to this computer from the " +
		"whole internet, and port 443 must reach it."}
}
