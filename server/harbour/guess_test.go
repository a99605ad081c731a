package main

import (
	"fmt"
	"net/http"
	"testing"

	"wirewake/server/harness"
	"wirewake/server/harness/cluster"
)

// from is a phone at an address.
func from(address string, s http.Handler, boat string) *harness.Asker {
	return phone(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.RemoteAddr = address
		s.ServeHTTP(w, r)
	}), boat)
}

// Ten wrong codes are free from an address, and of a code, and ten requests to come aboard, by how many servers they may be answered,
// and whether one has just begun; the tries at one boat are not another's.
func TestTriesAreCountedByAllServers(t *testing.T) {
	url, place := cluster.Fresh(t), t.TempDir()
	servers := []*server{begin(t, url, place), begin(t, url, place)}
	skipper := phone(servers[0], "tern")
	skipper.Come(t, servers[0].add(t, "tern"), "S")
	servers[0].add(t, "gull")
	guess := func(n int, code, boat string) int {
		address := "192.0.2.1:1"
		if code != "" {
			address = fmt.Sprintf("203.0.113.%d:1", n)
		} else {
			code = fmt.Sprintf("0000-%04d", n)
		}
		return from(address, servers[n%2], boat).Ask("POST", "/api/enrol", map[string]string{"code": code, "name": "A"}).Status
	}
	// What is right costs nothing.
	for n := range 12 {
		var ticket struct{ Code string }
		skipper.Ask("POST", "/api/invitations", map[string]any{"role": "mate", "hours": 1, "uses": 1}).Read(t, &ticket)
		r := from("192.0.2.1:1", servers[n%2], "tern").Ask("POST", "/api/enrol", map[string]string{"code": ticket.Code, "name": fmt.Sprint("Moe ", n)})
		if r.Status != http.StatusOK {
			t.Fatalf("%d: %d %s", n, r.Status, r.Body)
		}
	}
	for _, code := range []string{"", "ZZZZ-ZZZZ"} {
		n := 0
		for ; guess(n, code, "tern") == http.StatusForbidden; n++ {
		}
		if n != 10 {
			t.Errorf("%d wrong tries by two servers, want 10", n)
		}
		servers[1] = begin(t, url, place)
		if status := guess(21, code, "tern"); status != http.StatusTooManyRequests {
			t.Errorf("a server that has begun since: %d", status)
		}
		if status := guess(22, code, "gull"); status != http.StatusForbidden {
			t.Errorf("at another boat: %d", status)
		}
	}
	asked := 0
	for ; asked < 30; asked++ {
		key := harness.NewKey()
		name := fmt.Sprint("Ann ", asked)
		r := from("198.51.100.1:1", servers[asked%2], "tern").Ask("POST", "/api/asks",
			map[string]string{"name": name, "key": key.Public(), "proof": key.Sign("wirewake ask\n" + name)})
		if r.Status != http.StatusOK {
			if r.Status != http.StatusTooManyRequests {
				t.Errorf("%d %s", r.Status, r.Body)
			}
			break
		}
	}
	if asked != 10 {
		t.Errorf("%d requests by two servers, want 10", asked)
	}
}
