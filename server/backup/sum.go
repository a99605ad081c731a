package backup

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"os"
)

// comment is the record of a header that is for nobody but who wrote it (POSIX.1-2001, pax), sumName what it begins with.
const (
	comment = "comment"
	sumName = "sha256 "
)

// follows is the record of the database's header that says that another archive follows.
const follows = "WIREWAKE.follows"

// sumOf is the SHA-256 of a file, as hexadecimal digits.
func sumOf(path string) (string, error) {
	file, err := os.Open(path)
	if err != nil {
		return "", err
	}
	hash := sha256.New()
	_, err = io.Copy(hash, file)
	return hex.EncodeToString(hash.Sum(nil)), errors.Join(err, file.Close())
}
