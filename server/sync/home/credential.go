package home

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"wirewake/server/log/contract"
	"wirewake/server/store/tables"
	"wirewake/server/trust/enrol"
)

// Link is where home is: its origin, the invitation if there is one, and the SHA-256 of its own authority's certificate
// if it has one, as hexadecimal digits.
type Link struct{ URL, Invitation, Root string }

// String is the link as it is given to --home.
func (l Link) String() string {
	text := l.URL + "/#join=" + l.Invitation
	if l.Root != "" {
		text += "&root=" + l.Root
	}
	return text
}

// ReadLink reads a link as home's wirewake invite prints it, or its origin alone. What is wrong is a sentence
// without its start.
func ReadLink(text string) (link Link, problem string) {
	const form = "must be the link that wirewake invite --role mate prints at home, such as https://boat.example/#join=…"
	u, err := url.Parse(text)
	if err != nil || u.Host == "" || u.User != nil || u.RawQuery != "" || u.Path != "" && u.Path != "/" {
		return Link{}, form
	}
	switch {
	case u.Scheme == "http" && !onThisComputer(u.Hostname()):
		return Link{}, "must begin with https: the notes are not for everybody on the way"
	case u.Scheme != "https" && u.Scheme != "http":
		return Link{}, form
	}
	link = Link{URL: u.Scheme + "://" + strings.ToLower(u.Host)}
	if u.Fragment == "" {
		return link, ""
	}
	joined, root, named := strings.Cut(u.Fragment, "&root=")
	invitation, ok := strings.CutPrefix(joined, "join=")
	if ok && named {
		link.Root, ok = readRoot(root)
	}
	if !ok || invitation == "" {
		return Link{}, form
	}
	link.Invitation = invitation
	return link, ""
}

func onThisComputer(host string) bool {
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && ip.IsLoopback()
}

// CredentialFile is the file in the data directory by which home knows this server.
const CredentialFile = "home.json"

type credential struct {
	URL   string `json:"url"`
	Token string `json:"token"`
	// Invitation is the hash of the one that it was had for: a link that is given again is no news.
	Invitation string `json:"invitation"`
	// Root is the SHA-256 of home's own authority, "" if it has none.
	Root string `json:"root,omitempty"`
}

// Knows says whether a data directory has the credential of the home at a url. One that cannot be read may be it.
func Knows(data, url string) bool {
	var kept credential
	text, err := os.ReadFile(filepath.Join(data, CredentialFile))
	if err == nil {
		err = json.Unmarshal(text, &kept)
	}
	return kept.URL == url || err != nil && !errors.Is(err, fs.ErrNotExist)
}

// Forget forgets home: its credential, and how far this server has come there. No entry goes.
func Forget(data string, s *tables.Store) error {
	if err := os.Remove(filepath.Join(data, CredentialFile)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return s.ForgetHome()
}

func hashOf(invitation string) string {
	hash := sha256.Sum256([]byte(invitation))
	return hex.EncodeToString(hash[:])
}

// credential gives the one that is kept, and gets one for the invitation where there is none for it.
func (h *Home) credential(ctx context.Context) (credential, error) {
	path := filepath.Join(h.Data, CredentialFile)
	var kept credential
	text, err := os.ReadFile(path)
	if err == nil {
		err = json.Unmarshal(text, &kept)
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return credential{}, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	known := kept.URL == h.Link.URL
	root := h.Link.Root
	if root == "" && known {
		root = kept.Root
	}
	if h.asking, err = h.trusting(ctx, root); err != nil {
		return credential{}, err
	}
	if known && (h.Link.Invitation == "" || kept.Invitation == hashOf(h.Link.Invitation)) {
		return kept, nil
	}
	if h.Link.Invitation == "" {
		return credential{}, &refusal{"home does not know this server: make an invitation there (wirewake invite --role mate) and give --home the whole link"}
	}
	former := ""
	if known {
		former = kept.Token
	}
	fresh, err := h.enrol(ctx, former)
	if err != nil {
		return credential{}, err
	}
	if err := keep(path, fresh); err != nil {
		return credential{}, err
	}
	h.Log.Info("home knows this server now", "home", h.Link.URL)
	return fresh, nil
}

// mostNames is how many names are tried: home may know this server from before it lost its credential, or another of the
// same name.
const mostNames = 20

// enrol comes aboard at home by the invitation, in the place of the one that home knows by the former token.
func (h *Home) enrol(ctx context.Context, former string) (credential, error) {
	var you enrol.You
	var response *http.Response
	err := errNamed
	for i := 1; i <= mostNames && errors.Is(err, errNamed); i++ {
		name := h.Name[:min(len(h.Name), contract.The.Entry.Name-len(" 20"))]
		if i > 1 {
			name = fmt.Sprintf("%s %d", name, i)
		}
		response, err = h.ask(ctx, former, http.MethodPost, "/api/enrol", map[string]string{"invitation": h.Link.Invitation, "name": name}, &you)
	}
	if err != nil {
		return credential{}, err
	}
	for _, cookie := range response.Cookies() {
		if cookie.Name == cookieName && cookie.Value != "" {
			if you.Trip != nil {
				h.Log.Warn("home invited this server as a guest: it brings together one trip only; a mate's invitation brings all", "home", h.Link.URL)
			}
			return credential{URL: h.Link.URL, Token: cookie.Value, Invitation: hashOf(h.Link.Invitation), Root: h.Link.Root}, nil
		}
	}
	return credential{}, errors.New("home gave no credential")
}

// keep writes the credential, for this user's eyes only; a file half written is never in its place.
func keep(path string, c credential) error {
	text, err := json.Marshal(c)
	if err != nil {
		return err
	}
	file, err := os.CreateTemp(filepath.Dir(path), CredentialFile+"-") // 0600
	if err != nil {
		return err
	}
	defer os.Remove(file.Name())
	_, err = file.Write(text)
	if err := errors.Join(err, file.Sync(), file.Close()); err != nil {
		return err
	}
	return os.Rename(file.Name(), path)
}
