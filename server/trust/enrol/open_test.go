package enrol_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
)

// opened is an invitation in the skipper's list.
type opened struct {
	Invitation  uuid.UUID
	Role, Maker string
	Trip        *uuid.UUID
	Made        *int64
	Ends        int64
	Uses        int
}

func openOnes(t *testing.T, reply harness.Reply) []opened {
	t.Helper()
	var list struct{ Invitations []opened }
	if reply.Read(t, &list); reply.Status != 200 {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}
	return list.Invitations
}

// comesAboard tries to come aboard by an invitation.
func comesAboard(b *harness.Boat, by ticket, name string) (phone *harness.Asker, reply harness.Reply) {
	phone = b.Stranger()
	return phone, phone.Ask("POST", "/api/enrol", map[string]string{"invitation": by.Invitation, "name": name})
}

// Who was shut out comes back by the link it has, until the invitation is ended: then by no way, its code neither.
func TestAnInvitationIsListedAndEnded(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "Ann", store.Skipper, nil)
	trip := skipper.Trip(t)
	link := invite(t, skipper, map[string]any{"role": "guest", "trip": trip, "hours": 24, "uses": 4})
	made := b.Clock.Now().UnixMilli()
	b.Clock.Move(time.Minute)
	other := invite(t, skipper, map[string]any{"role": "mate", "hours": 1, "uses": 1})
	guest, reply := comesAboard(b, link, "Gus")
	if guest.Token = reply.Token(t); reply.Status != 200 {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}

	all := openOnes(t, skipper.Ask("GET", "/api/invitations", nil))
	if len(all) != 2 || all[0].Role != "mate" || all[0].Uses != 1 || all[0].Trip != nil {
		t.Fatalf("%+v", all)
	}
	of := all[1]
	if of.Role != "guest" || *of.Trip != trip || of.Uses != 3 || of.Maker != "Ann" || *of.Made != made || of.Ends != link.Ends {
		t.Errorf("%+v", of)
	}
	var phones struct {
		Devices []struct {
			Name, Device string
			Invited      *uuid.UUID
		}
	}
	skipper.Ask("GET", "/api/devices", nil).Read(t, &phones)
	for _, phone := range phones.Devices {
		if phone.Name != "Gus" {
			continue
		}
		if phone.Invited == nil || *phone.Invited != of.Invitation {
			t.Errorf("Gus came by %v, want %v", phone.Invited, of.Invitation)
		}
		skipper.Ask("POST", "/api/devices/"+phone.Device+"/revoke", struct{}{})
	}
	if _, reply := comesAboard(b, link, "Gus"); reply.Status != 200 {
		t.Errorf("by a link with uses left: %d %s", reply.Status, reply.Body)
	}

	for range 2 { // once more is no error
		left := openOnes(t, skipper.Ask("POST", "/api/invitations/"+of.Invitation.String()+"/end", struct{}{}))
		if len(left) != 1 || left[0].Invitation != all[0].Invitation {
			t.Errorf("left: %+v", left)
		}
	}
	if _, reply := comesAboard(b, link, "Gus again"); reply.Status != 403 || reply.Code() != "invitation" {
		t.Errorf("by the link that was ended: %d %s", reply.Status, reply.Body)
	}
	if r := b.Stranger().Ask("POST", "/api/enrol", map[string]string{"code": link.Code, "name": "Gus again"}); r.Status != 403 {
		t.Errorf("by its code: %d %s", r.Status, r.Body)
	}
	if r := skipper.Ask("POST", "/api/invitations/x/end", struct{}{}); r.Status != 404 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if _, reply := comesAboard(b, other, "Ben"); reply.Status != 200 {
		t.Errorf("by the other: %d %s", reply.Status, reply.Body)
	}
	// What is used up, or over, is not open.
	invite(t, skipper, map[string]any{"role": "mate", "hours": 1, "uses": 1})
	b.Clock.Move(time.Hour)
	if left := openOnes(t, skipper.Ask("GET", "/api/invitations", nil)); len(left) != 0 {
		t.Errorf("%+v", left)
	}
}

func TestOnlySoManyInvitationsAreOpen(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "Ann", store.Skipper, nil)
	want := map[string]any{"role": "mate", "hours": 1, "uses": 1}
	for range store.MostInvitations {
		invite(t, skipper, want)
	}
	if r := skipper.Ask("POST", "/api/invitations", want); r.Status != 409 || r.Code() != "enough" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	all := openOnes(t, skipper.Ask("GET", "/api/invitations", nil))
	skipper.Ask("POST", "/api/invitations/"+all[0].Invitation.String()+"/end", struct{}{})
	invite(t, skipper, want)
}

// One that was ended since the copy is not open in it.
func TestNoInvitationOutlivesARestoredBackup(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "Ann", store.Skipper, nil)
	link := invite(t, skipper, map[string]any{"role": "mate", "hours": 1, "uses": 1})
	if err := b.Store.NewEpoch(); err != nil {
		t.Fatal(err)
	}
	if _, reply := comesAboard(b, link, "Ben"); reply.Status != 403 {
		t.Errorf("%d %s", reply.Status, reply.Body)
	}
}

// Two phones aboard have names that are told apart, however they came.
func TestNoTwoPhonesAboardLookAlike(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "Ann's phone", store.Skipper, nil)
	link := invite(t, skipper, map[string]any{"role": "mate", "hours": 24, "uses": 3})
	for _, name := range []string{"Ann's phone", "ann’s  PHONE", "Аnn's phone" /* Cyrillic */, "Ａnn's phone" /* fullwidth */} {
		if _, r := comesAboard(b, link, name); r.Status != 409 || r.Code() != "name" {
			t.Errorf("by invitation as %q: %d %s", name, r.Status, r.Body)
		}
		if r := newAsker(b, name).asks(t); r.Status != 409 || r.Code() != "name" {
			t.Errorf("asks as %q: %d %s", name, r.Status, r.Body)
		}
	}
	// Nor is one called as the app itself would call it.
	for _, name := range []string{"This phone", "Your skipper", "Ann (skipper)", "Ann, traído por Ben"} {
		if _, r := comesAboard(b, link, name); r.Status != 409 || r.Code() != "ours" {
			t.Errorf("by invitation as %q: %d %s", name, r.Status, r.Body)
		}
		if r := newAsker(b, name).asks(t); r.Status != 409 || r.Code() != "ours" {
			t.Errorf("asks as %q: %d %s", name, r.Status, r.Body)
		}
	}
	// Nothing of the link was used up by that.
	if all := openOnes(t, skipper.Ask("GET", "/api/invitations", nil)); len(all) != 1 || all[0].Uses != 3 {
		t.Errorf("%+v", all)
	}
	// The phone itself comes aboard anew under its name.
	skipper.Enrol(t, b, "Ann’s phone", store.Skipper, nil)

	// Of two who ask under one name one is told yes; the other asks under another.
	first, second := newAsker(b, "Gus"), newAsker(b, "gus", "192.0.2.9:1")
	first.asks(t)
	b.Clock.Move(time.Second)
	second.asks(t)
	asks, _ := sees(t, skipper)
	saysYes(t, skipper, asks[0])
	if r := says(skipper, asks[1], "welcome", map[string]any{"role": "mate"}); r.Status != 409 || r.Code() != "named" {
		t.Errorf("a second yes: %d %s", r.Status, r.Body)
	}
	// Nor does an invitation take the name of one that was told yes and is on its way.
	if _, r := comesAboard(b, link, "Gus"); r.Status != 409 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if r := first.comesBack(); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if r := second.asks(t); r.Status != 409 || r.Code() != "name" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	second.name = "Gus 2"
	if r := second.asks(t); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	// Whoever was shut out leaves its name to others.
	var you struct {
		Devices []struct{ Device, Name string }
	}
	skipper.Ask("GET", "/api/devices", nil).Read(t, &you)
	for _, d := range you.Devices {
		if d.Name == "Gus" {
			skipper.Ask("POST", "/api/devices/"+d.Device+"/revoke", struct{}{})
		}
	}
	if _, r := comesAboard(b, link, "Gus"); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
}

// Hundreds of networks in as many regions push out nobody who waits, and whoever is not shown is found by the word.
func TestHundredsOfNetworksPushNobodyOut(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	honest := newAsker(b, "Gus", "192.0.2.9:1")
	for i := range 400 {
		if i == 200 {
			honest.asks(t)
		}
		if r := newAsker(b, fmt.Sprint("flood ", i), fmt.Sprintf("10.%d.%d.7:1", i/200, i%200)).asks(t); r.Status != 200 {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
		b.Clock.Move(time.Second)
	}
	if r := honest.comesBack(); r.Status != 202 {
		t.Fatalf("pushed out: %d %s", r.Status, r.Body)
	}
	var list struct {
		Asks []seen
		More int
	}
	skipper.Ask("GET", "/api/asks", nil).Read(t, &list)
	if len(list.Asks) != 32 || list.More < 300 {
		t.Errorf("%d shown, %d more", len(list.Asks), list.More)
	}
	skipper.Ask("GET", "/api/asks?word="+honest.word, nil).Read(t, &list)
	if len(list.Asks) != 1 || list.Asks[0].Name != "Gus" || list.More != 0 {
		t.Fatalf("by the word: %+v", list)
	}
	saysYes(t, skipper, list.Asks[0])
	if r := honest.comesBack(); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
}
