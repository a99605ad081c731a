package qr

import (
	"strings"
	"unicode/utf8"
)

// WiFi is a network that phones join by scanning.
type WiFi struct {
	SSID string
	// Password is "" for an open network.
	Password string
	// Hidden says that the network does not tell its name.
	Hidden bool
}

// Check says what is wrong with the network, as a whole sentence, or "" (IEEE 802.11: an SSID has up to 32
// bytes; a passphrase 8 to 63 characters of ASCII, or the key itself 64 hex digits).
func (w WiFi) Check() string {
	switch {
	case w.SSID == "" || len(w.SSID) > 32 || !utf8.ValidString(w.SSID):
		return "The name of the Wi-Fi must have 1 to 32 bytes."
	case strings.ContainsFunc(w.SSID, func(r rune) bool { return r < ' ' || r == 0x7f }):
		return "The name of the Wi-Fi must have no control characters."
	case w.Password == "":
		return ""
	case strings.ContainsFunc(w.Password, func(r rune) bool { return r < ' ' || r > '~' }):
		return "The password of the Wi-Fi must have only letters, digits and signs of ASCII."
	case len(w.Password) == 64 && strings.Trim(strings.ToLower(w.Password), "0123456789abcdef") == "":
		return ""
	case len(w.Password) < 8 || len(w.Password) > 63:
		return "The password of the Wi-Fi must have 8 to 63 characters."
	}
	return ""
}

// escapes: in a value these five stand after a backslash.
var escapes = strings.NewReplacer(`\`, `\\`, `;`, `\;`, `,`, `\,`, `:`, `\:`, `"`, `\"`)

// Text is what a code says that phones understand as an invitation to the network: the form that the ZXing
// project wrote down and that Android and iOS read (ZXing, "Barcode Contents", Wi-Fi network config).
func (w WiFi) Text() string {
	var text strings.Builder
	text.WriteString("WIFI:")
	if w.Password == "" {
		text.WriteString("T:nopass;")
	} else {
		text.WriteString("T:WPA;")
	}
	text.WriteString("S:" + escapes.Replace(w.SSID) + ";")
	if w.Password != "" {
		text.WriteString("P:" + escapes.Replace(w.Password) + ";")
	}
	if w.Hidden {
		text.WriteString("H:true;")
	}
	return text.String() + ";"
}
