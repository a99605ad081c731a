package nearby

import (
	"context"
	"net"
	"net/netip"
	"slices"
	"strings"
	"time"

	"golang.org/x/net/dns/dnsmessage"
)

// asking is how long answers are waited for.
const asking = 2 * time.Second

// multicast is where names of the network are asked for (RFC 6762).
var multicast = &net.UDPAddr{IP: net.IPv4(224, 0, 0, 251), Port: 5353}

// Find asks the network who offers a service, such as _nmea-0183._tcp (DNS-SD, RFC 6763), and gives where. It asks once, as a
// plain resolver does (RFC 6762, section 6.7), and only addresses of the boat's own network count.
func Find(ctx context.Context, service string) ([]netip.AddrPort, error) {
	return find(ctx, service, multicast, asking)
}

func find(ctx context.Context, service string, at *net.UDPAddr, wait time.Duration) ([]netip.AddrPort, error) {
	conn, err := net.ListenUDP("udp4", nil)
	if err != nil {
		return nil, err
	}
	defer conn.Close()
	defer context.AfterFunc(ctx, func() { conn.Close() })()
	name, err := dnsmessage.NewName(service + ".local.")
	if err != nil {
		return nil, err
	}
	if err := ask(conn, at, name, dnsmessage.TypePTR); err != nil {
		return nil, err
	}
	f := &finding{hosts: map[string]netip.Addr{}, ports: map[string]offered{}}
	if err := conn.SetReadDeadline(time.Now().Add(wait)); err != nil {
		return nil, err
	}
	content := make([]byte, 9000)
	for {
		n, _, err := conn.ReadFromUDP(content)
		if err != nil {
			break // the time is up
		}
		for _, next := range f.hear(content[:n], name.String()) {
			if err := ask(conn, at, next.name, next.kind); err != nil {
				return nil, err
			}
		}
	}
	return f.found(), nil
}

// finding is what the answers said.
type finding struct {
	ports map[string]offered    // by the name of what is offered
	hosts map[string]netip.Addr // by name
	asked []string
}

type offered struct {
	host string
	port uint16
}

type question struct {
	name dnsmessage.Name
	kind dnsmessage.Type
}

// mostAnswers is how many of a kind are looked at: a boat has one gateway or two.
const mostAnswers = 16

// hear reads one answer, and says what must still be asked for.
func (f *finding) hear(content []byte, service string) (more []question) {
	var p dnsmessage.Parser
	if _, err := p.Start(content); err != nil || p.SkipAllQuestions() != nil {
		return nil
	}
	answers, err := p.AllAnswers()
	if err != nil || p.SkipAllAuthorities() != nil {
		return nil
	}
	additionals, err := p.AllAdditionals()
	if err != nil {
		additionals = nil
	}
	for _, r := range append(answers, additionals...) {
		name := strings.ToLower(r.Header.Name.String())
		switch body := r.Body.(type) {
		case *dnsmessage.PTRResource:
			if strings.EqualFold(name, service) {
				more = append(more, question{body.PTR, dnsmessage.TypeSRV})
			}
		case *dnsmessage.SRVResource:
			if strings.HasSuffix(name, "."+strings.ToLower(service)) && len(f.ports) < mostAnswers {
				f.ports[name] = offered{strings.ToLower(body.Target.String()), body.Port}
				more = append(more, question{body.Target, dnsmessage.TypeA})
			}
		case *dnsmessage.AResource:
			if a := netip.AddrFrom4(body.A); len(f.hosts) < mostAnswers && (a.IsPrivate() || a.IsLinkLocalUnicast() || a.IsLoopback()) {
				f.hosts[name] = a
			}
		}
	}
	return slices.DeleteFunc(more, f.known)
}

// known says whether a question is answered, or was asked.
func (f *finding) known(q question) bool {
	name := strings.ToLower(q.name.String())
	_, port := f.ports[name]
	_, host := f.hosts[name]
	key := q.kind.String() + name
	if port || host || slices.Contains(f.asked, key) || len(f.asked) > 2*mostAnswers {
		return true
	}
	f.asked = append(f.asked, key)
	return false
}

func (f *finding) found() (all []netip.AddrPort) {
	for _, o := range f.ports {
		if a, ok := f.hosts[o.host]; ok && o.port != 0 {
			all = append(all, netip.AddrPortFrom(a, o.port))
		}
	}
	slices.SortFunc(all, netip.AddrPort.Compare)
	return slices.Compact(all)
}

func ask(conn *net.UDPConn, at *net.UDPAddr, name dnsmessage.Name, kind dnsmessage.Type) error {
	message := dnsmessage.Message{Questions: []dnsmessage.Question{{Name: name, Type: kind, Class: dnsmessage.ClassINET}}}
	content, err := message.Pack()
	if err != nil {
		return err
	}
	_, err = conn.WriteToUDP(content, at)
	return err
}
