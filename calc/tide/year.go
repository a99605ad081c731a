package tide

import "math"

// newYear is when a UTC year of the Gregorian calendar begins, seconds since 1970.
func newYear(year int) float64 {
	y := year - 1
	return float64(365*(year-1970)+y/4-y/100+y/400-477) * 86400
}

// yearOf is the UTC year of a time.
func yearOf(time float64) int {
	year := 1970 + int(math.Floor(time/(365.2425*86400)))
	for time < newYear(year) {
		year--
	}
	for time >= newYear(year+1) {
		year++
	}
	return year
}
