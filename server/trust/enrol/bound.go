package enrol

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"strings"
)

// Bound binds cookies to one boat of a harbour: its name is under a signature (HMAC-SHA-256, RFC 2104) with a key that only the
// harbour's servers have. The browser keeps a cookie to one host; this keeps it to one boat where two have the same phones, as
// after the log of one was taken in under another name.
type Bound struct {
	Boat string
	Key  []byte
}

// Phone tells the phones apart that have a cookie of the boat: those that are or were aboard. ok is false for any other.
func (b *Bound) Phone(r *http.Request) (phone string, ok bool) {
	token, ok := b.tokenOf(r)
	if !ok {
		return "", false
	}
	sum := hash(token)
	return string(sum[:]), true
}

// seal is a token with the signature, as a cookie has it.
func (b *Bound) seal(token string) string {
	if b == nil {
		return token
	}
	return token + "." + b.signature(token)
}

// open is the token of a cookie; ok is false if it is of another boat.
func (b *Bound) open(value string) (token string, ok bool) {
	if b == nil {
		return value, true
	}
	token, signature, _ := strings.Cut(value, ".")
	return token, hmac.Equal([]byte(signature), []byte(b.signature(token)))
}

func (b *Bound) signature(token string) string {
	// A name has no line break, so that no two say the same.
	signed := hmac.New(sha256.New, b.Key)
	signed.Write([]byte(b.Boat + "\n" + token))
	return base64.RawURLEncoding.EncodeToString(signed.Sum(nil))
}
