package towline

import (
	"math"
	"testing"

	"wirewake/calc/fuzz"
)

// dice throws settings within their ranges; lengths and sizes over all their powers of ten.
type dice struct{ fuzz.Dice }

func (d *dice) in(lo, hi float64) float64 {
	if lo > 0 {
		return d.Scale(lo, hi)
	}
	return d.In(lo, hi)
}

func (d *dice) sea() Sea {
	s := Sea{Water: Water{d.in(990, 1060), d.in(5e-7, 3e-6)}, Speed: d.in(0, 10), Bottom: d.in(0, 1000)}
	depth := 0.0
	for range d.Byte() % 4 {
		depth += d.in(0.01, 100)
		s.Current = append(s.Current, Layer{depth, d.in(-5, 5)})
	}
	return s
}

func (d *dice) line() Line {
	l := Line{Diameter: d.in(5e-5, .01), Density: d.in(500, 20000), Ct: d.in(0, 1), Strum: d.in(.1, 10)}
	if d.Byte()%2 == 0 {
		l.Cn = d.in(0, 10)
	}
	return l
}

func (d *dice) rod() Rod {
	r := Rod{TipHeight: d.in(0, 20), LineOut: d.in(1, 2000), Rig: Rig{
		Wire: d.line(), WireLength: d.in(1, 1000), Backing: d.line(), BackingLength: d.in(0, 1000),
		Leader: d.line(), LeaderLength: d.in(.1, 60),
		Lure: Lure{d.in(.001, 5), d.in(300, 20000), d.in(0, .1), d.in(-.05, .05)},
	}}
	r.LineOut = math.Max(1, math.Min(r.LineOut, r.Rig.WireLength+r.Rig.BackingLength))
	for range d.Byte() % 4 {
		r.Rig.Drails = append(r.Rig.Drails, Drail{d.in(.001, 5), d.in(0, r.Rig.LeaderLength)})
	}
	if d.Byte()%2 == 0 {
		r.Rig.Dropper = &Dropper{d.line(), d.in(.01, 30), d.in(.001, 10)}
	}
	r.Abeam, r.Ahead = d.in(-30, 30), d.in(-50, 50)
	return r
}

var seeds = [][]byte{
	nil,
	[]byte("a calm sea and a long line"),
	[]byte("\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff"),
	[]byte("\x80\x00\x80\x00\x20\x00\x10\x00\x01\x40\x00\x80\x00\x33\x44\x55\x66\x77\x88\x99\xaa\xbb\xcc\xdd\xee\xff\x00\x11"),
}

// No setting of a rod within the ranges may panic, hang or give a number that is none.
func FuzzRod(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &dice{fuzz.Dice{Raw: raw}}
		sea, rod := d.sea(), d.rod()
		doubt := Doubt{d.in(0, 2), d.in(0, 1), d.in(0, 5), d.in(0, 2), d.in(0, 2), d.in(0, 1), d.in(0, 2), d.in(0, .05), d.in(0, 1)}
		if a, err := SolveSpread(Spread{Sea: sea, Wanted: Wanted{0, sea.Bottom / 2}, Doubt: doubt, Rods: []Rod{rod}}); err == nil {
			fuzz.Finite(t, a)
			if r := a.Rods[0]; r.Trouble == nil && !(0 <= r.Depth.Low && r.Depth.Low <= r.Depth.Mid && r.Depth.Mid <= r.Depth.High) {
				t.Fatalf("band out of order: %+v", r.Depth)
			} else if n := len(r.Curve.Depth); r.Trouble == nil && math.Abs(r.Curve.Depth[n-1]+rod.TipHeight) > 0.02 {
				t.Fatalf("the curve ends at depth %v, the tip is %v m up", r.Curve.Depth[n-1], rod.TipHeight)
			}
		}
		if a, err := LineOutFor(LineOutQuery{sea, d.in(.1, 500), rod}); err == nil {
			fuzz.Finite(t, a)
		}
		if a, err := TouchSpeed(TouchSpeedQuery{sea, doubt, rod, .25, 5}); err == nil {
			fuzz.Finite(t, a)
		}
		if a, err := DrailFor(DrailQuery{sea, doubt, d.in(.1, 500), rod, 0, d.in(.005, 2), 4}); err == nil {
			fuzz.Finite(t, a)
		}
	})
}

// Nor may any turn of it, gentle or tight.
func FuzzTurn(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &dice{fuzz.Dice{Raw: raw}}
		sea, rods := d.sea(), []Rod{d.rod(), d.rod()}
		sea.Current = nil
		doubt := Doubt{d.in(0, 2), d.in(0, 1), d.in(0, 5), d.in(0, 2), d.in(0, 2), d.in(0, 1), d.in(0, 2), d.in(0, .05), d.in(0, 1)}
		side := [2]Side{Port, Starboard}[d.Byte()%2]
		if a, err := SolveTurn(Turn{sea, side, d.in(1, 1e5), doubt, rods}); err == nil {
			fuzz.Finite(t, a)
			for _, r := range a.Rods {
				if r.Trouble == nil && r.Hold == Holds && !(0 <= r.Depth.Low && r.Depth.Low <= r.Depth.Mid && r.Depth.Mid <= r.Depth.High) {
					t.Fatalf("band out of order: %+v", r.Depth)
				}
			}
		}
		if a, err := TightestTurn(Tightest{sea, side, d.in(0, 100), d.in(0, 50), rods}); err == nil {
			fuzz.Finite(t, a)
		}
	})
}

// Nor may any motion.
func FuzzSettle(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &dice{fuzz.Dice{Raw: raw}}
		q := Settle{Sea: d.sea(), Rod: d.rod(), Lasts: 30, Every: 0.5, Within: d.in(.02, 10), CurvePoints: int(d.Byte()) % 20}
		q.Speed = &SpeedChange{d.in(0, 10), d.in(.5, 120)}
		q.Line = &LineChange{d.in(1, 2000), d.in(.05, 2)}
		q.Course = &CourseChange{d.In(-13, 13), d.in(.001, .5)}
		if a, err := SettleRod(q); err == nil {
			fuzz.Finite(t, a)
		}
	})
}

// Nor may any tree of sections, towed straight or round a circle.
func FuzzTow(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &dice{fuzz.Dice{Raw: raw}}
		q := Tow{Sea: d.sea(), TipHeight: d.in(0, 20), CurvePoints: int(d.Byte()) % 10}
		for i := range 1 + d.Byte()%6 {
			s := Section{
				Name: string(rune('a' + i)), Length: d.in(.001, 2000), Diameter: d.in(1e-5, .1), Weight: d.in(-50, 200),
				Ct: d.in(0, 1), Strum: d.in(.1, 10),
				End: Body{d.in(-1000, 10000), d.in(0, 10), d.in(-10, 10), d.in(-10000, 10000), d.in(0, 2000)},
			}
			if d.Byte()%3 == 0 {
				s.End = Body{}
			}
			if d.Byte()%2 == 0 {
				s.Weight = d.in(1e-4, 1)
			}
			if i > 0 {
				s.On = string(rune('a' + d.Byte()%i))
			}
			q.Sections = append(q.Sections, s)
		}
		if a, err := Solve(q); err == nil {
			fuzz.Finite(t, a)
		}
		q.Sea.Current = nil
		if a, err := SolveCircle(Circle{q.Sea, d.in(.5, 1e5), q.TipHeight, q.Sections, q.CurvePoints}); err == nil {
			fuzz.Finite(t, a)
		}
	})
}
