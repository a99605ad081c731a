package store

import (
	"cmp"
	"net/netip"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
)

// Ask is a phone that asks to come aboard, and what was said to it.
type Ask struct {
	// Device is the id of the phone's key.
	Device uuid.UUID
	Name   string
	// Word is on the phone's screen and on the skipper's.
	Word string
	// Network is from where it asks.
	Network string
	// Former is the token of the device it was so far, nil if it was none.
	Former      *Hash
	Asked, Ends time.Time
	// Said is [Yes] or [No], "" until somebody has answered.
	Said string
	// Role and Trip are those of a yes.
	Role Role
	Trip *uuid.UUID
}

// What is said to a phone that asks.
const (
	Yes = "yes"
	No  = "no"
)

// How many may ask at a time, in all and from one network, and how many networks are blocked: strangers take no more of
// the store than that. Who has 64 networks fills it, and keeps out nobody by that: see [GivesWay].
const (
	MostAsks      = 512
	mostOfNetwork = 8
	MostBlocked   = 100
)

// GivesWay picks, of those that ask, the oldest first, the one that makes room for one more from a network; ok is false
// if there is room. Where that network has as many as it may, one of the same network goes. One that does not wait any more
// goes before those that do, then one of the region with the most, then of the network with the most, and of equals the
// oldest: so whoever has many addresses keeps out nobody who asks from elsewhere.
func GivesWay(asks []Ask, network string, waits map[uuid.UUID]bool) (goes uuid.UUID, ok bool) {
	of, in := crowds(asks)
	here := of[network] >= mostOfNetwork
	if !here && len(asks) < MostAsks {
		return uuid.UUID{}, false
	}
	least := slices.MinFunc(asks, func(a, b Ask) int {
		return cmp.Or(
			first(here && a.Network == network, here && b.Network == network),
			first(!waits[a.Device], !waits[b.Device]),
			cmp.Compare(in[region(b.Network)], in[region(a.Network)]),
			cmp.Compare(of[b.Network], of[a.Network]),
		)
	})
	return least.Device, true
}

// crowds are how many ask from each network, and from each region.
func crowds(asks []Ask) (of, in map[string]int) {
	of, in = map[string]int{}, map[string]int{}
	for _, a := range asks {
		of[a.Network]++
		in[region(a.Network)]++
	}
	return of, in
}

// Fewest picks at most so many of those that wait, and leaves them in their order: those from regions, and then from
// networks, from which few ask go before those from where many do, and of equals the first.
func Fewest(waiting []Ask, most int) []Ask {
	of, in := crowds(waiting)
	ranked := slices.Clone(waiting)
	slices.SortStableFunc(ranked, func(a, b Ask) int {
		return cmp.Or(cmp.Compare(in[region(a.Network)], in[region(b.Network)]), cmp.Compare(of[a.Network], of[b.Network]))
	})
	chosen := map[uuid.UUID]bool{}
	for _, a := range ranked[:min(most, len(ranked))] {
		chosen[a.Device] = true
	}
	return slices.DeleteFunc(slices.Clone(waiting), func(a Ask) bool { return !chosen[a.Device] })
}

// region is what one person can have many networks of: 24 bits of IPv4, and of IPv6 48, which is one site, or the link.
func region(network string) string {
	address, _, _ := strings.Cut(network, "/")
	ip, err := netip.ParseAddr(address)
	if err != nil {
		return network
	}
	bits := 48
	if ip = ip.Unmap().WithZone(""); ip.Is4() {
		bits = 24
	}
	prefix, err := ip.Prefix(bits)
	if err != nil {
		return network
	}
	return prefix.String()
}

// first sorts what is so before what is not.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}
