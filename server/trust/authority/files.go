package authority

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
)

// DirName is the directory of the authority in the data directory.
const DirName = "authority"

const (
	rootFile   = "root.crt"
	issuerFile = "issuer.crt"
	keyFile    = "issuer.key"
)

// ErrCannotMake is that a new authority cannot be kept: the data directory cannot be used, or is full.
var ErrCannotMake = errors.New("the boat's authority cannot be made")

// Open opens the authority in a data directory, and makes it if there is none. The error says what to do.
func Open(data, name string, addresses func() []netip.Addr, now func() time.Time) (*Authority, error) {
	dir := filepath.Join(data, DirName)
	if _, err := os.Lstat(dir); err != nil {
		if err := create(dir, name, now()); err != nil {
			return nil, fmt.Errorf("%w: %w", ErrCannotMake, err)
		}
	}
	a := &Authority{Name: name, Addresses: addresses, Now: now}
	if err := a.read(dir); err != nil {
		return nil, fmt.Errorf("the boat's authority cannot be used (%w): put %s back from a copy, or move it away and let the phones "+
			"install a new one", err, dir)
	}
	if !slices.Contains(a.issuer.PermittedDNSDomains, name+".local") {
		return nil, fmt.Errorf("this boat's authority was made for %s and may not vouch for %s.local: start with the name of then, or move %s "+
			"away and let the phones install a new one", a.issuer.PermittedDNSDomains[0], name, dir)
	}
	return a, nil
}

func (a *Authority) read(dir string) (err error) {
	if a.root, err = readCertificate(filepath.Join(dir, rootFile)); err != nil {
		return err
	}
	if a.issuer, err = readCertificate(filepath.Join(dir, issuerFile)); err != nil {
		return err
	}
	// A key that came back from a copy may have come open to others. On a disk that is read-only it stays so.
	if err := os.Chmod(filepath.Join(dir, keyFile), 0o600); err != nil && !errors.Is(err, syscall.EROFS) {
		return err
	}
	der, err := readBlock(filepath.Join(dir, keyFile), "PRIVATE KEY")
	if err != nil {
		return err
	}
	key, err := x509.ParsePKCS8PrivateKey(der)
	if err != nil {
		return fmt.Errorf("%s: %w", keyFile, err)
	}
	a.key, _ = key.(*ecdsa.PrivateKey)
	if a.key == nil || !a.key.PublicKey.Equal(a.issuer.PublicKey) {
		return fmt.Errorf("%s is not the key of %s", keyFile, issuerFile)
	}
	if len(a.issuer.PermittedDNSDomains) == 0 {
		return fmt.Errorf("%s is bound to no name", issuerFile)
	}
	return a.issuer.CheckSignatureFrom(a.root)
}

func readCertificate(file string) (*x509.Certificate, error) {
	der, err := readBlock(file, "CERTIFICATE")
	if err != nil {
		return nil, err
	}
	certificate, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.Base(file), err)
	}
	return certificate, nil
}

func readBlock(file, kind string) ([]byte, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	block, rest := pem.Decode(text)
	if block == nil || block.Type != kind || len(bytes.TrimSpace(rest)) > 0 {
		return nil, fmt.Errorf("%s holds no %s", filepath.Base(file), kind)
	}
	return block.Bytes, nil
}

// The authority lives ten years. A boat's computer may have lost its clock, so it begins long before, and
// ends ten years after this source was written if the clock says that it is earlier still.
const life = 10

var (
	written = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	begins  = time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
)

// create makes an authority. Either all of it is there afterwards or nothing.
func create(dir, name string, now time.Time) error {
	if now.Before(written) {
		now = written
	}
	rootKey, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	template := func(commonName string) *x509.Certificate {
		return &x509.Certificate{
			Subject:               pkix.Name{CommonName: commonName, Organization: []string{"Wirewake"}},
			NotBefore:             begins,
			NotAfter:              now.AddDate(life, 0, 0),
			KeyUsage:              x509.KeyUsageCertSign,
			BasicConstraintsValid: true,
			IsCA:                  true,

			PermittedDNSDomainsCritical: true,
			PermittedDNSDomains:         names(name),
			PermittedIPRanges:           private,
		}
	}
	root := template(name + ".local, the boat's authority")
	root.MaxPathLen = 1
	rootDER, err := x509.CreateCertificate(rand.Reader, root, root, rootKey.Public(), rootKey)
	if err != nil {
		return err
	}
	issuer := template(name + ".local, the boat's issuer")
	issuer.MaxPathLenZero = true
	issuer.ExtKeyUsage = []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}
	if root, err = x509.ParseCertificate(rootDER); err != nil {
		return err
	}
	issuerDER, err := x509.CreateCertificate(rand.Reader, issuer, root, key.Public(), rootKey)
	if err != nil {
		return err
	}
	keyDER, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return err
	}
	return write(dir, map[string]*pem.Block{
		rootFile:   {Type: "CERTIFICATE", Bytes: rootDER},
		issuerFile: {Type: "CERTIFICATE", Bytes: issuerDER},
		keyFile:    {Type: "PRIVATE KEY", Bytes: keyDER},
	})
}

func write(dir string, files map[string]*pem.Block) error {
	if err := os.MkdirAll(filepath.Dir(dir), 0o700); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(filepath.Dir(dir), DirName+"-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(fresh)
	for name, block := range files {
		file, err := os.OpenFile(filepath.Join(fresh, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if err != nil {
			return err
		}
		if err := errors.Join(pem.Encode(file, block), file.Sync(), file.Close()); err != nil {
			return err
		}
	}
	return os.Rename(fresh, dir)
}

// VouchesIn says whether there is an authority in a data directory, and it may vouch for a host.
func VouchesIn(data, host string) bool {
	issuer, err := readCertificate(filepath.Join(data, DirName, issuerFile))
	if err != nil || len(issuer.PermittedDNSDomains) == 0 {
		return false
	}
	return Permits(strings.TrimSuffix(issuer.PermittedDNSDomains[0], ".local"), host)
}

// FingerprintIn is the fingerprint of the authority in a data directory, "" if there is none.
func FingerprintIn(data string) string {
	root, err := readCertificate(filepath.Join(data, DirName, rootFile))
	if err != nil {
		return ""
	}
	return (&Authority{root: root}).Fingerprint()
}
