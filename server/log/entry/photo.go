package entry

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"
)

// Photo is the SHA-256 of a photo's file, by which it is known.
type Photo [sha256.Size]byte

// ParsePhoto reads 64 hex digits in lower case.
func ParsePhoto(text string) (hash Photo, ok bool) {
	if len(text) != 2*len(hash) || text != strings.ToLower(text) {
		return hash, false
	}
	_, err := hex.Decode(hash[:], []byte(text))
	return hash, err == nil
}

// String is the hash in 64 hex digits.
func (p Photo) String() string { return hex.EncodeToString(p[:]) }

// MarshalText is String, so that JSON has it as a string.
func (p Photo) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (p *Photo) UnmarshalText(text []byte) error {
	hash, ok := ParsePhoto(string(text))
	if !ok {
		return fmt.Errorf("%.70q is not 64 hex digits in lower case", text)
	}
	*p = hash
	return nil
}
