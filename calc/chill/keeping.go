package chill

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
)

// Rate of spoiling beside 0 °C: (1 + 0.1·T)^power. FAO Fisheries Technical Paper 348, ch. 6, has a power of 2 (after
// Nixon 1971), found for 0 to 25 °C. Its table 6.1 (from memory) has four sorts of fish at 0, 5 and 10 °C, of which the
// powers are 1.0 to 2.2; the spread takes in all but one.
const (
	power       = 2
	powerSpread = 0.74 // to either end of the 90 %
	coldest     = 0.
	warmest     = 25.
)

// rate of spoiling at a temperature.
func rate(temperature, power float64) float64 { return math.Pow(1+0.1*temperature, power) }

// about is the interval of what f makes of the power. Colder than 0 °C a higher power spoils less.
func about(f func(power float64) float64) Interval {
	a, mid, b := f(power-powerSpread), f(power), f(power+powerSpread)
	return Interval{min(a, mid, b), mid, max(a, mid, b)}
}

// ToKeep tells what a history of temperatures has done to a fish. Errors are codec.Problems.
func ToKeep(q History) (HistoryAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return HistoryAnswer{}, err
	}
	var a HistoryAnswer
	for i := range q.Samples {
		if i > 0 && q.Samples[i].Time < q.Samples[i-1].Time {
			return HistoryAnswer{}, codec.Fault("samples["+strconv.Itoa(i)+"].time", "timesMixed", "must not be before the one above")
		}
		if t := q.Samples[i].Temperature; t < coldest || t > warmest {
			a.Beyond = true
		}
	}
	now := q.Samples[len(q.Samples)-1].Temperature
	a.Spent = about(q.spent)
	a.Rate = about(func(power float64) float64 { return rate(now, power) })
	for _, y := range yardsticks() {
		y.Left = about(func(power float64) float64 { return math.Max(0, y.Life-q.spent(power)) / rate(now, power) })
		a.Yardsticks = append(a.Yardsticks, y)
	}
	return a, nil
}

// spent is the time at 0 °C that spoils as much: Simpson's rule between samples, exact for a power of 2.
func (q *History) spent(power float64) (sum float64) {
	for i := range q.Samples[1:] {
		a, b := &q.Samples[i], &q.Samples[i+1]
		middle := (a.Temperature + b.Temperature) / 2
		sum += (b.Time - a.Time) / 6 * (rate(a.Temperature, power) + 4*rate(middle, power) + rate(b.Temperature, power))
	}
	return sum
}

// yardsticks are fish whose life at 0 °C is published; none was found for striped bass.
func yardsticks() []Yardstick {
	const table = "FAO Fisheries Technical Paper 348, table 6.1, from memory"
	return []Yardstick{
		{Fish: "cod, gutted, in ice", Life: 15 * day, Source: "Matís, kaeligatt.is"},
		{Fish: "cod, packed", Life: 14 * day, Source: table},
		{Fish: "salmon, packed", Life: 11.8 * day, Source: table},
	}
}
