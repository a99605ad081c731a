package wayin

import (
	"crypto/x509"
	"net"
	"net/netip"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// Finder finds the ways in to a server that is listening.
type Finder struct {
	// Listen is the address it listens on; an unspecified one means every interface, none that it is for others to say.
	Listen netip.AddrPort
	// Address is the origin given for phones to use, if one was.
	Address string
	// Certificate tells the one the server shows at this moment; nil if it speaks plain http.
	Certificate func() *x509.Certificate
	// Introduce says that phones do not trust it of themselves: the boat's authority made it, and has to be
	// introduced to them first.
	Introduce bool
	// Machine tells how the computer is known at this moment.
	Machine func() Machine
}

// Ways lists the addresses that work now, the best one for a phone first. There is always one.
func (f Finder) Ways() []Way {
	certificate := f.certificate()
	var ways, named []Way
	if f.Address != "" {
		ways = append(ways, f.way(f.Address, ByName))
	}
	for _, name := range certifiedNames(certificate) {
		named = append(named, f.way(f.url(name), ByName))
	}
	network := f.networkWays(certificate)
	switch {
	case !f.Introduce:
		ways = append(append(ways, named...), network...)
	case len(network) > 0:
		// The boat's own name is for those phones that can look it up; an address is for all.
		ways = append(append(ways, network...), named...)
	}
	if ip := f.Listen.Addr(); ip.IsUnspecified() || ip.IsLoopback() {
		local := origin("http", "localhost", f.Listen.Port())
		ways = append(ways, Way{URL: local, Reach: ByComputer, Secure: true, Enter: local})
	}
	seen := map[string]bool{}
	return slices.DeleteFunc(ways, func(w Way) bool {
		twice := seen[w.URL]
		seen[w.URL] = true
		return twice
	})
}

// networkWays leaves out the addresses the certificate is not for, unless then none is left.
func (f Finder) networkWays(certificate *x509.Certificate) []Way {
	var all, certified []Way
	for _, ip := range f.addresses() {
		w := f.way(f.url(ip.String()), ByNetwork)
		all = append(all, w)
		if certificate != nil && certificate.VerifyHostname(ip.String()) == nil {
			certified = append(certified, w)
		}
	}
	if len(certified) > 0 || certificate != nil && (f.Address != "" || len(certifiedNames(certificate)) > 0) {
		return certified
	}
	return all
}

func (f Finder) certificate() *x509.Certificate {
	if f.Certificate == nil {
		return nil
	}
	return f.Certificate()
}

// Origin tells under which of this computer's own addresses a request came, by its Host header.
// Any other host is not ours to remember.
func (f Finder) Origin(host string) (origin string, ok bool) {
	candidates := []string{f.Address}
	for _, name := range certifiedNames(f.certificate()) {
		candidates = append(candidates, f.url(name))
	}
	for _, ip := range f.addresses() {
		candidates = append(candidates, f.url(ip.String()))
	}
	for _, name := range f.Machine().Names {
		candidates = append(candidates, f.url(name))
	}
	for _, origin := range candidates {
		if _, authority, ok := strings.Cut(origin, "://"); ok && strings.EqualFold(authority, host) {
			return origin, true
		}
	}
	return "", false
}

// addresses are those of the machine that the server listens on.
func (f Finder) addresses() []netip.Addr {
	listen := f.Listen.Addr().Unmap()
	switch {
	case !listen.IsValid(), listen.IsLoopback():
		return nil
	case !listen.IsUnspecified():
		return []netip.Addr{listen}
	}
	return slices.DeleteFunc(f.Machine().Addresses, func(ip netip.Addr) bool {
		return listen.Is4() && !ip.Is4()
	})
}

// url is the origin of this server under a host name or address.
func (f Finder) url(host string) string {
	if f.Certificate != nil {
		return origin("https", host, f.Listen.Port())
	}
	return origin("http", host, f.Listen.Port())
}

// origin leaves the port out where it is the usual one.
func origin(scheme, host string, port uint16) string {
	if port != map[string]uint16{"http": 80, "https": 443}[scheme] {
		return scheme + "://" + net.JoinHostPort(host, strconv.Itoa(int(port)))
	}
	if strings.Contains(host, ":") {
		host = "[" + host + "]"
	}
	return scheme + "://" + host
}

func (f Finder) way(url string, reach Reach) Way {
	return Way{URL: url, Reach: reach, Secure: strings.HasPrefix(url, "https://"), Enter: Enter(url, f.Introduce)}
}

// aboard is the page of the app where a phone asks to come aboard.
const aboard = "/#/enrol"

// Enter is where a phone goes that was never here, to find the server at an origin; introduce says that the boat's
// authority has to be introduced to it first. Nothing in it is secret.
func Enter(origin string, introduce bool) string {
	switch {
	case !strings.HasPrefix(origin, "https://"):
		return origin
	case introduce:
		return plain(origin)
	}
	return origin + aboard
}

// plain is the same door of the same server without TLS: both are spoken on one port.
func plain(secure string) string {
	u, err := url.Parse(secure)
	if err != nil {
		return secure
	}
	number, err := strconv.ParseUint(port(u), 10, 16)
	if err != nil {
		return secure
	}
	return origin("http", u.Hostname(), uint16(number))
}

// certifiedNames are the names a phone could type: no patterns, and nothing that means itself.
func certifiedNames(certificate *x509.Certificate) []string {
	if certificate == nil {
		return nil
	}
	var names []string
	for _, name := range certificate.DNSNames {
		if !strings.Contains(name, "*") && name != "localhost" && !strings.HasSuffix(name, ".localhost") {
			names = append(names, strings.ToLower(name))
		}
	}
	return names
}

// CheckAddress says what is wrong with an address given for phones, as a sentence without its start.
func CheckAddress(address string) (origin, problem string) {
	u, err := url.Parse(address)
	switch {
	case err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Hostname() == "":
		return "", "must be whole, such as https://boat.example:8610"
	case u.User != nil || u.Path != "" && u.Path != "/" || u.RawQuery != "" || u.Fragment != "":
		return "", "must end after the host and port, such as https://boat.example:8610"
	case loopback(u.Hostname()):
		return "", "must be one that phones can reach; " + u.Hostname() + " means the phone itself"
	}
	return u.Scheme + "://" + strings.ToLower(u.Host), ""
}

func loopback(host string) bool {
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && (ip.IsLoopback() || ip.IsUnspecified())
}
