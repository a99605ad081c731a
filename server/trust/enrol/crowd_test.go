package enrol_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"wirewake/server/harness"
	"wirewake/server/store"
)

// However many ask, they take so much room and no more, and nobody from another address is kept out.
func TestManyWhoAskKeepNobodyOut(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	honest := newAsker(b, "Gus", "192.0.2.9:1")
	honest.asks(t)
	limited := 0
	for i := range 40 {
		// One address: ten in a row, and eight of them at a time.
		switch r := newAsker(b, fmt.Sprint("flood ", i), "192.0.2.1:1").asks(t); r.Status {
		case 200:
		case 429:
			limited++
		default:
			t.Fatalf("%d %s", r.Status, r.Body)
		}
		b.Clock.Move(time.Millisecond)
	}
	asks, _ := sees(t, skipper)
	if limited != 30 || len(asks) != 9 || asks[0].Name != "Gus" {
		t.Errorf("%d limited, %d ask: %+v", limited, len(asks), asks)
	}
	// Two addresses for each of the crew that there ever is: 32 are shown, and whoever comes is among them.
	for i := range 64 {
		newAsker(b, fmt.Sprint("flood ", i), fmt.Sprintf("198.51.100.%d:1", i)).asks(t)
		b.Clock.Move(time.Millisecond)
	}
	late := newAsker(b, "Ann", "192.0.2.10:1")
	if r := late.asks(t); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	asks, _ = sees(t, skipper)
	there := false
	for _, a := range asks {
		there = there || a.Word == late.word
	}
	if len(asks) != 32 || !there {
		t.Errorf("%d ask, Ann among them %v", len(asks), there)
	}
	// Whoever had to make room asks again with the same key, and is told a word as before.
	if r := honest.asks(t); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	// Whoever was told yes makes no room.
	asks, _ = sees(t, skipper)
	for _, a := range asks {
		if a.Word == honest.word {
			saysYes(t, skipper, a)
		}
	}
	for i := range 64 {
		newAsker(b, fmt.Sprint("flood ", i), fmt.Sprintf("203.0.113.%d:1", i)).asks(t)
	}
	if r := honest.comesBack(); r.Status != 200 {
		t.Errorf("after a yes: %d %s", r.Status, r.Body)
	}
}

// A phone whose owner waits in front of it looks again and again; a flood of asks does not, and does not take its place.
func TestAPhoneThatWaitsKeepsItsPlaceAndWord(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	honest, gone := newAsker(b, "Gus", "192.0.2.9:1"), newAsker(b, "Gone", "192.0.2.8:1")
	honest.asks(t)
	gone.asks(t)
	word := honest.word
	for i := range 600 {
		if i%10 == 0 {
			if r := honest.comesBack(); r.Status != 202 {
				t.Fatalf("after %d: %d %s", i, r.Status, r.Body)
			}
		}
		newAsker(b, fmt.Sprint("flood ", i), fmt.Sprintf("10.%d.%d.1:1", i/200, i%200)).asks(t)
		b.Clock.Move(250 * time.Millisecond)
	}
	asks, _ := sees(t, skipper)
	if len(asks) != 32 || asks[0].Word != word || asks[1].Name == "Gone" {
		t.Errorf("%d ask: %+v", len(asks), asks)
	}
	// Whoever has left gives way as others do.
	b.Clock.Move(15 * time.Second)
	newAsker(b, "flood", "203.0.113.1:1").asks(t)
	if asks, _ := sees(t, skipper); asks[0].Word == word {
		t.Error("who does not wait any more is still there")
	}
}

// Whoever has many addresses, and looks from all of them again and again, asks anew for each place lost: a phone that asks
// from elsewhere is seen, and stays.
func TestStrangersWhoAllWaitKeepNobodyOut(t *testing.T) {
	for name, c := range map[string]struct{ strangers, honest string }{
		"of IPv4":                       {"198.51.100.%d:1", "198.51.101.1:1"},
		"networks of IPv6 of one site":  {"[2001:db8:1:%x::1]:1", "[2001:db8:2::1]:1"},
		"on the link, one from outside": {"[fe80::%x%%eth0]:1", "192.0.2.1:1"},
		"outside, one on the link":      {"[2001:db8:1:%x::1]:1", "[fe80::1%eth0]:1"},
	} {
		t.Run(name, func(t *testing.T) {
			b := harness.FreshBoat(t)
			skipper := b.Aboard(t, "S", store.Skipper, nil)
			var strangers []*asker
			for i := range 520 {
				strangers = append(strangers, newAsker(b, fmt.Sprint("flood ", i), fmt.Sprintf(c.strangers, i%250+2)))
			}
			honest := newAsker(b, "Gus", c.honest)
			var word string
			for round := range 2 {
				for _, one := range strangers {
					if one.comesBack().Status != 202 {
						one.asks(t)
					}
					b.Clock.Move(time.Millisecond)
				}
				if asks, _ := sees(t, skipper); len(asks) != 32 {
					t.Fatalf("%d ask", len(asks))
				}
				if round == 0 {
					if r := honest.asks(t); r.Status != 200 {
						t.Fatalf("%d %s", r.Status, r.Body)
					}
					word = honest.word
				}
				if r := honest.comesBack(); r.Status != 202 {
					t.Fatalf("in round %d: %d %s", round, r.Status, r.Body)
				}
			}
			asks, _ := sees(t, skipper)
			i := slices.IndexFunc(asks, func(a seen) bool { return a.Word == word })
			if i < 0 {
				t.Fatalf("not seen among %d", len(asks))
			}
			saysYes(t, skipper, asks[i])
			if r := honest.comesBack(); r.Status != 200 {
				t.Errorf("%d %s", r.Status, r.Body)
			}
		})
	}
}
