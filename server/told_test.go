package main

import (
	"encoding/json"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"wirewake/server/harness"
)

// Who comes aboard, says yes, invites and shuts out is in the log by name, as server/SECURITY.md says; whatever a phone is
// called, its name stays one value.
func TestTheLogTellsWhoDidWhatToWhom(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	var me struct{ Device, Name string }
	ask := func(p *aboard, method, path string, content, into any) {
		t.Helper()
		r, text := p.ask(method, path, content)
		if r.StatusCode != 200 {
			t.Fatalf("%s: %s %s", path, r.Status, text)
		}
		if err := json.Unmarshal([]byte(text), into); err != nil {
			t.Fatal(err)
		}
	}
	ask(skipper, "GET", "/api/me", nil, &me)
	const name = `Ann" role=owner`
	phone, key := &aboard{t: t, url: s.url()}, harness.NewKey()
	var asked struct{ Ask, Word string }
	ask(phone, "POST", "/api/asks", map[string]string{"name": name, "key": key.Public(), "proof": key.Sign("wirewake ask\n" + name)}, &asked)
	var asks struct{ Asks []struct{ Device string } }
	ask(skipper, "GET", "/api/asks", nil, &asks)
	device := asks.Asks[0].Device
	ask(skipper, "POST", "/api/asks/"+device+"/welcome", map[string]string{"word": asked.Word, "role": "mate"}, &struct{}{})
	ask(phone, "POST", "/api/enrol", map[string]string{"ask": asked.Ask, "name": name, "key": key.Public(), "proof": key.Sign("wirewake aboard\n" + asked.Ask + "\n" + name)}, &struct{}{})
	ask(skipper, "POST", "/api/devices/"+device+"/revoke", struct{}{}, &struct{}{})
	var ticket struct{ Invitation, Code string }
	ask(skipper, "POST", "/api/invitations", map[string]any{"role": "mate", "hours": 3, "uses": 2}, &ticket)
	var open struct{ Invitations []struct{ Invitation string } }
	ask(skipper, "GET", "/api/invitations", nil, &open)
	ask(skipper, "POST", "/api/invitations/"+open.Invitations[0].Invitation+"/end", struct{}{}, &struct{}{})

	s.stop(syscall.SIGTERM) // by then all of it is written

	by, of := ` by="`+me.Name+`"`, ` phone="Ann\" role=owner" device=`+device+` role=mate`
	log := s.err.String()
	for _, want := range []string{
		`path=/api/enrol status=200 .*from=127.0.0.1 did="came aboard" phone="` + me.Name + `" device=` + me.Device + ` role=skipper`,
		`path=/api/asks/` + device + `/welcome status=200 .*` + by + ` did="said yes"` + regexp.QuoteMeta(of),
		`path=/api/enrol status=200 .* did="came aboard"` + regexp.QuoteMeta(of),
		`path=/api/devices/` + device + `/revoke status=200 .*` + by + ` did="shut out"` + regexp.QuoteMeta(of),
		`path=/api/invitations status=200 .*` + by + ` did=invited uses=2 hours=3 role=mate`,
		`path=/api/invitations/` + open.Invitations[0].Invitation + `/end status=200 .*` + by + ` did="ended an invitation"`,
	} {
		if n := len(regexp.MustCompile(`(?m)level=INFO msg=request method=POST `+want+`$`).FindAllString(log, -1)); n != 1 {
			t.Errorf("%d lines like %s in\n%s", n, want, log)
		}
	}
	for _, secret := range []string{ticket.Invitation, ticket.Code, asked.Ask, skipper.token} {
		if strings.Contains(log, secret) {
			t.Errorf("%s is in the log: %s", secret, log)
		}
	}
}
