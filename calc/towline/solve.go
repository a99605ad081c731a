package towline

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
)

// Gravity is the standard acceleration of free fall, m/s² (CGPM 1901).
const Gravity = 9.80665

// Tolerances of a solution: of an answer, and of the many solutions behind a band.
const (
	exact = 1e-7
	rough = 3e-4
)

// Solve finds the equilibrium of one line. Errors are codec.Problems: a field out of its range, or a line that
// has no equilibrium under water.
func Solve(t Tow) (TowAnswer, error) {
	if err := codec.Check(&t); err != nil {
		return TowAnswer{}, err
	}
	if err := t.Sea.check("sea"); err != nil {
		return TowAnswer{}, err
	}
	main, err := t.climb()
	if err != nil {
		return TowAnswer{}, err
	}
	main.reset(0)
	l, f := main.settle(main.length(), t.TipHeight)
	if f != fine {
		return TowAnswer{}, codec.Fault("sections", f.text())
	}
	answer := TowAnswer{Sections: make([]SectionAnswer, len(t.Sections)), Tip: l.tipAnswer()}
	shallowest := math.Inf(1)
	l.visit(func(v *view, i int) {
		p := &v.pieces[i]
		s := &answer.Sections[p.index]
		low, top := v.low(i), v.upper(i)
		*s = SectionAnswer{
			Name: p.name, Depth: v.depthOf(low), Astern: v.asternOf(low),
			TensionTop: top.tension(), TensionLow: low.tension(), AngleTop: top.angle(), AngleLow: low.angle(),
		}
		if n := t.CurvePoints; n > 1 {
			from, to := v.span(i)
			for k := range n {
				y := v.spot(from + (to-from)*float64(k)/float64(n-1))
				s.CurveAstern = append(s.CurveAstern, v.asternOf(y))
				s.CurveDepth = append(s.CurveDepth, v.depthOf(y))
			}
		}
		if from, _ := v.span(i); from <= v.entry {
			shallowest = math.Min(shallowest, s.Depth)
		}
	})
	if shallowest < 0 {
		return TowAnswer{}, codec.Fault("sections", floats.text())
	}
	answer.Touch = l.touch(t.Sea.Bottom)
	return answer, nil
}

// check is what the ranges of single fields cannot say.
func (s *Sea) check(field string) error {
	for i := 1; i < len(s.Current); i++ {
		if s.Current[i].Depth <= s.Current[i-1].Depth {
			return codec.Fault(field+".current["+strconv.Itoa(i)+"].depth", "must be greater than the depth before it")
		}
	}
	return nil
}

func (s *Sea) stream() *stream {
	return &stream{rho: s.Water.Density, nu: s.Water.Viscosity, speed: s.Speed, layers: s.Current}
}

// text says what the person can do.
func (f fault) text() string {
	switch f {
	case goesSlack:
		return "the line goes slack: give it more weight or drag, or shorten it"
	case tooLong:
		return "too long and light to be computed: shorten the line or give it more weight or drag"
	case tooShort:
		return "too short: the lure would skim the surface; let out more line"
	case floats:
		return "part of it would come to the surface: give it more weight or less lift, or slow down"
	case inAir:
		return "too short: a weight or join would hang out of the water; let out more line"
	case collapses:
		return "the tow collapses in so tight a turn: turn wider, shorten the line or speed up"
	}
	return ""
}

// climb is the tree of sections as the way up from its main free end: the one at the end of the longest way.
func (t *Tow) climb() (*climb, error) {
	at := func(i int, name string) string { return "sections[" + strconv.Itoa(i) + "]." + name }
	below := make([][]int, len(t.Sections))
	byName := map[string]int{}
	for i := range t.Sections {
		s := &t.Sections[i]
		if _, twice := byName[s.Name]; twice {
			return nil, codec.Fault(at(i, "name"), "is used twice: give each section its own")
		}
		switch on, ok := byName[s.On]; {
		case i == 0 && s.On != "":
			return nil, codec.Fault(at(i, "on"), "must be empty: the first section hangs on the boat")
		case i > 0 && !ok:
			return nil, codec.Fault(at(i, "on"), "must be the name of an earlier section")
		case i > 0:
			below[on] = append(below[on], i)
		}
		byName[s.Name] = i
		if s.airWeight(t.Sea.Water.Density) < 0 {
			return nil, codec.Fault(at(i, "weight"), "would float more than its own volume: raise it or the diameter")
		}
	}
	reach := make([]float64, len(t.Sections))
	for i := len(t.Sections) - 1; i >= 0; i-- {
		for _, j := range below[i] {
			reach[i] = max(reach[i], reach[j])
		}
		reach[i] += t.Sections[i].Length
	}
	water := t.Sea.stream()
	var from func(i int) *climb
	from = func(i int) *climb {
		c := &climb{water: water, tol: exact}
		for {
			p := t.Sections[i].piece(water.rho)
			p.index = i
			next := -1
			for _, j := range below[i] {
				if next < 0 || reach[j] > reach[next] {
					next = j
				}
			}
			for _, j := range below[i] {
				if j != next {
					p.branches = append(p.branches, from(j))
				}
			}
			c.pieces = append(c.pieces, p)
			if next < 0 {
				break
			}
			i = next
		}
		for a, b := 0, len(c.pieces)-1; a < b; a, b = a+1, b-1 {
			c.pieces[a], c.pieces[b] = c.pieces[b], c.pieces[a]
		}
		return c
	}
	return from(0), nil
}

func (s *Section) airWeight(density float64) float64 {
	return s.Weight + density*Gravity*math.Pi/4*s.Diameter*s.Diameter
}

func (s *Section) piece(density float64) piece {
	mass, added := s.airWeight(density)/Gravity, density*math.Pi/4*s.Diameter*s.Diameter
	if s.Inertia != nil {
		mass, added = s.Inertia.Mass, s.Inertia.Added
	}
	return piece{
		name: s.Name, length: s.Length, diameter: s.Diameter, weight: s.Weight, airWeight: s.airWeight(density),
		cn: s.Cn, ct: s.Ct, strum: s.Strum, mass: mass, added: added, load: s.End,
	}
}
