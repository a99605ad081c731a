package home

import (
	"bytes"
	"context"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"
)

// rootPath is where a boat's server gives out the certificate of its authority.
const rootPath = "/boat.crt"

// mostRoot is the most bytes of it that are read.
const mostRoot = 64 << 10

// trusting is the client to ask home with. Where the invitation named home's own authority, by the SHA-256 of its
// certificate, it is fetched from whoever answers, and nobody is trusted but who that one vouches for.
func (h *Home) trusting(ctx context.Context, root string) (*http.Client, error) {
	if root == "" {
		return h.Client, nil
	}
	if h.pinned != nil && h.pinnedTo == root {
		return h.pinned, nil
	}
	der, err := h.fetchRoot(ctx)
	if err != nil {
		return nil, err
	}
	if hash := sha256.Sum256(der); hex.EncodeToString(hash[:]) != root {
		return nil, otherServer(h.Link.URL)
	}
	certificate, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	pool := x509.NewCertPool()
	pool.AddCert(certificate)
	h.pinned, h.pinnedTo = with(h.Client, &tls.Config{RootCAs: pool}), root
	return h.pinned, nil
}

// fetchRoot gets the certificate from whoever answers: what it is worth is told by its hash alone.
func (h *Home) fetchRoot(ctx context.Context) ([]byte, error) {
	r, err := h.request(ctx, "", http.MethodGet, rootPath, bytes.NewReader(nil))
	if err != nil {
		return nil, err
	}
	response, err := with(h.Client, &tls.Config{InsecureSkipVerify: true}).Do(r)
	if err != nil {
		return nil, explained(err)
	}
	defer response.Body.Close()
	if response.StatusCode != http.StatusOK {
		return nil, otherServer(h.Link.URL)
	}
	return io.ReadAll(io.LimitReader(response.Body, mostRoot))
}

// with is a client like another, with its own idea of whom to trust.
func with(client *http.Client, trust *tls.Config) *http.Client {
	own := *client
	transport := http.DefaultTransport.(*http.Transport).Clone()
	transport.TLSClientConfig = trust
	own.Transport = transport
	return &own
}

func otherServer(url string) error {
	return &refusal{"what answers at " + url + " is not the server that made the invitation: if it is a network's login page, log in; if home has " +
		"another authority now, make an invitation there (wirewake invite --role mate) and give --home the whole link"}
}

// readRoot reads the fingerprint of an authority in a link.
func readRoot(text string) (root string, ok bool) {
	root = strings.ToLower(text)
	hash, err := hex.DecodeString(root)
	return root, err == nil && len(hash) == sha256.Size
}

// explained says what somebody has to do about an error of the connection, if that is so.
func explained(err error) error {
	var unknown x509.UnknownAuthorityError
	var name x509.HostnameError
	var invalid x509.CertificateInvalidError
	switch {
	case errors.As(err, &unknown):
		return &refusal{"nobody whom this computer knows vouches for home: make an invitation there (wirewake invite --role mate) and give " +
			"--home the whole link, which says who does"}
	case errors.As(err, &name):
		return &refusal{fmt.Sprintf("home's certificate is not for %s: give --home the address that it is for", name.Host)}
	case errors.As(err, &invalid) && invalid.Reason == x509.Expired:
		return &refusal{"home's certificate is out of date, or the clock of one of the two computers is wrong"}
	case errors.As(err, new(tls.RecordHeaderError)):
		return &refusal{"what answers at home's address does not speak https"}
	}
	return err
}

// cause is what an error comes from: the same as long as nothing has changed, whatever ports and times it tells.
func cause(err error) string {
	if errors.As(err, new(*url.Error)) && !errors.As(err, new(*refusal)) {
		return "out of reach"
	}
	return err.Error()
}
