package fish

import (
	"math"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/fuzz"
)

var seeds = []string{
	"", "a fish on the deck, a ruler, and a rule for it from April to December",
	"\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff",
	"\x04\x00\x04\x01\x04\x02\x04\x03\x04\x04\x04\x05\x04\x06\x04\x07\x04\x08\x04\x00\x04\x01\x04\x02\x04\x03\x04\x04\x04\x05\x04\x06\x04\x07\x04\x08",
}

// No measures may panic or give a number that is none.
func FuzzWeigh(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &fuzz.Dice{Raw: raw}
		a, err := ToWeigh(Measures{Length: d.In(0, 2), Girth: d.In(0, 2), Mass: d.In(0, 80)})
		if err != nil {
			return
		}
		fuzz.Finite(t, a)
		for _, i := range []Interval{a.Length, a.Girth, a.Mass} {
			if !(0 < i.Low && i.Low <= i.Mid && i.Mid <= i.High) {
				t.Fatalf("%+v", a)
			}
		}
	})
}

// dates as they are typed.
var dates = [8]string{"", "2024", "2024-01", "2024-02-29", "2023-12-31", "20x4-01", "2024-99", "soon"}

// No rules may panic, keep a fish without a rule or for a reason, or count below none.
func FuzzKeep(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
		f.Add([]byte("\x07\x04\x80\x00" + s + s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &fuzz.Dice{Raw: raw}
		date := func() Date { return Date{1 + int(d.Byte()%12), 1 + int(d.Byte()%28)} }
		name := func() string { return []string{"a", "b", "c"}[d.Byte()%3] }
		q := Catch{Species: name(), Waters: name(), Year: 2000 + int(d.Byte()), Today: date(), Length: d.In(0.01, 5), Ruler: d.In(0, 0.1), ByPerson: int(d.Byte() % 4), Aboard: int(d.Byte() % 101), AsKept: true}
		q.ByBoat = q.ByPerson + int(d.Byte()%8)
		for len(d.Raw) > 4 && len(q.Rules) < 100 {
			r := Rule{Species: name(), Waters: name(), From: date(), To: date(), Min: d.In(0, 2), MinKept: d.Byte() > 99, MaxKept: d.Byte() > 99, NoFishing: d.Byte() > 250}
			r.Max, r.CheckedOn, r.ValidTo = r.Min*d.In(1, 2), dates[d.Byte()%8], dates[d.Byte()%8]
			r.ValidFrom = dates[d.Byte()%8]
			for range d.Byte() % 4 {
				r.Bags = append(r.Bags, Bag{int(d.Byte() % 5), []Per{Person, Boat}[d.Byte()%2]})
			}
			q.Rules = append(q.Rules, r)
		}
		j, err := ToKeep(q)
		if err != nil {
			t.Fatal(err)
		}
		if (j.ByRules == Keep) != (len(j.Reasons) == 0) || j.ByRules == Keep && len(j.Rules) == 0 || j.Verdict == Keep && (len(j.Aged) > 0 || j.AskHowMany) || j.MoreByPerson < NoLimit || j.MoreByBoat < NoLimit {
			t.Fatalf("%+v\n%+v", q, j)
		}
	})
}

// What is wrong with a request is told by the field.
func TestFieldsOfProblems(t *testing.T) {
	weighed := func(q Measures) error { _, err := ToWeigh(q); return err }
	kept := func(spoil func(q *Catch)) error {
		q := caught(ocean(), ocean())
		spoil(&q)
		_, err := ToKeep(q)
		return err
	}
	for _, c := range []struct {
		field string
		err   error
	}{
		{"length", weighed(Measures{})},
		{"length", weighed(Measures{Girth: 0.5})},
		{"length", weighed(Measures{Length: 0.1})},
		{"length", weighed(Measures{Length: math.NaN(), Mass: 3})},
		{"girth", weighed(Measures{Length: 0.5, Girth: 0.01})},
		{"mass", weighed(Measures{Mass: 0.001})},
		{"mass", weighed(Measures{Mass: 100})},
		{"today.month", kept(func(q *Catch) { q.Today.Month = 13 })},
		{"today.day", kept(func(q *Catch) { q.Today = Date{2, 30} })},
		{"length", kept(func(q *Catch) { q.Length = 0 })},
		{"byBoat", kept(func(q *Catch) { q.ByPerson = 1 })},
		{"aboard", kept(func(q *Catch) { q.Aboard = -1 })},
		{"year", kept(func(q *Catch) { q.Year = 24 })},
		{"species", kept(func(q *Catch) { q.Species = "" })},
		{"rules[1].from.day", kept(func(q *Catch) { q.Rules[1].From = Date{4, 31} })},
		{"rules[1].to.day", kept(func(q *Catch) { q.Rules[1].To = Date{11, 31} })},
		{"rules[0].max", kept(func(q *Catch) { q.Rules[0].Max = 0.1 })},
		{"rules[0].bags[0].per", kept(func(q *Catch) { q.Rules[0].Bags[0].Per = "car" })},
		{"rules", kept(func(q *Catch) { q.Rules = fill(101) })},
	} {
		if p := codec.ProblemsOf(c.err); len(p) == 0 || p[0].Field != c.field || p[0].Text == "" {
			t.Errorf("%s: %v", c.field, c.err)
		}
	}
}

// fill is so many rules.
func fill(n int) (rules []Rule) {
	for range n {
		rules = append(rules, ocean())
	}
	return rules
}
