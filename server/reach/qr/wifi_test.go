package qr

import (
	"strings"
	"testing"
)

// The first two are the examples of ZXing's "Barcode Contents"; the rest follow its rules.
func TestWiFiText(t *testing.T) {
	for want, w := range map[string]WiFi{
		`WIFI:T:WPA;S:mynetwork;P:mypasswd;;`:                    {SSID: "mynetwork", Password: "mypasswd"},
		`WIFI:T:WPA;S:\"foo\;bar\\baz\";P:password;;`:            {SSID: `"foo;bar\baz"`, Password: "password"},
		`WIFI:T:nopass;S:open water;;`:                           {SSID: "open water"},
		`WIFI:T:WPA;S:Boat\: a\,b;P:\\\;\,\:\"12345;H:true;;`:    {SSID: "Boat: a,b", Password: `\;,:"12345`, Hidden: true},
		`WIFI:T:WPA;S:Möwe;P:` + strings.Repeat("0f", 32) + `;;`: {SSID: "Möwe", Password: strings.Repeat("0f", 32)},
	} {
		if got := w.Text(); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
		if wrong := w.Check(); wrong != "" {
			t.Errorf("%+v: %s", w, wrong)
		}
	}
}

// unescape is the other way round, as ZXing's parser does it: a field ends at a semicolon that no backslash
// stands before, and a backslash stands for what comes after it.
func unescape(text string) map[string]string {
	fields := map[string]string{}
	rest := strings.TrimPrefix(text, "WIFI:")
	for rest != "" && rest != ";" {
		name, after, _ := strings.Cut(rest, ":")
		var value strings.Builder
		i := 0
		for ; i < len(after) && after[i] != ';'; i++ {
			if after[i] == '\\' {
				i++
			}
			value.WriteByte(after[i])
		}
		fields[name], rest = value.String(), after[i+1:]
	}
	return fields
}

func FuzzWiFi(f *testing.F) {
	f.Add("mynetwork", "mypasswd")
	f.Add(`a;P:x\`, `;;S:"other",:\`)
	f.Fuzz(func(t *testing.T, ssid, password string) {
		w := WiFi{SSID: ssid, Password: password}
		if w.Check() != "" {
			return
		}
		fields := unescape(w.Text())
		if fields["S"] != ssid || fields["P"] != password {
			t.Errorf("%q comes back as %q", w.Text(), fields)
		}
	})
}

func TestNetworksThatAreNone(t *testing.T) {
	for name, w := range map[string]WiFi{
		"no name": {}, "long name": {SSID: strings.Repeat("x", 33)}, "control": {SSID: "a\nb"}, "no text": {SSID: "\xff"},
		"short": {SSID: "x", Password: "1234567"}, "long": {SSID: "x", Password: strings.Repeat("x", 64)}, "not ASCII": {SSID: "x", Password: "sébastien"},
	} {
		if w.Check() == "" {
			t.Errorf("%s: nothing is wrong", name)
		}
	}
}
