package wayin

import (
	"cmp"
	"net"
	"net/netip"
	"os"
	"slices"
	"strings"
)

// Machine is how this computer is known on its networks.
type Machine struct {
	// Addresses on networks a phone may share, best first.
	Addresses []netip.Addr
	// Names the network may know it by, in lower case.
	Names []string
}

// ThisMachine asks the operating system. What it cannot tell is left out.
func ThisMachine() Machine {
	var found []card
	interfaces, _ := net.Interfaces()
	for _, i := range interfaces {
		addresses, err := i.Addrs()
		if err != nil {
			continue
		}
		c := card{flags: i.Flags}
		for _, a := range addresses {
			if prefix, err := netip.ParsePrefix(a.String()); err == nil {
				c.addresses = append(c.addresses, prefix.Addr().Unmap())
			}
		}
		found = append(found, c)
	}
	m := Machine{Addresses: shared(found)}
	if name, err := os.Hostname(); err == nil && name != "" && !strings.HasPrefix(name, "localhost") {
		name = strings.ToLower(name)
		m.Names = []string{name, name + ".local"}
	}
	return m
}

// card is one network interface.
type card struct {
	flags     net.Flags
	addresses []netip.Addr
}

// shared picks the addresses a phone on the same network can reach. Loopback, tunnels and interfaces
// with nothing plugged in are none of a phone's. Private addresses come first; IPv6 ones only where
// there is no IPv4, for they change by themselves and nobody can read them out.
func shared(cards []card) []netip.Addr {
	var v4, v6 []netip.Addr
	for _, c := range cards {
		if c.flags&net.FlagRunning == 0 || c.flags&(net.FlagLoopback|net.FlagPointToPoint) != 0 {
			continue
		}
		for _, a := range c.addresses {
			switch {
			case !a.IsGlobalUnicast():
			case a.Is4():
				v4 = append(v4, a)
			default:
				v6 = append(v6, a)
			}
		}
	}
	found := v4
	if len(found) == 0 {
		found = v6
	}
	slices.SortStableFunc(found, func(a, b netip.Addr) int { return cmp.Compare(public(a), public(b)) })
	return found
}

func public(a netip.Addr) int {
	if a.IsPrivate() {
		return 0
	}
	return 1
}
