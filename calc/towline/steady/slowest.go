package steady

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
)

// SlowestSpeed finds how slowly the boat may go ahead before a line of the spread comes to lie on the bottom, and which
// lines to take in first to go slower, as while a fish is landed. A rod that has no equilibrium says so in its own
// answer. Errors are codec.Problems.
func SlowestSpeed(q SlowestQuery) (SlowestAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return SlowestAnswer{}, err
	}
	if err := q.Sea.Check("sea"); err != nil {
		return SlowestAnswer{}, err
	}
	if err := q.Sea.CheckBottom("sea"); err != nil {
		return SlowestAnswer{}, err
	}
	a := SlowestAnswer{Rods: make([]SlowestRod, len(q.Rods))}
	for i := range q.Rods {
		a.Rods[i] = slowestOf(&q, i)
		if a.Rods[i].ownSpeed() > 0 {
			a.TakeIn = a.insert(i)
		}
	}
	if len(a.TakeIn) > 0 {
		a.Slowest = a.Rods[a.TakeIn[0]].ownSpeed()
	}
	return a, nil
}

func slowestOf(q *SlowestQuery, rod int) (r SlowestRod) {
	trouble := func(err error) SlowestRod { return SlowestRod{Trouble: &codec.ProblemsOf(err)[0]} }
	if err := q.Rods[rod].Check("rods[" + strconv.Itoa(rod) + "]"); err != nil {
		return trouble(err)
	}
	touch, err := TouchSpeed(TouchSpeedQuery{
		Sea: q.Sea, Doubt: q.Doubt, BottomDoubt: q.BottomDoubt, TideDoubt: q.TideDoubt,
		Rod: q.Rods[rod], Slowest: slowest, Fastest: fastest,
	})
	if err != nil {
		return trouble(err)
	}
	r.Always = touch.Why == towline.WhyAlways
	r.Touch, r.Sure = touch.Speed, touch.High
	if r.Always {
		r.Touch, r.Sure = fastest, fastest
	}
	return r
}

// Where the search for a speed ends, m/s: below it a boat hardly steers, above it nobody trolls.
const (
	slowest = 0.25
	fastest = 5.
)

// ownSpeed is the speed that keeps this line off the bottom; 0 when it never comes down.
func (r *SlowestRod) ownSpeed() float64 { return math.Max(r.Touch, r.Sure) }

// insert is the order of taking in with one more rod: the one that needs the most speed first, of equals the earlier.
func (a *SlowestAnswer) insert(rod int) []int {
	order := append(a.TakeIn, rod)
	for k := len(order) - 1; k > 0 && a.Rods[order[k-1]].ownSpeed() < a.Rods[rod].ownSpeed(); k-- {
		order[k-1], order[k] = order[k], order[k-1]
	}
	return order
}
