package fish

import "strconv"

// old says why the rule is not to be gone by on a day, and the date that says so; nothing if it may be. A date that is
// told only in part counts as its first day; that of the last day in force, as its last.
func (r *Rule) old(year int, today Date) (Old, string) {
	if _, told := r.unreadable(); told != "" {
		return Unreadable, told
	}
	if y, last, ok := dateOf(r.ValidTo, Date{12, 31}); ok && (year > y || year == y && today.ofYear() > last.ofYear()) {
		return PastItsDate, r.ValidTo
	}
	if r.comes(year, today) {
		return NotYet, r.ValidFrom
	}
	y, checked, ok := dateOf(r.CheckedOn, Date{1, 1})
	switch {
	case !ok:
		return NeverChecked, ""
	case year > y+1 || year == y+1 && today.ofYear() >= checked.ofYear():
		return LongAgo, r.CheckedOn
	}
	return "", ""
}

// comes says whether the rule is not in force yet.
func (r *Rule) comes(year int, today Date) bool {
	y, first, ok := dateOf(r.ValidFrom, Date{1, 1})
	return ok && (year < y || year == y && today.ofYear() < first.ofYear())
}

// unreadable is the first date that cannot be read, and its field.
func (r *Rule) unreadable() (field, told string) {
	fields := [...]string{"validFrom", "validTo", "checkedOn"}
	for i, told := range [...]string{r.ValidFrom, r.ValidTo, r.CheckedOn} {
		if _, _, ok := dateOf(told, Date{1, 1}); told != "" && !ok {
			return fields[i], told
		}
	}
	return "", ""
}

// dateOf reads 2024, 2024-05 or 2024-05-01. What is left out is as in rest, or the month's last day where rest is the
// year's.
func dateOf(text string, rest Date) (year int, date Date, ok bool) {
	number := func(from, to int) int {
		n, err := strconv.Atoi(text[from:to])
		if err != nil || text[from] == '+' || text[from] == '-' {
			return 0
		}
		return n
	}
	if len(text) < 4 {
		return 0, Date{}, false
	}
	year, date = number(0, 4), rest
	switch {
	case len(text) == 10 && text[7] == '-' && text[4] == '-':
		date = Date{number(5, 7), number(8, 10)}
		if date == (Date{2, 29}) && (year%4 != 0 || year%100 == 0 && year%400 != 0) {
			return 0, Date{}, false
		}
	case len(text) == 7 && text[4] == '-':
		date.Month = number(5, 7)
		if date.Month >= 1 && date.Month <= 12 {
			date.Day = min(rest.Day, daysOf[date.Month])
		}
	case len(text) != 4:
		return 0, Date{}, false
	}
	ok = year > 0 && date.Month >= 1 && date.Month <= 12 && date.Day >= 1 && date.exists()
	return year, date, ok
}
