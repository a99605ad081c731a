package quay

import (
	"net"
	"net/url"
	"strings"
)

// Address is where phones find a harbour.
type Address struct{ scheme, host, port string }

// At is the address of an origin, such as https://harbour.example.
func At(origin string) (a Address, err error) {
	u, err := url.Parse(origin)
	if err != nil {
		return a, err
	}
	return Address{u.Scheme, strings.ToLower(u.Hostname()), u.Port()}, nil
}

// Host is the name of a boat's host.
func (a Address) Host(boat string) string { return boat + "." + a.host }

// Origin is that of a boat.
func (a Address) Origin(boat string) string {
	host := a.Host(boat)
	if a.port != "" {
		host = net.JoinHostPort(host, a.port)
	}
	return a.scheme + "://" + host
}

// Boat is the name of the boat that a host is of; ok is false if it is of none.
func (a Address) Boat(host string) (name string, ok bool) {
	if one, _, err := net.SplitHostPort(host); err == nil {
		host = one
	}
	name, ok = strings.CutSuffix(strings.ToLower(host), "."+a.host)
	return name, ok && name != "" && !strings.Contains(name, ".")
}
