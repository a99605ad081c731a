package authority

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/base64"
	"encoding/pem"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var day = time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)

// boat is an authority of a server with these addresses, at a time that can be moved.
func boat(t *testing.T, data string, at *time.Time, addresses ...string) *Authority {
	t.Helper()
	a, err := Open(data, "wirewake", func() []netip.Addr {
		var all []netip.Addr
		for _, text := range addresses {
			all = append(all, netip.MustParseAddr(text))
		}
		return all
	}, func() time.Time { return *at })
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// verify is what a phone does that trusts the root and nothing else.
func verify(a *Authority, chain [][]byte, host string, at time.Time) error {
	leaf, err := x509.ParseCertificate(chain[0])
	if err != nil {
		return err
	}
	roots, between := x509.NewCertPool(), x509.NewCertPool()
	roots.AddCert(a.root)
	for _, der := range chain[1:] {
		c, err := x509.ParseCertificate(der)
		if err != nil {
			return err
		}
		between.AddCert(c)
	}
	_, err = leaf.Verify(x509.VerifyOptions{Roots: roots, Intermediates: between, DNSName: host, CurrentTime: at})
	return err
}

func TestThePhoneThatTrustsTheRootTrustsTheServer(t *testing.T) {
	at := day
	a := boat(t, t.TempDir(), &at, "192.168.1.5", "fd00::5", "203.0.113.8")
	shown, err := a.vouch(a.Addresses())
	if err != nil {
		t.Fatal(err)
	}
	for host, want := range map[string]bool{
		"wirewake.local": true, "localhost": true, "127.0.0.1": true, "::1": true, "192.168.1.5": true, "fd00::5": true,
		// Not vouched for: an address of the whole world's, one of a stranger.
		"203.0.113.8": false, "192.168.1.6": false, "boat.example": false,
	} {
		if err := verify(a, shown.Certificate, host, at); (err == nil) != want {
			t.Errorf("%s: %v", host, err)
		}
	}
	if life := shown.Leaf.NotAfter.Sub(shown.Leaf.NotBefore); life > 397*24*time.Hour {
		t.Errorf("the certificate lives %v", life)
	}
}

// forge makes a certificate with the issuer's own key, as a thief of the data directory would.
func forge(t *testing.T, a *Authority, template *x509.Certificate) [][]byte {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template.NotBefore, template.NotAfter = day.Add(-time.Hour), day.Add(time.Hour)
	template.ExtKeyUsage = []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}
	template.KeyUsage = x509.KeyUsageDigitalSignature
	der, err := x509.CreateCertificate(rand.Reader, template, a.issuer, key.Public(), a.key)
	if err != nil {
		t.Fatal(err)
	}
	return [][]byte{der, a.issuer.Raw}
}

// The constraints hold for two verifiers that share no code: Go's and OpenSSL's.
func TestAStolenKeyVouchesForNothingButTheBoat(t *testing.T) {
	openssl, err := exec.LookPath("openssl")
	if err != nil && os.Getenv("CI") != "" {
		t.Fatal("openssl is missing; make test installs it")
	}
	at := day
	a := boat(t, t.TempDir(), &at)
	for host, want := range map[string]bool{
		"wirewake.local": true, "192.168.77.7": true, "10.1.2.3": true, "fd12::1": true, "localhost": true,
		"bank.example": false, "other.local": false, "local": false, "203.0.113.8": false, "172.32.0.1": false, "2001:db8::1": false,
		"wirewake.local.example": false, "mywirewake.local": false,
	} {
		template := &x509.Certificate{}
		flag := "-verify_hostname"
		if ip := net.ParseIP(host); ip != nil {
			template.IPAddresses, flag = []net.IP{ip}, "-verify_ip"
		} else {
			template.DNSNames = []string{host}
		}
		chain := forge(t, a, template)
		if err := verify(a, chain, host, at); (err == nil) != want {
			t.Errorf("Go, %s: %v", host, err)
		}
		if openssl == "" {
			continue
		}
		dir := t.TempDir()
		var files []string
		for i, der := range [][]byte{a.Root(), chain[1], chain[0]} {
			file := filepath.Join(dir, fmt.Sprint(i, ".pem"))
			if err := os.WriteFile(file, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), 0o600); err != nil {
				t.Fatal(err)
			}
			files = append(files, file)
		}
		said, err := exec.Command(openssl, "verify", "-x509_strict", "-attime", fmt.Sprint(at.Unix()), "-purpose", "sslserver", flag, host,
			"-CAfile", files[0], "-untrusted", files[1], files[2]).CombinedOutput()
		if (err == nil) != want {
			t.Errorf("OpenSSL, %s: %v %s", host, err, said)
		}
		if !want && !strings.Contains(string(said), "permitted subtree violation") {
			t.Errorf("OpenSSL refuses %s for another reason: %s", host, said)
		}
	}
	// Nor may it make authorities, nor vouch for anything but servers.
	below := &x509.Certificate{IsCA: true, BasicConstraintsValid: true, DNSNames: []string{"wirewake.local"}}
	chain := forge(t, a, below)
	between, err := x509.ParseCertificate(chain[0])
	if err != nil {
		t.Fatal(err)
	}
	key, _ := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	der, err := x509.CreateCertificate(rand.Reader, &x509.Certificate{DNSNames: []string{"wirewake.local"}, NotBefore: day.Add(-time.Hour),
		NotAfter: day.Add(time.Hour)}, between, key.Public(), key)
	if err == nil {
		if err := verify(a, append([][]byte{der}, chain...), "wirewake.local", at); err == nil {
			t.Error("an authority below the issuer is trusted")
		}
	}
}

func TestTheKeyOfTheRootIsNowhere(t *testing.T) {
	data, at := t.TempDir(), day
	a := boat(t, data, &at)
	err := filepath.WalkDir(data, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		if info, err := entry.Info(); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v", path, info.Mode(), err)
		}
		der, err := readBlock(path, "PRIVATE KEY")
		if err != nil {
			return nil
		}
		key, err := x509.ParsePKCS8PrivateKey(der)
		if err != nil {
			return err
		}
		if key.(*ecdsa.PrivateKey).PublicKey.Equal(a.root.PublicKey) {
			t.Errorf("%s is the root's key", path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestItIsMadeOnceAndItsKeyKeptFromOthers(t *testing.T) {
	data, at := t.TempDir(), day
	first := boat(t, data, &at)
	key := filepath.Join(data, DirName, keyFile)
	if err := os.Chmod(key, 0o644); err != nil {
		t.Fatal(err)
	}
	second := boat(t, data, &at)
	if first.Fingerprint() != second.Fingerprint() {
		t.Error("the next start has another authority")
	}
	if info, err := os.Stat(key); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the key is %v", info.Mode())
	}
	if boat(t, t.TempDir(), &at).Fingerprint() == first.Fingerprint() {
		t.Error("two boats have the same authority")
	}
}

func TestTheCertificateIsMadeAnewByItself(t *testing.T) {
	at := day
	addresses := []string{"192.168.1.5"}
	a := boat(t, t.TempDir(), &at)
	a.Addresses = func() []netip.Addr {
		var all []netip.Addr
		for _, text := range addresses {
			all = append(all, netip.MustParseAddr(text))
		}
		return all
	}
	first := a.Leaf()
	at = at.AddDate(0, 11, 0)
	if a.Leaf() == first {
		t.Error("eleven months later it shows the same certificate")
	}
	second := a.Leaf()
	at = at.AddDate(0, 0, 30)
	if a.Leaf() != second {
		t.Error("it makes one anew without need")
	}
	// The network gave the computer another address: both are good, for phones that still know the old one.
	addresses = []string{"192.168.1.9"}
	third := a.Leaf()
	for _, host := range []string{"192.168.1.5", "192.168.1.9"} {
		if err := third.VerifyHostname(host); err != nil {
			t.Error(err)
		}
	}
	// The clock was a year ahead, and was set.
	at = day.AddDate(0, -1, 0)
	if back := a.Leaf(); !back.NotBefore.Before(at) || verify(a, [][]byte{back.Raw, a.issuer.Raw}, "localhost", at) != nil {
		t.Errorf("after the clock was put back it shows one from %v", back.NotBefore)
	}
	// Towards the end of the authority the certificate does not outlive it.
	at = a.Ends().AddDate(0, -1, 0)
	if leaf := a.Leaf(); leaf.NotAfter.After(a.Ends()) {
		t.Errorf("the certificate ends %v, the authority %v", leaf.NotAfter, a.Ends())
	}
	if notes := a.Notes(at); len(notes) != 1 || !strings.Contains(notes[0], "let the phones install the new one") {
		t.Errorf("notes %q", notes)
	}
	if notes := a.Notes(day); len(notes) != 0 {
		t.Errorf("notes %q", notes)
	}
}

func TestAComputerWithoutAClockMakesOneThatIsGoodLater(t *testing.T) {
	at := time.Unix(0, 0)
	a := boat(t, t.TempDir(), &at)
	at = day
	if err := verify(a, [][]byte{a.Leaf().Raw, a.issuer.Raw}, "wirewake.local", at); err != nil {
		t.Error(err)
	}
}

func TestWhatCannotBeUsedSaysWhatToDo(t *testing.T) {
	at := day
	for name, harm := range map[string]func(dir string) error{
		"no key":      func(dir string) error { return os.Remove(filepath.Join(dir, keyFile)) },
		"no root":     func(dir string) error { return os.Remove(filepath.Join(dir, rootFile)) },
		"noise":       func(dir string) error { return os.WriteFile(filepath.Join(dir, issuerFile), []byte("noise"), 0o600) },
		"swapped":     func(dir string) error { return os.Rename(filepath.Join(dir, rootFile), filepath.Join(dir, issuerFile)) },
		"another key": func(dir string) error { return copyFrom(t, dir, keyFile) },
		"another's":   func(dir string) error { return copyFrom(t, dir, rootFile) },
	} {
		data := t.TempDir()
		boat(t, data, &at)
		if err := harm(filepath.Join(data, DirName)); err != nil {
			t.Fatal(err)
		}
		_, err := Open(data, "wirewake", nil, time.Now)
		if err == nil || !strings.Contains(err.Error(), "let the phones install a new one") {
			t.Errorf("%s: %v", name, err)
		}
	}
	data := t.TempDir()
	boat(t, data, &at)
	if _, err := Open(data, "other", nil, time.Now); err == nil || !strings.Contains(err.Error(), "was made for wirewake.local") {
		t.Errorf("another name: %v", err)
	}
}

// copyFrom puts a file of another boat's authority in the place of one in dir.
func copyFrom(t *testing.T, dir, name string) error {
	at, data := day, t.TempDir()
	boat(t, data, &at)
	content, err := os.ReadFile(filepath.Join(data, DirName, name))
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, name), content, 0o600)
}

func TestNames(t *testing.T) {
	for name, good := range map[string]bool{
		"wirewake": true, "sea-2": true, "": false, "Boat": false, "my boat": false, "boat.local": false, "-x": false, "x-": false,
		"localhost": false, strings.Repeat("x", 63): true, strings.Repeat("x", 64): false, "bøat": false,
	} {
		if (CheckName(name) == "") != good {
			t.Errorf("%q: %q", name, CheckName(name))
		}
	}
	for host, want := range map[string]bool{
		"wirewake.local": true, "WIREWAKE.local": true, "localhost": true, "192.168.1.5": true, "fd00::1": true,
		"boat.local": false, "boat.example": false, "192.0.2.7": false,
	} {
		if Permits("wirewake", host) != want {
			t.Errorf("Permits %s is not %v", host, want)
		}
	}
}

func TestTheHandshakeVouchesForTheAddressThePhoneFound(t *testing.T) {
	at := day
	a := boat(t, t.TempDir(), &at)
	listener, err := net.Listen("tcp", "127.0.0.2:0")
	if err != nil {
		t.Skip(err)
	}
	defer listener.Close()
	go func() {
		for {
			c, err := listener.Accept()
			if err != nil {
				return
			}
			go func() { tls.Server(c, &tls.Config{GetCertificate: a.GetCertificate}).Handshake(); c.Close() }()
		}
	}()
	roots := x509.NewCertPool()
	roots.AddCert(a.root)
	c, err := tls.Dial("tcp", listener.Addr().String(), &tls.Config{RootCAs: roots, Time: func() time.Time { return at }})
	if err != nil {
		t.Fatal(err)
	}
	c.Close()
}

// The profile is a property list that holds the root: read with Go's XML as key, value, key, value.
func TestTheProfileHoldsTheRoot(t *testing.T) {
	at, data := day, t.TempDir()
	a := boat(t, data, &at)
	text := a.Profile()
	if !bytes.Equal(text, boat(t, data, &at).Profile()) {
		t.Error("the next start has another profile: phones would keep both")
	}
	decoder := xml.NewDecoder(bytes.NewReader(text))
	values := map[string][]string{}
	key, element := "", ""
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			element = token.Name.Local
		case xml.CharData:
			if word := strings.TrimSpace(string(token)); word != "" && element == "key" {
				key = word
			} else if word != "" {
				values[key] = append(values[key], word)
			}
		}
	}
	// Keys of Apple's "Configuration Profile Reference".
	der, err := base64.StdEncoding.DecodeString(values["PayloadContent"][0])
	if err != nil || !bytes.Equal(der, a.Root()) {
		t.Errorf("the content is not the root: %v", err)
	}
	if got := fmt.Sprint(values["PayloadType"]); got != "[com.apple.security.root Configuration]" {
		t.Errorf("types %s", got)
	}
	if ids := values["PayloadUUID"]; len(ids) != 2 || ids[0] == ids[1] {
		t.Errorf("ids %v", ids)
	}
}

func TestADirectoryThatCannotBeWrittenIsTold(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(filepath.Join(file, "data"), "wirewake", nil, time.Now); !errors.Is(err, ErrCannotMake) {
		t.Errorf("%v", err)
	}
}
