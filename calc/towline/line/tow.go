package line

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
)

// Gravity is the standard acceleration of free fall, m/s² (CGPM 1901).
const Gravity = 9.80665

// Tolerances of a solution: of an answer, and of the many solutions behind a band.
const (
	Exact = 1e-7
	Rough = 1e-3
)

// Solve finds the equilibrium of one line. Errors are codec.Problems: a field out of its range, or a line that
// has no equilibrium under water.
func Solve(t Tow) (TowAnswer, error) {
	if err := codec.Check(&t); err != nil {
		return TowAnswer{}, err
	}
	if err := t.Sea.Check("sea"); err != nil {
		return TowAnswer{}, err
	}
	main, err := t.Climb()
	if err != nil {
		return TowAnswer{}, err
	}
	main.Reset(0)
	l, f := main.Settle(main.Length(), t.TipHeight)
	if f != Fine {
		return TowAnswer{}, f.At("sections")
	}
	answer := TowAnswer{Sections: make([]SectionAnswer, len(t.Sections)), Tip: l.TipAnswer()}
	shallowest := math.Inf(1)
	l.Visit(func(v *View, i int) {
		p := &v.Pieces[i]
		s := &answer.Sections[p.Index]
		low, top := v.Low(i), v.Upper(i)
		*s = SectionAnswer{
			Name: p.Name, Depth: v.DepthOf(low), Astern: v.AsternOf(low),
			TensionTop: top.Tension(), TensionLow: low.Tension(), AngleTop: top.angle(), AngleLow: low.angle(),
		}
		if n := t.CurvePoints; n > 1 {
			from, to := v.Span(i)
			for k := range n {
				y := v.Spot(from + (to-from)*float64(k)/float64(n-1))
				s.CurveAstern = append(s.CurveAstern, v.AsternOf(y))
				s.CurveDepth = append(s.CurveDepth, v.DepthOf(y))
			}
		}
		if from, _ := v.Span(i); from <= v.Entry {
			shallowest = math.Min(shallowest, s.Depth)
		}
	})
	if shallowest < 0 {
		return TowAnswer{}, Floats.At("sections")
	}
	answer.Touch = l.Touch(t.Sea.Bottom)
	return answer, nil
}

// Climb is the tree of sections as the way up from its main free end: the one at the end of the longest way.
func (t *Tow) Climb() (*Climb, error) {
	at := func(i int, name string) string { return "sections[" + strconv.Itoa(i) + "]." + name }
	below := make([][]int, len(t.Sections))
	byName := map[string]int{}
	for i := range t.Sections {
		s := &t.Sections[i]
		if _, twice := byName[s.Name]; twice {
			return nil, codec.Fault(at(i, "name"), "sectionTwice", "is used twice: give each section its own")
		}
		switch on, ok := byName[s.On]; {
		case i == 0 && s.On != "":
			return nil, codec.Fault(at(i, "on"), "firstSection", "must be empty: the first section hangs on the boat")
		case i > 0 && !ok:
			return nil, codec.Fault(at(i, "on"), "laterSection", "must be the name of an earlier section")
		case i > 0:
			below[on] = append(below[on], i)
		}
		byName[s.Name] = i
		if s.airWeight(t.Sea.Water.Density) < 0 {
			return nil, codec.Fault(at(i, "weight"), "tooLight", "would float more than its own volume: raise it or the diameter")
		}
	}
	reach := make([]float64, len(t.Sections))
	for i := len(t.Sections) - 1; i >= 0; i-- {
		for _, j := range below[i] {
			reach[i] = max(reach[i], reach[j])
		}
		reach[i] += t.Sections[i].Length
	}
	water := t.Sea.Stream(new(int))
	var from func(i int) *Climb
	from = func(i int) *Climb {
		c := &Climb{Water: &water, Tol: Exact, Pieces: make([]Piece, 0, len(t.Sections))}
		for {
			p := t.Sections[i].piece(water.Rho)
			p.Index = i
			next := -1
			for _, j := range below[i] {
				if next < 0 || reach[j] > reach[next] {
					next = j
				}
			}
			for _, j := range below[i] {
				if j != next {
					p.Branches = append(p.Branches, from(j))
				}
			}
			c.Pieces = append(c.Pieces, p)
			if next < 0 {
				break
			}
			i = next
		}
		for a, b := 0, len(c.Pieces)-1; a < b; a, b = a+1, b-1 {
			c.Pieces[a], c.Pieces[b] = c.Pieces[b], c.Pieces[a]
		}
		return c
	}
	return from(0), nil
}

func (s *Section) airWeight(density float64) float64 {
	return s.Weight + density*Gravity*math.Pi/4*s.Diameter*s.Diameter
}

func (s *Section) piece(density float64) Piece {
	mass, added := s.airWeight(density)/Gravity, density*math.Pi/4*s.Diameter*s.Diameter
	if s.Inertia != nil {
		mass, added = s.Inertia.Mass, s.Inertia.Added
	}
	return Piece{
		Name: s.Name, Length: s.Length, Diameter: s.Diameter, Weight: s.Weight, AirWeight: s.airWeight(density),
		Cn: s.Cn, Ct: s.Ct, Strum: s.Strum, Mass: mass, Added: added, Load: s.End,
	}
}
