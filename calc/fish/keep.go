package fish

import (
	"strconv"

	"wirewake/calc/codec"
)

// hair is less than any ruler shows, m: what a limit in inches loses on its way through SI.
const hair = 1e-6

// daysOf the months, the leap day included.
var daysOf = [13]int{0, 31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// ToKeep judges a fish. Errors are codec.Problems.
func ToKeep(q Catch) (Judgement, error) {
	if err := q.check(); err != nil {
		return Judgement{}, err
	}
	var fit []int // rules for the species in these waters, in any season
	for i := range q.Rules {
		if r := &q.Rules[i]; r.Species == q.Species && r.Waters == q.Waters {
			fit = append(fit, i)
		}
	}
	if len(fit) == 0 {
		return Judgement{Verdict: Unknown, ByRules: Unknown, Reasons: []Reason{{Why: NoRule, Rule: -1}}}, nil
	}
	var now []int
	for _, i := range fit {
		if !q.Rules[i].comes(q.Year, q.Today) {
			now = append(now, i)
		}
	}
	if len(now) > 0 {
		fit = now
	}
	j := Judgement{ByRules: Keep, MoreByPerson: NoLimit, MoreByBoat: NoLimit}
	for _, i := range fit {
		j.StatesOwn = j.StatesOwn || q.Rules[i].StatesOwn
		if why, date := q.Rules[i].old(q.Year, q.Today); why != "" {
			j.Aged = append(j.Aged, Aged{i, why, date})
		}
	}
	for _, i := range fit {
		if q.Rules[i].holds(q.Today) {
			j.Rules = append(j.Rules, i)
			j.apply(&q, i)
		}
	}
	if len(j.Rules) == 0 {
		next := fit[0]
		for _, i := range fit {
			if q.Today.until(q.Rules[i].From) < q.Today.until(q.Rules[next].From) {
				next = i
			}
		}
		opens := q.Rules[next].From
		j.Reasons = []Reason{{Why: OutOfSeason, Rule: next, Opens: &opens}}
		j.MoreByPerson, j.MoreByBoat = 0, 0
	}
	if len(j.Reasons) > 0 {
		j.ByRules, j.AskHowMany = Release, false
	} else {
		j.MoreByPerson, j.MoreByBoat = less(j.MoreByPerson), less(j.MoreByBoat)
	}
	j.MoreByPerson = tighter(j.MoreByPerson, j.MoreByBoat)
	switch {
	case j.MoreByBoat == 0:
		j.Stop = StopBoat
	case j.MoreByPerson == 0 && (q.Aboard > 0 || len(j.Reasons) > 0):
		j.Stop = StopPerson
	}
	j.Verdict = j.ByRules
	switch {
	case len(j.Aged) > 0:
		j.Verdict = LookUp
	case j.AskHowMany:
		j.Verdict = HowMany
	}
	return j, nil
}

// check checks the request.
func (q *Catch) check() error {
	if err := codec.Check(q); err != nil {
		return err
	}
	if !q.Today.exists() {
		return codec.Fault("today.day", "noSuchDay", "is not in that month")
	}
	if q.ByBoat < q.ByPerson {
		return codec.Fault("byBoat", "boatBelowPerson", "must not be less than what this person has kept")
	}
	for i := range q.Rules {
		r := &q.Rules[i]
		field, id, text := "", "", ""
		switch {
		case !r.From.exists():
			field, id, text = "from.day", "noSuchDay", "is not in that month"
		case !r.To.exists():
			field, id, text = "to.day", "noSuchDay", "is not in that month"
		case r.Max > 0 && r.Max < r.Min:
			field, id, text = "max", "lengthsMixed", "must not be less than the least length"
		case q.AsKept:
			continue
		default:
			if field, _ = r.unreadable(); field == "" {
				continue
			}
			return codec.Fault("rules["+strconv.Itoa(i)+"]."+field, "noSuchDate", "must be a date: year-month-day such as 2024-05-01, 2024-05 or 2024")
		}
		return codec.Fault("rules["+strconv.Itoa(i)+"]."+field, id, text)
	}
	return nil
}

// apply holds a rule against the fish.
func (j *Judgement) apply(q *Catch, rule int) {
	r := &q.Rules[rule]
	because := func(why Why, limit, by float64, included bool) {
		one := Reason{Why: why, Rule: rule, Limit: limit, By: by, Included: included}
		// Of two bags of a rule that are full for the same reason it is said once.
		for _, said := range j.Reasons {
			if said == one {
				return
			}
		}
		j.Reasons = append(j.Reasons, one)
	}
	if r.NoFishing {
		because(NotFished, 0, 0, false)
		j.MoreByPerson, j.MoreByBoat = 0, 0
		return
	}
	if r.Min > 0 {
		over := q.Length - r.Min
		if over < -hair || over < hair && !r.MinKept {
			because(TooShort, r.Min, max(0, -over), r.MinKept)
		}
		j.Close = j.Close || max(over, -over) <= q.Ruler
	}
	if r.Max > 0 {
		over := q.Length - r.Max
		if over > hair || over > -hair && !r.MaxKept {
			because(TooLong, r.Max, max(0, over), r.MaxKept)
		}
		j.Close = j.Close || max(over, -over) <= q.Ruler
	}
	for _, b := range r.Bags {
		person, boat := NoLimit, max(0, b.Count-q.ByBoat)
		if b.Per == Person {
			person, boat = max(0, b.Count-q.ByPerson), max(0, b.Count*q.Aboard-q.ByBoat)
			if q.Aboard == 0 && b.Count > 0 {
				boat = NoLimit
				// One at least fishes: what one may keep is certain, more is to be asked. A full bag is full.
				if person > 0 {
					j.AskHowMany = j.AskHowMany || q.ByBoat >= b.Count
					j.MoreByPerson = tighter(j.MoreByPerson, max(1, b.Count-q.ByBoat))
					continue
				}
			}
		}
		switch {
		case b.Count == 0:
			because(NoneKept, 0, 0, false)
		case person == 0:
			because(PersonIsFull, 0, 0, false)
		case boat == 0:
			because(BoatIsFull, 0, 0, false)
		}
		j.MoreByPerson, j.MoreByBoat = tighter(j.MoreByPerson, person), tighter(j.MoreByBoat, boat)
	}
}

// tighter is the lower of two numbers of fish.
func tighter(a, b int) int {
	switch {
	case a == NoLimit:
		return b
	case b == NoLimit:
		return a
	}
	return min(a, b)
}

// less is a number of fish after one more.
func less(n int) int {
	if n == NoLimit {
		return n
	}
	return n - 1
}

// exists says whether some year has the day.
func (d Date) exists() bool { return d.Day <= daysOf[d.Month] }

// ofYear numbers the days of a leap year.
func (d Date) ofYear() (n int) {
	for m := 1; m < d.Month; m++ {
		n += daysOf[m]
	}
	return n + d.Day
}

// until is the number of days to another date, over the new year if need be.
func (d Date) until(other Date) int { return (other.ofYear() - d.ofYear() + 366) % 366 }

// holds says whether the season is on.
func (r *Rule) holds(today Date) bool { return r.From.until(today) <= r.From.until(r.To) }
