package db

import (
	"crypto/rand"
	"encoding/hex"
)

// NewEpoch names a numbering of the log as no other is named.
func NewEpoch() string {
	var name [8]byte
	_, _ = rand.Read(name[:]) // never fails
	return hex.EncodeToString(name[:])
}
