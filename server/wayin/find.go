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
	// Listen is the address it listens on; an unspecified one means every interface.
	Listen netip.AddrPort
	// Address is the origin given for phones to use, if one was.
	Address string
	// Certificate is the one the server shows, nil if it speaks plain http.
	Certificate *x509.Certificate
	// Machine tells how the computer is known at this moment.
	Machine func() Machine
}

// Ways lists the addresses that work now, the best one for a phone first. There is always one.
func (f Finder) Ways() []Way {
	var ways []Way
	if f.Address != "" {
		ways = append(ways, way(f.Address, ByName))
	}
	for _, name := range certifiedNames(f.Certificate) {
		ways = append(ways, way(f.url(name), ByName))
	}
	ways = append(ways, f.networkWays()...)
	if ip := f.Listen.Addr(); ip.IsUnspecified() || ip.IsLoopback() {
		ways = append(ways, Way{URL: f.url("localhost"), Reach: ByComputer, Secure: true})
	}
	seen := map[string]bool{}
	return slices.DeleteFunc(ways, func(w Way) bool {
		twice := seen[w.URL]
		seen[w.URL] = true
		return twice
	})
}

// networkWays leaves out the addresses the certificate is not for, unless then none is left.
func (f Finder) networkWays() []Way {
	var all, certified []Way
	for _, ip := range f.addresses() {
		w := way(f.url(ip.String()), ByNetwork)
		all = append(all, w)
		if f.Certificate != nil && f.Certificate.VerifyHostname(ip.String()) == nil {
			certified = append(certified, w)
		}
	}
	if len(certified) > 0 || f.Certificate != nil && (f.Address != "" || len(certifiedNames(f.Certificate)) > 0) {
		return certified
	}
	return all
}

// Origin tells under which of this computer's own addresses a request came, by its Host header.
// Any other host is not ours to remember.
func (f Finder) Origin(host string) (origin string, ok bool) {
	candidates := []string{f.Address}
	for _, name := range certifiedNames(f.Certificate) {
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
	case listen.IsLoopback():
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
	scheme, standard := "http", uint16(80)
	if f.Certificate != nil {
		scheme, standard = "https", 443
	}
	if port := f.Listen.Port(); port != standard {
		return scheme + "://" + net.JoinHostPort(host, strconv.Itoa(int(port)))
	}
	if strings.Contains(host, ":") {
		host = "[" + host + "]"
	}
	return scheme + "://" + host
}

func way(origin string, reach Reach) Way {
	return Way{URL: origin, Reach: reach, Secure: strings.HasPrefix(origin, "https://")}
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
