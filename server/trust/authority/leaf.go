package authority

import (
	"cmp"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"net"
	"net/netip"
	"slices"
	"time"
)

// The server's own certificate lives as long as browsers bear (CA/Browser Forum, Baseline Requirements
// 6.3.2: 397 days), begins earlier than now for phones whose clocks are behind, and is made anew in good
// time. Its key is never on the disk.
const (
	leafLife = 397*24*time.Hour - time.Second
	behind   = 48 * time.Hour
	renew    = 60 * 24 * time.Hour
)

// GetCertificate is for tls.Config. The address at which the phone found the server is vouched for even if
// the computer got it a second ago.
func (a *Authority) GetCertificate(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
	var at []netip.Addr
	if local, ok := hello.Conn.LocalAddr().(*net.TCPAddr); ok {
		at = append(at, local.AddrPort().Addr())
	}
	return a.vouch(at)
}

// Leaf is the certificate that the server shows now, nil if none can be made.
func (a *Authority) Leaf() *x509.Certificate {
	certificate, err := a.vouch(a.Addresses())
	if err != nil {
		return nil
	}
	return certificate.Leaf
}

// vouch gives a certificate that is good now for these addresses and those it was for before.
func (a *Authority) vouch(addresses []netip.Addr) (*tls.Certificate, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	now := a.Now()
	wanted := permitted(addresses)
	if a.leaf != nil && now.After(a.leaf.Leaf.NotBefore) && now.Before(a.leaf.Leaf.NotAfter.Add(-renew)) {
		had := permitted(addressesOf(a.leaf.Leaf))
		if !slices.ContainsFunc(wanted, func(ip netip.Addr) bool { return !slices.Contains(had, ip) }) {
			return a.leaf, nil
		}
		wanted = permitted(append(wanted, had...))
	} else {
		wanted = permitted(append(wanted, a.Addresses()...))
	}
	leaf, err := a.issue(wanted, now)
	if err == nil {
		a.leaf = leaf
	}
	return leaf, err
}

// permitted are the addresses that may be vouched for, each once, and always the computer itself.
func permitted(addresses []netip.Addr) []netip.Addr {
	all := []netip.Addr{netip.MustParseAddr("127.0.0.1"), netip.IPv6Loopback()}
	for _, ip := range addresses {
		if ip = ip.Unmap().WithZone(""); permitsAddress(ip) && !slices.Contains(all, ip) {
			all = append(all, ip)
		}
	}
	return all
}

func addressesOf(leaf *x509.Certificate) []netip.Addr {
	var all []netip.Addr
	for _, ip := range leaf.IPAddresses {
		if address, ok := netip.AddrFromSlice(ip); ok {
			all = append(all, address)
		}
	}
	return all
}

func (a *Authority) issue(addresses []netip.Addr, now time.Time) (*tls.Certificate, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	template := &x509.Certificate{
		Subject:     pkix.Name{CommonName: a.Name + ".local"},
		NotBefore:   now.Add(-behind),
		DNSNames:    names(a.Name),
		KeyUsage:    x509.KeyUsageDigitalSignature,
		ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}
	template.NotAfter = slices.MinFunc([]time.Time{template.NotBefore.Add(leafLife), a.issuer.NotAfter},
		func(a, b time.Time) int { return cmp.Compare(a.Unix(), b.Unix()) })
	for _, ip := range addresses {
		template.IPAddresses = append(template.IPAddresses, ip.AsSlice())
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.issuer, key.Public(), a.key)
	if err != nil {
		return nil, err
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	return &tls.Certificate{Certificate: [][]byte{der, a.issuer.Raw}, PrivateKey: key, Leaf: leaf}, nil
}
