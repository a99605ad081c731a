package beat

import (
	"math"

	"wirewake/calc/stat"
)

// The rules of Newton's method.
const (
	newtons = 50   // steps
	settled = 1e-6 // size of a step, or share of one, that is the last
)

// grade is one judgement as the model sees it: how far beat and speed are from usual, and which of three grades.
type grade struct {
	beat, speed float64
	is          int
}

// ordinal is the proportional-odds model of three ordered grades (McCullagh and Nelder, Generalized Linear Models,
// 1989, ch. 5): the logit of the chance of a grade of at most k is border k less the slopes times beat and speed.
type ordinal struct {
	of  stat.Row // two borders, then the slopes of beat and speed
	cov stat.Equations
}

// fitOrdinal maximises the likelihood times a normal prior around 0 of these precisions, by Newton's method with
// steps that are halved until they gain. The logarithms of both are concave, so there is one maximum; ok is false
// when it is not reached.
func fitOrdinal(grades []grade, precisions stat.Row) (m ordinal, ok bool) {
	m.of = stat.Row{-1, 1}
	value, q := m.at(grades, precisions)
	for range newtons {
		if !q.Invert(4) {
			return m, false
		}
		m.cov = q
		step := q.Times(&q.Right)
		last, gained := step.Dot(&step) < settled*settled, false
		for share := 1.; share > settled && !gained; share /= 2 {
			next := ordinal{of: m.of}
			for i := range step {
				next.of[i] += share * step[i]
			}
			if v, e := next.at(grades, precisions); v >= value || last {
				m.of, value, q, gained = next.of, v, e, true
			}
		}
		if last || !gained {
			return m, last
		}
	}
	return m, false
}

// at is the logarithm of likelihood and prior, and the equations of Newton's step from here. The value is no number
// where the borders have changed places.
func (m *ordinal) at(grades []grade, precisions stat.Row) (value float64, q stat.Equations) {
	for i, p := range precisions {
		q.Left[i][i] = p
		q.Right[i] = -p * m.of[i]
		value -= p * m.of[i] * m.of[i] / 2
	}
	for _, g := range grades {
		upper, lower := m.below(g)
		// How much the two chances change with the unknowns.
		up, low := stat.Row{0, 0, -g.beat, -g.speed}, stat.Row{0, 0, -g.beat, -g.speed}
		if g.is < 2 {
			up[g.is] = 1
		}
		if g.is > 0 {
			low[g.is-1] = 1
		}
		chance := upper - lower
		du, dl := upper*(1-upper)/chance, lower*(1-lower)/chance
		var slope stat.Row
		for i := range slope {
			slope[i] = du*up[i] - dl*low[i]
		}
		q.Add(&slope, 1, 1)
		q.Add(&up, 0, -du*(1-2*upper))
		q.Add(&low, 0, dl*(1-2*lower))
		value += math.Log(chance)
	}
	return value, q
}

// below is the chances that the grade is at most what it is, and less than that.
func (m *ordinal) below(g grade) (upper, lower float64) {
	upper = 1
	line := m.of[2]*g.beat + m.of[3]*g.speed
	if g.is < 2 {
		upper = 1 / (1 + math.Exp(line-m.of[g.is]))
	}
	if g.is > 0 {
		lower = 1 / (1 + math.Exp(line-m.of[g.is-1]))
	}
	return upper, lower
}

// chances of the three grades.
func (m *ordinal) chances(g grade) []float64 {
	chances := make([]float64, 3)
	for g.is = range chances {
		upper, lower := m.below(g)
		chances[g.is] = upper - lower
	}
	return chances
}

// doubt is the standard deviation of a combination of the unknowns.
func (m *ordinal) doubt(of *stat.Row) float64 {
	product := m.cov.Times(of)
	return math.Sqrt(product.Dot(of))
}
