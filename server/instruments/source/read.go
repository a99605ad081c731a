// Package source brings lines from where instruments speak: a gateway on the boat's network by TCP or UDP, a serial line, or
// a file of former lines, at the pace at which they once came. What breaks off is begun anew, for ever.
//
// Nothing that comes proves who sent it: which hosts and ports are listened to is the owner's to say, and every line is as
// long as one may be and no longer.
package source

import (
	"fmt"
	"net"
	"net/netip"
	"strconv"
	"strings"
)

// The schemes.
const (
	TCP    = "tcp"
	UDP    = "udp"
	Serial = "serial"
	File   = "file"
	Nearby = "nearby"
)

// usualBaud is that of NMEA 0183.
const usualBaud = 4800

// Source is one place where instruments speak.
type Source struct {
	Scheme string
	// Address is host and port, the serial line's device, or the file.
	Address string
	Baud    int
}

// Forms is how a source is written.
const Forms = "tcp://HOST:PORT, udp://:PORT, udp://HOST:PORT, serial:DEVICE@4800, file:PATH or nearby"

// Read reads a source as an owner writes it; what says what is wrong with it.
func Read(text string) (s Source, what string) {
	wrong := fmt.Sprintf("must be %s, not %q", Forms, text)
	if text == Nearby {
		return Source{Scheme: Nearby}, ""
	}
	scheme, rest, found := strings.Cut(text, ":")
	if !found || rest == "" {
		return s, wrong
	}
	s = Source{Scheme: scheme, Address: rest}
	switch scheme {
	case TCP, UDP:
		address, ok := strings.CutPrefix(rest, "//")
		host, port, err := net.SplitHostPort(address)
		if n, bad := strconv.ParseUint(port, 10, 16); !ok || err != nil || bad != nil || n == 0 || scheme == TCP && host == "" {
			return s, wrong
		}
		if scheme == UDP && host != "" {
			if _, err := netip.ParseAddr(host); err != nil {
				return s, fmt.Sprintf("must have the sender's address in numbers, such as udp://192.168.1.5:10110, not %q", text)
			}
		}
		s.Address = address
	case Serial:
		device, baud, chosen := strings.Cut(rest, "@")
		s.Address, s.Baud = device, usualBaud
		if chosen {
			n, err := strconv.Atoi(baud)
			if err != nil || n < 300 || n > 921600 {
				return s, fmt.Sprintf("must have a speed from 300 to 921600 after the @, such as %d, not %q", usualBaud, baud)
			}
			s.Baud = n
		}
		if device == "" {
			return s, wrong
		}
	case File:
	default:
		return s, wrong
	}
	return s, ""
}

// String is the source as it is written.
func (s Source) String() string {
	switch s.Scheme {
	case Nearby:
		return Nearby
	case Serial:
		return fmt.Sprintf("%s:%s@%d", s.Scheme, s.Address, s.Baud)
	case File:
		return s.Scheme + ":" + s.Address
	}
	return s.Scheme + "://" + s.Address
}
