package enrol_test

import (
	"bytes"
	"encoding/json"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
)

func TestTheListOfDevices(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "Sal's phone", store.Skipper, nil)
	enrolled := b.Clock.Now()
	trip := skipper.Trip(t)
	guest := b.Aboard(t, "Gus's phone", store.Guest, &trip)
	b.Clock.Move(time.Hour)
	phone := harness.NewPhone()
	phone.Write("note", trip, uuid.Nil, map[string]any{"text": "lost on the phone"}, false, 0)
	phone.Write("note", trip, uuid.Nil, map[string]any{"text": "a"}, false, 0)
	phone.Write("note", trip, uuid.Nil, map[string]any{"text": "lost on the phone"}, false, 0)
	phone.Write("note", trip, uuid.Nil, map[string]any{"text": "b"}, false, 0)
	request := phone.Request()
	request.Entries = append(request.Entries[1:2], request.Entries[3])
	if r := guest.Ask("POST", "/api/exchange", request); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	list := func() []map[string]any {
		var got struct{ Devices []map[string]any }
		skipper.Ask("GET", "/api/devices", nil).Read(t, &got)
		return got.Devices
	}
	all := list()
	if len(all) != 2 || all[0]["name"] != "Gus's phone" || all[1]["name"] != "Sal's phone" {
		t.Fatalf("%v", all)
	}
	for name, want := range map[string]any{
		"device": guest.Device.String(), "role": "guest", "trip": trip.String(), "enrolled": float64(enrolled.UnixMilli()),
		"lastSeen": float64(b.Clock.Now().UnixMilli()), "revoked": nil, "missing": 0.0, // it counts as it likes
	} {
		if all[0][name] != want {
			t.Errorf("%s = %v, want %v", name, all[0][name], want)
		}
	}

	revoked := b.Clock.Now().UnixMilli()
	for range 2 { // again is no error, and changes nothing
		var got map[string]any
		skipper.Ask("POST", "/api/devices/"+guest.Device.String()+"/revoke", struct{}{}).Read(t, &got)
		if got["revoked"] != float64(revoked) {
			t.Errorf("%v", got)
		}
		b.Clock.Move(time.Hour)
	}
	for _, path := range []string{uuid.NewString(), "x"} {
		if r := skipper.Ask("POST", "/api/devices/"+path+"/revoke", struct{}{}); r.Status != 404 {
			t.Errorf("%s: %d", path, r.Status)
		}
	}
}

// One that was not seen for as long as browsers keep a cookie is shut out, whatever cookie it shows.
func TestAPhoneThatWasNotSeenForLong(t *testing.T) {
	b := harness.FreshBoat(t)
	mate := b.Aboard(t, "Moe's phone", store.Mate, nil)
	exchanges := func() int { return mate.Ask("POST", "/api/exchange", map[string]any{"version": 1}).Status }
	for _, c := range []struct {
		days, want int
	}{{399, 200}, {399, 200}, {400, 401}, {0, 401}} {
		b.Clock.Move(time.Duration(c.days) * 24 * time.Hour)
		if got := exchanges(); got != c.want {
			t.Errorf("%d days later: %d, want %d", c.days, got, c.want)
		}
	}
	if reply := mate.Ask("GET", "/api/me", nil); reply.Status != 401 || reply.Code() != "aboard" {
		t.Errorf("%d %s", reply.Status, reply.Body)
	}
}

func TestThePhonesTellWhatTheyLack(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	mate := b.Aboard(t, "M", store.Mate, nil)
	told := func() any {
		var got struct{ Devices []map[string]any }
		skipper.Ask("GET", "/api/devices", nil).Read(t, &got)
		for _, d := range got.Devices {
			if d["name"] == "M" {
				return d["ready"]
			}
		}
		return "no such phone"
	}
	if got := told(); got != nil {
		t.Errorf("before it told: %v", got)
	}
	for _, lacks := range [][]string{{"home", "position"}, {}} {
		b.Clock.Move(time.Hour)
		if r := mate.Ask("POST", "/api/ready", map[string]any{"lacks": lacks}); r.Status != 200 {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
		got, _ := json.Marshal(told())
		want, _ := json.Marshal(map[string]any{"lacks": lacks, "told": b.Clock.Now().UnixMilli()})
		if !bytes.Equal(got, want) {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

func TestAPhoneThatComesAboardAgainIsOne(t *testing.T) {
	b := harness.FreshBoat(t)
	phone := b.Aboard(t, "A", store.Mate, nil)
	former := *phone
	phone.Enrol(t, b, "A", store.Skipper, nil)
	if r := former.Ask("GET", "/api/me", nil); r.Status != 401 {
		t.Errorf("the former credential: %d", r.Status)
	}
	if r := phone.Ask("GET", "/api/me", nil); r.Status != 200 {
		t.Errorf("the new one: %d", r.Status)
	}
}
