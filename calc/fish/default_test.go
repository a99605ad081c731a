package fish

import (
	"regexp"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/unit"
)

var isoDate = regexp.MustCompile(`^(\d{4}(-\d{2}(-\d{2})?)?)?$`)

// Every default can be asked with, says where it is from and of when, and is bound in season, size and bag.
func TestDefaultsAreFit(t *testing.T) {
	for _, s := range Default().Sets {
		if s.Name == "" || s.AsOf == "" || !isoDate.MatchString(s.AsOf) {
			t.Errorf("set %q as of %q", s.Name, s.AsOf)
		}
		for i, r := range s.Rules {
			q := Catch{Rules: s.Rules, Species: r.Species, Waters: r.Waters, Year: 2024, Today: Date{7, 1}, Length: 0.75, Ruler: 0.006, Aboard: 1}
			if err := codec.Check(&q); err != nil {
				t.Errorf("%s, rule %d: %v", s.Name, i, err)
			}
			if r.Source == "" || !isoDate.MatchString(r.ValidFrom) || !isoDate.MatchString(r.CheckedOn) || len(r.Bags) == 0 {
				t.Errorf("%s, rule %d: %+v", s.Name, i, r)
			}
			if r.MaxKept {
				t.Errorf("%s, rule %d: the upper end is kept, of which the sources differ", s.Name, i)
			}
		}
	}
}

// What the sources say, in their own inches. ASMFC Addendum II (2024) as reported; New York State DEC, bulletin of 2025;
// NOAA Fisheries 2018 of federal waters; the Hudson from a private site.
func TestDefaultsAgainstSources(t *testing.T) {
	for _, c := range []struct {
		set    int
		waters string
		today  Date
		inches float64
		want   Verdict
	}{
		{0, stateOcean, Date{7, 1}, 28, Keep}, {0, stateOcean, Date{7, 1}, 30.9, Keep}, {0, stateOcean, Date{7, 1}, 27.9, Release}, {0, stateOcean, Date{7, 1}, 31, Release},
		{0, chesapeake, Date{7, 1}, 19, Keep}, {0, chesapeake, Date{7, 1}, 24.1, Release}, {0, chesapeake, Date{7, 1}, 18.9, Release},
		{0, federal, Date{7, 1}, 29, Release}, {1, federal, Date{1, 1}, 29, Release},
		{1, newYork, Date{4, 15}, 29, Keep}, {1, newYork, Date{4, 14}, 29, Release}, {1, newYork, Date{12, 15}, 29, Keep}, {1, newYork, Date{12, 16}, 29, Release},
		{1, hudson, Date{4, 1}, 23, Keep}, {1, hudson, Date{11, 30}, 27.9, Keep}, {1, hudson, Date{12, 1}, 25, Release}, {1, hudson, Date{5, 1}, 28, Release},
		{1, "a pond", Date{7, 1}, 29, Unknown},
	} {
		j := judge(t, Catch{
			Rules: Default().Sets[c.set].Rules, Species: stripedBass, Waters: c.waters, Year: 2024, Today: c.today,
			Length: c.inches * unit.Inch, Aboard: 1,
		})
		if j.ByRules != c.want {
			t.Errorf("%+v: %+v", c, j)
		}
		if c.waters == federal && j.Reasons[0].Why != NotFished {
			t.Errorf("%+v: %+v", c, j)
		}
	}
}
