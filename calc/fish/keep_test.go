package fish

import (
	"slices"
	"strings"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/unit"
)

// ocean is a slot of 28 to below 31 in, one for each person, in summer.
func ocean() Rule {
	r := seen(slot("ocean", 28, 31, 1))
	r.From, r.To = Date{4, 15}, Date{12, 15}
	return r
}

// seen is a rule that has been looked up of late.
func seen(r Rule) Rule {
	r.CheckedOn = "2024-06"
	return r
}

// caught is a legal fish of a crew of three.
func caught(rules ...Rule) Catch {
	return Catch{Rules: rules, Species: stripedBass, Waters: "ocean", Year: 2024, Today: Date{7, 4}, Length: 29.5 * unit.Inch, Ruler: 0.006, Aboard: 3}
}

func judge(t *testing.T, q Catch) Judgement {
	t.Helper()
	j, err := ToKeep(q)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func whys(j Judgement) (list []Why) {
	for _, r := range j.Reasons {
		list = append(list, r.Why)
	}
	return list
}

// One to the hundredth of an inch around both ends of the slot. New York State DEC, bulletin of 2025: 28 to 31 in; others
// word it "28 to less than 31", so 31.0 in is released.
func TestSlot(t *testing.T) {
	for _, c := range []struct {
		inches float64
		why    Why
		close  bool
	}{
		{27, TooShort, false}, {27.99, TooShort, true}, {28, "", true}, {28.01, "", true}, {29.5, "", false},
		{30.99, "", true}, {31, TooLong, true}, {31.01, TooLong, true}, {40, TooLong, false},
	} {
		q := caught(ocean())
		q.Length = c.inches * unit.Inch
		j := judge(t, q)
		want := Keep
		if c.why != "" {
			want = Release
		}
		if j.Verdict != want || j.Close != c.close || c.why != "" && !slices.Equal(whys(j), []Why{c.why}) {
			t.Errorf("%v in: %+v", c.inches, j)
		}
		if c.inches == 27 || c.inches == 40 {
			r := j.Reasons[0]
			limit, by := 28., 1.
			if c.inches == 40 {
				limit, by = 31, 9
			}
			near(t, "limit", r.Limit, limit*unit.Inch, 1e-12)
			near(t, "by", r.By, by*unit.Inch, 1e-12)
		}
	}
}

// Ends that are said to belong to the slot, or not.
func TestEndsOfSlot(t *testing.T) {
	for _, c := range []struct {
		inches           float64
		minKept, maxKept bool
		want             Verdict
	}{
		{28, false, false, Release}, {28, true, false, Keep}, {31, true, true, Keep}, {31, true, false, Release},
		{28.01, false, false, Keep}, {30.99, false, false, Keep},
	} {
		r := ocean()
		r.MinKept, r.MaxKept = c.minKept, c.maxKept
		q := caught(r)
		q.Length = c.inches * unit.Inch
		if j := judge(t, q); j.Verdict != c.want {
			t.Errorf("%+v: %+v", c, j)
		}
	}
}

// Seasons, within a year and over the new year, first and last day included.
func TestSeason(t *testing.T) {
	for _, c := range []struct {
		from, to, today Date
		open            bool
	}{
		{Date{4, 15}, Date{12, 15}, Date{4, 15}, true}, {Date{4, 15}, Date{12, 15}, Date{12, 15}, true},
		{Date{4, 15}, Date{12, 15}, Date{4, 14}, false}, {Date{4, 15}, Date{12, 15}, Date{12, 16}, false},
		{Date{11, 1}, Date{3, 31}, Date{12, 31}, true}, {Date{11, 1}, Date{3, 31}, Date{1, 1}, true},
		{Date{11, 1}, Date{3, 31}, Date{3, 31}, true}, {Date{11, 1}, Date{3, 31}, Date{4, 1}, false},
		{Date{11, 1}, Date{3, 31}, Date{10, 31}, false}, {Date{1, 1}, Date{12, 31}, Date{2, 29}, true},
		{Date{6, 1}, Date{6, 1}, Date{6, 1}, true}, {Date{6, 1}, Date{6, 1}, Date{6, 2}, false},
	} {
		r := ocean()
		r.From, r.To = c.from, c.to
		q := caught(r)
		q.Today = c.today
		j := judge(t, q)
		if c.open != (j.Verdict == Keep) {
			t.Errorf("%v from %v to %v: %+v", c.today, c.from, c.to, j)
		}
		if !c.open && (!slices.Equal(whys(j), []Why{OutOfSeason}) || *j.Reasons[0].Opens != c.from || j.Stop != StopBoat || len(j.Rules) != 0) {
			t.Errorf("%v from %v to %v: %+v", c.today, c.from, c.to, j)
		}
	}
	// Of two seasons the next one is told.
	spring, autumn := ocean(), ocean()
	spring.From, spring.To = Date{4, 1}, Date{5, 31}
	autumn.From, autumn.To = Date{10, 1}, Date{11, 30}
	q := caught(spring, autumn)
	if j := judge(t, q); *j.Reasons[0].Opens != autumn.From || j.Reasons[0].Rule != 1 {
		t.Errorf("in July: %+v", j)
	}
	q.Today = Date{12, 24}
	if j := judge(t, q); *j.Reasons[0].Opens != spring.From {
		t.Errorf("in December: %+v", j)
	}
}

// A crew of three with one each, and a boat that may keep two in all.
func TestBags(t *testing.T) {
	boat := ocean()
	boat.Bags = append(boat.Bags, Bag{2, Boat})
	none := ocean()
	none.Bags = nil
	for _, c := range []struct {
		rule             Rule
		byPerson, byBoat int
		verdict          Verdict
		why              []Why
		person, all      int
		stop             Stop
	}{
		{ocean(), 0, 0, Keep, nil, 0, 2, StopPerson},
		{ocean(), 0, 2, Keep, nil, 0, 0, StopBoat},
		{ocean(), 1, 1, Release, []Why{PersonIsFull}, 0, 2, StopPerson},
		{ocean(), 0, 3, Release, []Why{BoatIsFull}, 0, 0, StopBoat},
		{ocean(), 1, 3, Release, []Why{PersonIsFull}, 0, 0, StopBoat},
		{boat, 0, 0, Keep, nil, 0, 1, StopPerson},
		{boat, 0, 1, Keep, nil, 0, 0, StopBoat},
		{boat, 0, 2, Release, []Why{BoatIsFull}, 0, 0, StopBoat},
		{boat, 0, 3, Release, []Why{BoatIsFull}, 0, 0, StopBoat}, // by either bag: said once
		{none, 9, 20, Keep, nil, NoLimit, NoLimit, GoOn},
	} {
		q := caught(c.rule)
		q.ByPerson, q.ByBoat = c.byPerson, c.byBoat
		j := judge(t, q)
		if j.Verdict != c.verdict || !slices.Equal(whys(j), c.why) || j.MoreByPerson != c.person || j.MoreByBoat != c.all || j.Stop != c.stop {
			t.Errorf("kept %d and %d of %v: %+v", c.byPerson, c.byBoat, c.rule.Bags, j)
		}
	}
	// A fish that is let go takes nothing from the bag.
	q := caught(ocean())
	q.Length = 1
	if j := judge(t, q); j.MoreByPerson != 1 || j.MoreByBoat != 3 || j.Stop != GoOn {
		t.Errorf("after a release: %+v", j)
	}
	closed := ocean()
	closed.Bags = []Bag{{0, Person}}
	if j := judge(t, caught(closed)); !slices.Equal(whys(j), []Why{NoneKept}) || j.Stop != StopBoat {
		t.Errorf("none may be kept: %+v", j)
	}
}

// Without a rule for species and waters nothing is judged fit to keep.
func TestUnknown(t *testing.T) {
	for what, change := range map[string]func(q *Catch){
		"no rules":      func(q *Catch) { q.Rules = nil },
		"other species": func(q *Catch) { q.Species = "bluefish" },
		"other waters":  func(q *Catch) { q.Waters = "river" },
		"other case":    func(q *Catch) { q.Waters = "Ocean" },
	} {
		q := caught(ocean())
		change(&q)
		j := judge(t, q)
		if j.Verdict != Unknown || !slices.Equal(whys(j), []Why{NoRule}) || j.Reasons[0].Rule != -1 || j.MoreByPerson != 0 || j.MoreByBoat != 0 {
			t.Errorf("%s: %+v", what, j)
		}
	}
}

// Where several rules fit, the fish must pass all; the bags are the tightest of all.
func TestSeveralRules(t *testing.T) {
	wider := seen(slot("ocean", 20, 40, 5))
	j := judge(t, caught(wider, ocean()))
	if j.Verdict != Keep || j.MoreByPerson != 0 || !slices.Equal(j.Rules, []int{0, 1}) {
		t.Errorf("%+v", j)
	}
	q := caught(wider, ocean())
	q.Length = 35 * unit.Inch
	if j := judge(t, q); !slices.Equal(whys(j), []Why{TooLong}) || j.Reasons[0].Rule != 1 {
		t.Errorf("%+v", j)
	}
	zone := ocean()
	zone.NoFishing = true
	if j := judge(t, caught(wider, zone)); !slices.Equal(whys(j), []Why{NotFished}) || j.Stop != StopBoat {
		t.Errorf("%+v", j)
	}
}

// Whatever is asked, a keeper passes each rule that holds, and what is more than a bag is never kept.
func TestKeepersPassEveryRule(t *testing.T) {
	wider, zone := seen(slot("ocean", 20, 40, 5)), ocean()
	zone.NoFishing, zone.From, zone.To = true, Date{11, 1}, Date{2, 1}
	rules := []Rule{ocean(), wider, zone}
	for month := 1; month <= 12; month++ {
		for inches := 18.; inches < 45; inches += 0.5 {
			for kept := range 4 {
				q := caught(rules...)
				q.Today, q.Length, q.ByPerson, q.ByBoat = Date{month, 20}, inches*unit.Inch, kept/2, kept
				j := judge(t, q)
				fine := month >= 5 && month <= 10 && inches >= 28 && inches < 31 && kept < 2 ||
					month == 4 && inches >= 28 && inches < 31 && kept < 2 ||
					(month == 2 || month == 3) && inches >= 20 && inches < 40
				if fine != (j.Verdict == Keep) || fine != (len(j.Reasons) == 0) || len(j.Rules) == 0 {
					t.Fatalf("month %d, %v in, kept %d: %+v", month, inches, kept, j)
				}
			}
		}
	}
}

// A rule past its last day, not checked for a year or never is not gone by, whatever it says; what it says is told.
func TestOldRules(t *testing.T) {
	for _, c := range []struct {
		validTo, checked string
		year             int
		today            Date
		why              Old
		date             string
	}{
		{"", "2024-01", 2024, Date{12, 31}, "", ""},
		{"", "2024-01", 2025, Date{1, 1}, LongAgo, "2024-01"},
		{"", "2024", 2024, Date{12, 31}, "", ""},
		{"", "2024", 2025, Date{1, 1}, LongAgo, "2024"},
		{"", "2024-05-02", 2025, Date{5, 1}, "", ""},
		{"", "2024-05-02", 2025, Date{5, 2}, LongAgo, "2024-05-02"},
		{"", "2018-10-04", 2024, Date{7, 1}, LongAgo, "2018-10-04"},
		{"", "", 2024, Date{7, 1}, NeverChecked, ""},
		{"", "last May", 2024, Date{7, 1}, Unreadable, "last May"},
		{"", "2024-13", 2024, Date{7, 1}, Unreadable, "2024-13"},
		{"", "2024-02-30", 2024, Date{7, 1}, Unreadable, "2024-02-30"},
		{"", "+024", 2024, Date{7, 1}, Unreadable, "+024"},
		{"2023-02", "2024", 2024, Date{7, 1}, PastItsDate, "2023-02"},
		{"31.12.2023", "2024", 2024, Date{7, 1}, Unreadable, "31.12.2023"},
		{"2024", "2024-06", 2024, Date{12, 31}, "", ""},
		{"2023", "2024-06", 2024, Date{7, 1}, PastItsDate, "2023"},
		{"2024-06", "2024-06", 2024, Date{6, 30}, "", ""},
		{"2024-06", "2024-06", 2024, Date{7, 1}, PastItsDate, "2024-06"},
		{"2024-07-04", "2024-06", 2024, Date{7, 4}, "", ""},
		{"2024-07-04", "2024-06", 2024, Date{7, 5}, PastItsDate, "2024-07-04"},
		{"soon", "2024-06", 2024, Date{7, 5}, Unreadable, "soon"},
		{"", "2031", 2024, Date{7, 5}, "", ""}, // a clock that is behind
	} {
		r := ocean()
		r.From, r.To = Date{1, 1}, Date{12, 31}
		r.ValidTo, r.CheckedOn = c.validTo, c.checked
		q := caught(r)
		q.Year, q.Today, q.AsKept = c.year, c.today, true
		j := judge(t, q)
		want := Keep
		if c.why != "" {
			want = LookUp
		}
		if j.Verdict != want || j.ByRules != Keep || (len(j.Aged) == 1) != (c.why != "") || len(j.Aged) == 1 && j.Aged[0] != (Aged{0, c.why, c.date}) {
			t.Errorf("%+v: %+v", c, j)
		}
		q.Length = 1
		if j := judge(t, q); j.ByRules != Release || (j.Verdict == Release) != (c.why == "") {
			t.Errorf("%+v, too long: %+v", c, j)
		}
	}
	// One that is out of season is old too; one of other waters is of no matter.
	spring := ocean()
	spring.From, spring.To, spring.CheckedOn = Date{4, 1}, Date{5, 31}, "2021"
	bay := spring
	bay.Waters = "bay"
	if j := judge(t, caught(ocean(), spring)); j.Verdict != LookUp || len(j.Aged) != 1 || j.Aged[0].Rule != 1 {
		t.Errorf("%+v", j)
	}
	if j := judge(t, caught(ocean(), bay)); j.Verdict != Keep {
		t.Errorf("%+v", j)
	}
}

// A date is year, month and day, or less, and in the calendar (ISO 8601, and Gregorian's leap years): what is not is told
// by its field; and what somebody kept so is looked up, whatever it allows.
func TestDatesThatCannotBeRead(t *testing.T) {
	for _, date := range []string{"31.12.2023", "2023-02-30", "2023-2-28", "2023-02-29", "2100-02-29", "soon", "12", "2023-00", "20230228", "2023-02-2x"} {
		for field := range 3 {
			r := ocean()
			*[]*string{&r.ValidFrom, &r.ValidTo, &r.CheckedOn}[field] = date
			_, err := ToKeep(caught(ocean(), r))
			p := codec.ProblemsOf(err)
			if len(p) != 1 || p[0].Field != "rules[1]."+[]string{"validFrom", "validTo", "checkedOn"}[field] || p[0].ID != "noSuchDate" || !strings.Contains(p[0].Text, "2024-05-01") {
				t.Errorf("%s: %v", date, err)
			}
			q := caught(r)
			q.AsKept = true
			if j := judge(t, q); j.Verdict != LookUp || j.ByRules != Keep || !slices.Equal(j.Aged, []Aged{{0, Unreadable, date}}) {
				t.Errorf("%s in field %d: %+v", date, field, j)
			}
		}
	}
	for _, date := range []string{"", "2024", "2024-02", "2024-02-29", "2000-02-29"} {
		r := ocean()
		r.ValidFrom, r.CheckedOn = date, "2024-02-29"
		if j := judge(t, caught(r)); j.Verdict != Keep {
			t.Errorf("%q: %+v", date, j)
		}
	}
}

// A rule allows nothing before its first day; where another one is in force, that one is gone by alone.
func TestRulesToCome(t *testing.T) {
	for _, c := range []struct {
		from  string
		today Date
		want  Verdict
	}{
		{"2024-07-05", Date{7, 4}, LookUp}, {"2024-07-05", Date{7, 5}, Keep}, {"2024-08", Date{7, 31}, LookUp},
		{"2024-08", Date{8, 1}, Keep}, {"2025", Date{12, 1}, LookUp}, {"2024", Date{4, 15}, Keep},
	} {
		r := ocean()
		r.ValidFrom = c.from
		q := caught(r)
		q.Today = c.today
		if j := judge(t, q); j.Verdict != c.want || j.ByRules != Keep || c.want == LookUp && !slices.Equal(j.Aged, []Aged{{0, NotYet, c.from}}) {
			t.Errorf("from %s, on %v: %+v", c.from, c.today, j)
		}
	}
	next := ocean()
	next.ValidFrom, next.NoFishing = "2025-01-01", true
	q := caught(next, ocean())
	if j := judge(t, q); j.Verdict != Keep || len(j.Aged) != 0 || !slices.Equal(j.Rules, []int{1}) {
		t.Errorf("beside the one in force: %+v", j)
	}
	q.Year, q.Today = 2025, Date{5, 1}
	if j := judge(t, q); j.Verdict != Release || !slices.Equal(j.Rules, []int{0, 1}) {
		t.Errorf("once it is in force: %+v", j)
	}
}

// No bag is full because nobody has said how many people fish: from where it depends on that, it is asked.
func TestHowManyFish(t *testing.T) {
	both := ocean()
	both.Bags = append(both.Bags, Bag{2, Boat})
	for _, c := range []struct {
		rule    Rule
		byBoat  int
		verdict Verdict
		ask     bool
		stop    Stop
	}{
		{ocean(), 0, Keep, false, GoOn}, {ocean(), 1, HowMany, true, GoOn}, {ocean(), 5, HowMany, true, GoOn},
		{both, 0, Keep, false, GoOn}, {both, 1, HowMany, true, StopBoat}, {both, 2, Release, false, StopBoat},
	} {
		q := caught(c.rule)
		q.Aboard, q.ByBoat = 0, c.byBoat
		if j := judge(t, q); j.Verdict != c.verdict || j.AskHowMany != c.ask || j.Stop != c.stop {
			t.Errorf("%d kept of %v: %+v", c.byBoat, c.rule.Bags, j)
		}
	}
	// Somebody's full bag is full, however many fish.
	q := caught(ocean())
	q.Aboard, q.ByPerson, q.ByBoat = 0, 1, 1
	if j := judge(t, q); j.Verdict != Release || !slices.Equal(whys(j), []Why{PersonIsFull}) || j.AskHowMany || j.Stop != StopPerson || j.MoreByPerson != 0 || j.MoreByBoat != NoLimit {
		t.Errorf("one has a full bag: %+v", j)
	}
	q = caught(ocean())
	q.Aboard, q.ByBoat, q.Length = 0, 1, 1
	if j := judge(t, q); j.Verdict != Release || j.AskHowMany {
		t.Errorf("too long, and asked all the same: %+v", j)
	}
	closed := ocean()
	closed.Bags = []Bag{{0, Person}}
	q = caught(closed)
	q.Aboard = 0
	if j := judge(t, q); !slices.Equal(whys(j), []Why{NoneKept}) {
		t.Errorf("%+v", j)
	}
}

// Whether a fish of just the limit goes back is told with the reason; that states set their own, with the judgement.
func TestWhatIsToldWithIt(t *testing.T) {
	for _, kept := range []bool{true, false} {
		r := ocean()
		r.MinKept, r.MaxKept, r.StatesOwn = kept, kept, kept
		for _, inches := range []float64{20, 40} {
			q := caught(r)
			q.Length = inches * unit.Inch
			if j := judge(t, q); j.Reasons[0].Included != kept || j.StatesOwn != kept {
				t.Errorf("%v in, %v: %+v", inches, kept, j)
			}
		}
	}
}
