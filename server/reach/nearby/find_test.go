package nearby

import (
	"context"
	"net"
	"net/netip"
	"slices"
	"testing"
	"time"

	"github.com/miekg/dns"
)

// responder answers as a gateway does (RFC 6763), with another library (miekg/dns); with all in one answer, or piece by
// piece.
func responder(t *testing.T, whole bool) *net.UDPAddr {
	t.Helper()
	conn, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	rr := func(text string) dns.RR {
		r, err := dns.NewRR(text)
		if err != nil {
			panic(err)
		}
		return r
	}
	ptr := rr("_nmea-0183._tcp.local. 120 IN PTR mast._nmea-0183._tcp.local.")
	srv := rr("mast._nmea-0183._tcp.local. 120 IN SRV 0 0 10110 mast.local.")
	far := rr("far._nmea-0183._tcp.local. 120 IN SRV 0 0 10110 far.local.")
	here, away := rr("mast.local. 120 IN A 192.168.4.1"), rr("far.local. 120 IN A 8.8.8.8")
	s := &dns.Server{PacketConn: conn, Handler: dns.HandlerFunc(func(w dns.ResponseWriter, q *dns.Msg) {
		m := new(dns.Msg)
		m.SetReply(q)
		switch q.Question[0].Qtype {
		case dns.TypePTR:
			m.Answer = []dns.RR{ptr, rr("_nmea-0183._tcp.local. 120 IN PTR far._nmea-0183._tcp.local.")}
			if whole {
				m.Extra = []dns.RR{srv, here, far, away}
			}
		case dns.TypeSRV:
			m.Answer = []dns.RR{map[string]dns.RR{"mast._nmea-0183._tcp.local.": srv, "far._nmea-0183._tcp.local.": far}[q.Question[0].Name]}
		case dns.TypeA:
			m.Answer = []dns.RR{map[string]dns.RR{"mast.local.": here, "far.local.": away}[q.Question[0].Name]}
		}
		_ = w.WriteMsg(m)
	})}
	go func() { _ = s.ActivateAndServe() }()
	t.Cleanup(func() { _ = s.Shutdown() })
	return conn.LocalAddr().(*net.UDPAddr)
}

func TestAGatewayIsFound(t *testing.T) {
	for _, whole := range []bool{true, false} {
		at := responder(t, whole)
		var all []netip.AddrPort
		for deadline := time.Now().Add(time.Minute); len(all) == 0 && time.Now().Before(deadline); {
			var err error
			if all, err = find(t.Context(), "_nmea-0183._tcp", at, 300*time.Millisecond); err != nil {
				t.Fatal(err)
			}
		}
		// One that says it is elsewhere in the world is none of the boat's.
		if want := []netip.AddrPort{netip.MustParseAddrPort("192.168.4.1:10110")}; !slices.Equal(all, want) {
			t.Errorf("%v: %v, want %v", whole, all, want)
		}
	}
}

func TestNobodyAnswers(t *testing.T) {
	conn, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if all, err := find(t.Context(), "_nmea-0183._tcp", conn.LocalAddr().(*net.UDPAddr), 50*time.Millisecond); err != nil || len(all) > 0 {
		t.Errorf("%v %v", all, err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if all, _ := find(ctx, "_nmea-0183._tcp", conn.LocalAddr().(*net.UDPAddr), time.Hour); len(all) > 0 {
		t.Error(all)
	}
}

// Whatever comes is read without harm.
func FuzzHear(f *testing.F) {
	f.Add([]byte("\x00\x00\x84\x00\x00\x00\x00\x01\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, content []byte) {
		a := &finding{hosts: map[string]netip.Addr{}, ports: map[string]offered{}}
		a.hear(content, "_nmea-0183._tcp.local.")
		for _, one := range a.found() {
			if !one.Addr().IsPrivate() && !one.Addr().IsLoopback() && !one.Addr().IsLinkLocalUnicast() {
				t.Error(one)
			}
		}
	})
}
