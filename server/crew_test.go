package main

import (
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/sync/exchange"
	"wirewake/server/trust/enrol"
)

// fromAddress makes a phone's connections come from an address of its own on this computer, as on a boat's network.
func fromAddress(client *http.Client, number int) {
	dialer := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.IPv4(127, 0, 1, byte(1+number))}}
	client.Transport.(*http.Transport).DialContext = func(ctx context.Context, network, address string) (net.Conn, error) {
		return dialer.DialContext(ctx, network, address)
	}
}

// Fifty phones take the boat's certificate from the way in, come aboard at the same moment over TLS, and write and
// exchange over connections that break: in the end all hold the same.
func TestFiftyPhonesComeAboardAndExchange(t *testing.T) {
	const crew = 50
	rounds := 4
	if more, err := strconv.Atoi(os.Getenv("WIREWAKE_ROUNDS")); err == nil {
		rounds = more
	}
	data := t.TempDir()
	s := start(t, "--data", data)
	var invitations []string
	for left := crew; left > 0; left -= enrol.MaxUses {
		out, err, code := tell(t, "", "invite", "--role", "mate", "--uses", strconv.Itoa(min(left, enrol.MaxUses)), "--data", data)
		if code != done {
			t.Fatalf("exit %d, %q", code, err)
		}
		invitations = append(invitations, linkForm.FindStringSubmatch(out)[2])
	}
	trip := uuid.New()
	phones, logs := make([]*aboard, crew), make([]*harness.Phone, crew)
	var all sync.WaitGroup
	for i := range crew {
		client := trusting(t, s)
		fromAddress(client, i)
		phones[i] = &aboard{t: t, url: "https://127.0.0.1:" + s.port, client: client}
		logs[i] = harness.NewPhone()
		all.Go(func() {
			r, text, err := phones[i].try("POST", "/api/enrol", map[string]string{"invitation": invitations[i/enrol.MaxUses], "name": fmt.Sprint("phone ", i)})
			if err != nil || r.StatusCode != 200 {
				t.Errorf("phone %d: %v %s", i, err, text)
				return
			}
			phones[i].token = r.Cookies()[0].Value
			for range rounds {
				logs[i].Write("note", trip, uuid.Nil, map[string]any{"text": strings.Repeat("x", rand.IntN(200))}, false, 0)
				if rand.IntN(3) == 0 {
					client.CloseIdleConnections() // out of reach for a moment: another handshake
				}
				if err := phones[i].oneRequest(logs[i]); err != nil {
					t.Errorf("phone %d: %v", i, err)
					return
				}
			}
		})
	}
	all.Wait()
	if t.Failed() {
		return
	}
	want := crew * rounds
	for i := range crew {
		if phones[i].run(logs[i]); len(logs[i].Entries) != want {
			t.Errorf("phone %d holds %d entries, want %d", i, len(logs[i].Entries), want)
		}
	}
	if out, _, code := tell(t, "", "check", "--data", data); code != done || !strings.Contains(out, fmt.Sprintf("%d entries", want)) || !strings.Contains(out, "50 phones") {
		t.Errorf("exit %d, %s", code, out)
	}
}

// oneRequest is one request of a phone's run.
func (p *aboard) oneRequest(log *harness.Phone) error {
	request := log.Request()
	r, text, err := p.try("POST", "/api/exchange", request)
	if err != nil {
		return err
	}
	if r.StatusCode != 200 {
		return fmt.Errorf("%s %s", r.Status, text)
	}
	var answer exchange.Answer
	if err := json.Unmarshal([]byte(text), &answer); err != nil {
		return err
	}
	_, err = log.Store(request, answer)
	return err
}
