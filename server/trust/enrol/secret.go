package enrol

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"strings"
	"time"

	"wirewake/server/store"
)

// Secrets are random and long enough that a plain hash of them tells nothing: 128 bits for an
// invitation, 256 for a token. A code to type has 40; what guards it is that it lives ten minutes, works
// once, and may be guessed only so often.

func random(bytes int) string {
	secret := make([]byte, bytes)
	rand.Read(secret)
	return base64.RawURLEncoding.EncodeToString(secret)
}

func hash(secret string) store.Hash { return sha256.Sum256([]byte(secret)) }

// letters are those of Crockford's base 32: none that looks like another.
const letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

func randomCode() string {
	bytes := make([]byte, 8)
	rand.Read(bytes)
	for i, b := range bytes {
		bytes[i] = letters[b%32]
	}
	return string(bytes[:4]) + "-" + string(bytes[4:])
}

// randomWord is a word of three syllables that can be said in any language. It is no secret: whoever answers a phone
// that asks knows by it which one that is.
func randomWord() string {
	const most = 3
	consonants, vowels := []byte("bdflmnrst"), "aio"
	draw := make([]byte, 2*most)
	rand.Read(draw)
	var word strings.Builder
	for i := range most {
		// None twice, so that no two syllables are alike.
		left := len(consonants) - i
		at := int(draw[2*i]) % left
		word.WriteByte(consonants[at])
		consonants[at], consonants[left-1] = consonants[left-1], consonants[at]
		word.WriteByte(vowels[int(draw[2*i+1])%len(vowels)])
	}
	return word.String()
}

var misread = strings.NewReplacer(" ", "", "-", "", "O", "0", "I", "1", "L", "1")

// typed is the hash of a code however it was typed.
func typed(code string) store.Hash { return hash(misread.Replace(strings.ToUpper(code))) }

// cookieName has the prefix with which browsers let no other host, and no plain http, set it.
const cookieName = "__Host-wirewake"

func (e *Enrolment) cookie(token string) *http.Cookie {
	return &http.Cookie{
		Name: cookieName, Value: e.Bound.seal(token), Path: "/", MaxAge: int(store.Unseen / time.Second),
		Secure: true, HttpOnly: true, SameSite: http.SameSiteStrictMode,
	}
}

func (e *Enrolment) tokenOf(r *http.Request) (token string, ok bool) { return e.Bound.tokenOf(r) }

func (b *Bound) tokenOf(r *http.Request) (token string, ok bool) {
	c, err := r.Cookie(cookieName)
	if err != nil || c.Value == "" {
		return "", false
	}
	return b.open(c.Value)
}
