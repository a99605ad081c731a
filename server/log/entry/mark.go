package entry

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"math/big"

	"github.com/google/uuid"
)

// keySize is that of a public key on P-256, compressed (SEC 1, section 2.3.3); sigSize that of a signature, r and
// s, as the Web Cryptography API makes it.
const (
	keySize = 33
	sigSize = 64
)

// Key is the public key by which a phone is known.
type Key [keySize]byte

// Mark is what a phone puts to an entry that it wrote: its public key and its signature. Whoever brings the entry,
// and wherever, it says who wrote it, because the phone is named after its key.
type Mark [keySize + sigSize]byte

// ReadKey reads a key in base64url.
func ReadKey(text string) (k Key, ok bool) {
	ok = decodeExactly(k[:], text)
	return k, ok && k.public() != nil
}

// Device is the id of the phone that has the key: a UUID of version 8 (RFC 9562, section 5.8) of the key's SHA-256.
func (k Key) Device() uuid.UUID {
	hash := sha256.Sum256(k[:])
	id := uuid.UUID(hash[:16])
	id[6], id[8] = 0x80|id[6]&0xf, 0x80|id[8]&0x3f
	return id
}

// public is nil of what is no point on the curve.
func (k Key) public() *ecdsa.PublicKey {
	x, y := elliptic.UnmarshalCompressed(elliptic.P256(), k[:])
	if x == nil {
		return nil
	}
	point := make([]byte, 65)
	point[0] = 4 // not compressed
	x.FillBytes(point[1:33])
	y.FillBytes(point[33:])
	public, err := ecdsa.ParseUncompressedPublicKey(elliptic.P256(), point)
	if err != nil {
		return nil
	}
	return public
}

// Signed says whether a signature of a text, in base64url, is by the key.
func (k Key) Signed(text, signature string) bool {
	var sig [sigSize]byte
	return decodeExactly(sig[:], signature) && k.verify([]byte(text), sig[:])
}

func (k Key) verify(text, sig []byte) bool {
	public, hash := k.public(), sha256.Sum256(text)
	half := len(sig) / 2
	return public != nil && ecdsa.Verify(public, hash[:], new(big.Int).SetBytes(sig[:half]), new(big.Int).SetBytes(sig[half:]))
}

// Marked is the text that a mark signs: the name of the phone, and the content.
func Marked(name string, e Entry) []byte {
	return append([]byte("wirewake entry\n"+name+"\n"), e.Content()...)
}

// Proves says whether an author wrote an entry.
func (m Mark) Proves(a Author, e Entry) bool {
	key := Key(m[:keySize])
	return key.Device() == a.By && key.verify(Marked(a.ByName, e), m[keySize:])
}

// String is the mark in base64url.
func (m Mark) String() string { return base64.RawURLEncoding.EncodeToString(m[:]) }

// MarshalText is String, so that JSON has it as a string.
func (m Mark) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (m *Mark) UnmarshalText(text []byte) error {
	if !decodeExactly(m[:], string(text)) {
		return fmt.Errorf("%.140q is no mark", text)
	}
	return nil
}

// decodeExactly fills bytes from base64url, if there are just so many.
func decodeExactly(into []byte, text string) bool {
	bytes, err := base64.RawURLEncoding.Strict().DecodeString(text)
	return err == nil && len(bytes) == len(into) && copy(into, bytes) == len(into)
}
