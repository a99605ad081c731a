package wayin

import (
	"net/netip"
	"net/url"
	"slices"
	"strings"
	"time"

	"wirewake/server/store"
)

// remembered is how long an address that was in use is worth a warning: a season and the winter after.
const remembered = 365 * 24 * time.Hour

// earlier picks, of the origins served so far, those that phones may still hold something under and
// that are no way in now.
func earlier(origins []store.Origin, ways []Way, now time.Time) []Earlier {
	found := []Earlier{}
	for _, o := range origins {
		current := slices.ContainsFunc(ways, func(w Way) bool { return w.URL == o.URL })
		if !current && now.Sub(o.Last) < remembered {
			steps, flags := keep(o.URL, ways[0].URL)
			found = append(found, Earlier{URL: o.URL, LastServed: o.Last, Keep: steps, Flags: flags})
		}
	}
	return found
}

// keep says what makes an old origin work again, given the best one of now.
func keep(old, now string) (how string, flags map[string]string) {
	was, err := url.Parse(old)
	if err != nil {
		return "", nil
	}
	is, err := url.Parse(now)
	if err != nil {
		return "", nil
	}
	var steps []string
	flags = map[string]string{}
	_, err = netip.ParseAddr(was.Hostname())
	byAddress, moved := err == nil, was.Hostname() != is.Hostname()
	if moved && byAddress {
		steps = append(steps, "give this computer the network address "+was.Hostname()+" again (a router can reserve it)")
	}
	// https or not goes by the address that is given.
	if moved && !byAddress || was.Scheme != is.Scheme {
		steps = append(steps, "start with --address "+old)
		flags["address"] = old
	}
	if port(was) != port(is) {
		steps = append(steps, "start with --listen :"+port(was))
		flags["listen"] = ":" + port(was)
	}
	return strings.Join(steps, ", and "), flags
}

func port(u *url.URL) string {
	switch {
	case u.Port() != "":
		return u.Port()
	case u.Scheme == "https":
		return "443"
	}
	return "80"
}
