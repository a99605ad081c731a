package wayin

import (
	"net/netip"
	"strings"
	"testing"
)

func TestAnAddressThatLeadsNowhereIsTold(t *testing.T) {
	m := Machine{Addresses: []netip.Addr{netip.MustParseAddr("192.168.1.5")}, Names: []string{"box", "box.local"}}
	for address, want := range map[string]string{
		"https://192.168.1.5:8610": "", "https://192.168.1.9:8610": "does not have the address 192.168.1.9", "https://192.168.1.5": "another port",
		"https://boat.example": "", "https://box.local:8610": "", "https://wirewake.local:8610": "", "https://box:8610": "",
		"https://somewhere.net": "leads nowhere", "https://known.net": "", "https://[fd00::5]:8610": "does not have",
	} {
		got := Unreached(address, m, 8610, func(name string) bool { return name == "known.net" })
		if want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", address, got, want)
		}
	}
	public := Machine{Addresses: []netip.Addr{netip.MustParseAddr("203.0.113.8")}}
	for address, want := range map[string]bool{
		"https://203.0.113.8:8610": true, "https://203.0.113.8": false, "https://203.0.113.9:8610": false, "https://boat.example:8610": false,
	} {
		if got := Own(address, public, 8610); got != want {
			t.Errorf("%s: its own %v, want %v", address, got, want)
		}
	}
	if got := Unreached("https://192.168.1.5", m, 0, nil); got != "" {
		t.Errorf("with a port that is not known: %q", got)
	}
}
