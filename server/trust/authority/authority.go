// Package authority is the boat's own certificate authority. A boat has no public name, so no public
// authority can vouch for its server; this one does, for the phones that were told to trust it.
//
// What it can be misused for is bounded by its form. The root vouches for one issuer and its key is thrown
// away at once, so that it can never vouch for another. The issuer's certificate allows only servers, under
// the boat's names and private addresses (RFC 5280, section 4.2.1.10): whoever steals its key can pretend
// to be the boat to the boat's own phones, and nothing else to anybody.
package authority

import (
	"crypto/ecdsa"
	"crypto/sha256"
	"crypto/x509"
	"encoding/hex"
	"fmt"
	"net"
	"net/netip"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"

	"crypto/tls"
)

// Authority vouches for this server. Its exported fields are set before use.
type Authority struct {
	// Name is the boat's: NAME.local is its server.
	Name string
	// Addresses tells which addresses the server has at this moment; those it may not vouch for are passed over.
	Addresses func() []netip.Addr
	// Now tells the time.
	Now func() time.Time

	root, issuer *x509.Certificate
	key          *ecdsa.PrivateKey

	mu   sync.Mutex
	leaf *tls.Certificate
}

// private are the networks that have the same addresses everywhere: RFC 1918, 3927, 4193, 4291, and this
// computer itself.
var private = func() []*net.IPNet {
	var all []*net.IPNet
	for _, network := range []string{
		"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
		"fc00::/7", "fe80::/10", "::1/128",
	} {
		_, parsed, err := net.ParseCIDR(network)
		if err != nil {
			panic(err) // the list is wrong
		}
		all = append(all, parsed)
	}
	return all
}()

// names are those that the authority of a boat may vouch for.
func names(name string) []string { return []string{name + ".local", "localhost"} }

var nameForm = regexp.MustCompile(`^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$`)

// CheckName says what is wrong with the name of a boat, as a sentence without its start.
func CheckName(name string) string {
	if !nameForm.MatchString(name) || name == "localhost" {
		return "must be up to 63 small letters, digits and hyphens, such as wirewake"
	}
	return ""
}

// Permits says whether the authority of a boat may vouch for a host: a name or an address.
func Permits(name, host string) bool {
	if ip, err := netip.ParseAddr(host); err == nil {
		return permitsAddress(ip)
	}
	return slices.Contains(names(name), strings.ToLower(host))
}

func permitsAddress(ip netip.Addr) bool {
	ip = ip.Unmap().WithZone("")
	return slices.ContainsFunc(private, func(n *net.IPNet) bool { return n.Contains(ip.AsSlice()) })
}

// Root is the certificate that phones are told to trust, in DER.
func (a *Authority) Root() []byte { return a.root.Raw }

// Ends is when it ends.
func (a *Authority) Ends() time.Time { return a.root.NotAfter }

// Fingerprint is the SHA-256 of the root, as phones show it: pairs of hex digits.
func (a *Authority) Fingerprint() string {
	hash := sha256.Sum256(a.root.Raw)
	pairs := make([]string, len(hash))
	for i := range hash {
		pairs[i] = strings.ToUpper(hex.EncodeToString(hash[i : i+1]))
	}
	return strings.Join(pairs, ":")
}

// soon is how long before its end an authority is worth a word: a winter.
const soon = 180 * 24 * time.Hour

// Notes says what phones will hold against the authority.
func (a *Authority) Notes(now time.Time) []string {
	if now.Before(a.root.NotAfter.Add(-soon)) && !now.Before(a.root.NotBefore) {
		return nil
	}
	const day = "2 January 2006"
	return []string{fmt.Sprintf("The boat's authority is good from %s to %s, and by this computer's clock it is %s. Set the clock if it "+
		"is wrong; if not, remove the directory authority from the data directory and let the phones install the new one.",
		a.root.NotBefore.Format(day), a.root.NotAfter.Format(day), now.Format(day))}
}
