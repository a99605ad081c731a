package harness

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Key is both halves of a phone's key.
type Key struct{ private *ecdsa.PrivateKey }

// NewKey makes a key.
func NewKey() *Key {
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		panic(err) // there is no randomness
	}
	return &Key{private}
}

func (k *Key) public() []byte {
	point, err := k.private.PublicKey.Bytes()
	if err != nil {
		panic(err) // it was made a moment ago
	}
	return append([]byte{2 + point[64]&1}, point[1:33]...)
}

// Public is the public half in base64url.
func (k *Key) Public() string { return base64.RawURLEncoding.EncodeToString(k.public()) }

// Sign signs a text, in base64url.
func (k *Key) Sign(text string) string {
	return base64.RawURLEncoding.EncodeToString(k.sign([]byte(text)))
}

func (k *Key) sign(text []byte) []byte {
	hash := sha256.Sum256(text)
	r, s, err := ecdsa.Sign(rand.Reader, k.private, hash[:])
	if err != nil {
		panic(err) // there is no randomness
	}
	sig := make([]byte, 64)
	r.FillBytes(sig[:32])
	s.FillBytes(sig[32:])
	return sig
}

// Mark is what the phone of this name puts to an entry.
func (k *Key) Mark(name string, e entry.Entry) *entry.Mark {
	mark := entry.Mark(append(k.public(), k.sign(entry.Marked(name, e))...))
	return &mark
}

// Device is the id of the phone that is named after the key.
func (k *Key) Device() uuid.UUID {
	key, _ := entry.ReadKey(k.Public())
	return key.Device()
}
