// Package nearby tells phones on the boat's network the server's address by a name that ends in .local
// (multicast DNS, RFC 6762).
package nearby

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"slices"
	"time"

	"github.com/pion/logging"
	"github.com/pion/mdns/v2"
	"golang.org/x/net/dns/dnsmessage"
	"golang.org/x/net/ipv4"
	"golang.org/x/net/ipv6"
)

// looking is how often the networks are looked at: a boat's computer is up before its Wi-Fi is.
const looking = 30 * time.Second

// Announce answers for a name until ctx is done, on the networks that there are at each time. What keeps it
// from that is logged once: phones that know an address can do without.
func Announce(ctx context.Context, name string, log *slog.Logger) {
	announce(ctx, name, networks, looking, log)
}

func announce(ctx context.Context, name string, networks func() []net.Interface, often time.Duration, log *slog.Logger) {
	tick := time.NewTicker(often)
	defer tick.Stop()
	var on []string
	var server *mdns.Conn
	said := ""
	for {
		all := networks()
		if now := describe(all); !slices.Equal(now, on) {
			on = now
			if server != nil {
				server.Close()
				server = nil
			}
			if len(all) > 0 {
				var err error
				if server, err = answer(name, all); err != nil {
					on = nil // to be tried again
					if said != err.Error() {
						said = err.Error()
						log.Warn("the server's name cannot be told on the network; its address works all the same", "name", name, "error", err)
					}
				} else {
					said = ""
					log.Info("phones that look names up find the server", "name", name)
				}
			}
		}
		select {
		case <-ctx.Done():
			if server != nil {
				server.Close()
			}
			return
		case <-tick.C:
		}
	}
}

// networks are the interfaces that phones may be on.
func networks() []net.Interface {
	all, err := net.Interfaces()
	if err != nil {
		return nil
	}
	const want, without = net.FlagUp | net.FlagRunning | net.FlagMulticast, net.FlagLoopback | net.FlagPointToPoint
	return slices.DeleteFunc(all, func(i net.Interface) bool {
		addresses, err := i.Addrs()
		return i.Flags&want != want || i.Flags&without != 0 || err != nil || len(addresses) == 0
	})
}

// describe changes when a network comes, goes, or gives another address.
func describe(all []net.Interface) []string {
	var text []string
	for _, i := range all {
		addresses, _ := i.Addrs() // without any, it is described as such
		text = append(text, fmt.Sprint(i.Index, i.Name, addresses))
	}
	return text
}

// answer begins to answer on these interfaces, by IPv4 and, where there is any, by IPv6.
func answer(name string, on []net.Interface) (*mdns.Conn, error) {
	address, err := net.ResolveUDPAddr("udp4", mdns.DefaultAddressIPv4)
	if err != nil {
		return nil, err
	}
	four, err := net.ListenUDP("udp4", address)
	if err != nil {
		return nil, err
	}
	var six *ipv6.PacketConn
	if address, err := net.ResolveUDPAddr("udp6", mdns.DefaultAddressIPv6); err == nil {
		if conn, err := net.ListenUDP("udp6", address); err == nil {
			six = ipv6.NewPacketConn(conn)
		}
	}
	quiet := logging.NewDefaultLoggerFactory()
	quiet.Writer = io.Discard
	server, err := mdns.NewServer(ipv4.NewPacketConn(four), six,
		mdns.WithLocalNames(name), mdns.WithInterfaces(on...), mdns.WithIncludeLoopback(true),
		mdns.WithRecordTypes(dnsmessage.TypeA, dnsmessage.TypeAAAA), mdns.WithCacheRefresh(false), mdns.WithLoggerFactory(quiet))
	if err != nil {
		four.Close()
		if six != nil {
			six.Close()
		}
	}
	return server, err
}
