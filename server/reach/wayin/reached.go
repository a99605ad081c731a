package wayin

import (
	"net/netip"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// Unreached says why phones may find nothing at an address that was given for them, as whole sentences, or "". listen is
// the port that the server has, 0 if that is not known. lookup asks whether a name leads anywhere.
func Unreached(address string, m Machine, listen uint16, lookup func(name string) bool) string {
	u, err := url.Parse(address)
	if err != nil {
		return ""
	}
	host := u.Hostname()
	ip, err := netip.ParseAddr(host)
	switch {
	case err == nil && !slices.Contains(m.Addresses, ip.Unmap().WithZone("")):
		return "This computer does not have the address " + host + ", which was given for phones. They get here only if the computer that has it " +
			"passes on what comes to it; if not, start without --address, or with one of this computer's own."
	case err == nil && listen != 0 && port(u) != port(&url.URL{Host: netip.AddrPortFrom(ip, listen).String()}):
		return "The address given for phones, " + address + ", leads to another port than that of this server. They get here only if " +
			"something passes on what comes to it."
	case err != nil && !ours(host, m) && !reserved(host) && !lookup(host):
		return "The name " + host + ", which was given for phones, leads nowhere from here. They get here only if it leads somewhere for them."
	}
	return ""
}

// Own says that an address given for phones is this computer's own with the port that the server has: nothing can be in
// front of the server there.
func Own(address string, m Machine, listen uint16) bool {
	u, err := url.Parse(address)
	if err != nil {
		return false
	}
	ip, err := netip.ParseAddr(u.Hostname())
	return err == nil && slices.Contains(m.Addresses, ip.Unmap().WithZone("")) && port(u) == strconv.Itoa(int(listen))
}

func ours(name string, m Machine) bool {
	name = strings.ToLower(name)
	return strings.HasSuffix(name, ".local") || slices.Contains(m.Names, name)
}

// reserved are names that nobody is to look up: RFC 6761 and 6762.
func reserved(name string) bool {
	return slices.ContainsFunc([]string{".example", ".test", ".invalid", ".localhost"}, func(ending string) bool {
		return strings.HasSuffix(strings.ToLower(name), ending)
	})
}
