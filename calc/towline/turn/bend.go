package turn

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// berth is where a line is towed from: so much farther from the centre of the turn than the boat, and so much ahead
// of her, m.
type berth struct{ out, ahead float64 }

// bend is one line followed from the straight tow into a turn. In the frame that turns with the boat the stream is
// steady, so the line is again solved from its free end up; where that end is becomes the unknown. By the symmetry
// about the centre of the turn only its distance from there matters, and in water without layers its depth follows
// as on a straight course: one unknown is left. It is found where the upper end comes as far from the centre as the
// berth is.
type bend struct {
	berth
	side   float64 // 1 where the outer side is starboard, −1 where it is port
	length float64

	at    line.Course // where it has been followed to
	gain  float64     // metres that the upper end moves out for each that the free end does
	drift float64     // how the free end moves out with the curve, m²
	depth float64     // of the free end

	straight float64 // its depth on the straight course
	begun    milestone
}

// milestone is where a stage of the way began: curve, depth of the free end, and its distance from the centre as a share
// of the boat's.
type milestone struct{ curve, depth, near float64 }

// laying solves the line on a course.
type laying func(c line.Course, tol float64) (line.Lie, line.Fault)

// solver solves the line again in the turn that it has been followed into.
func (b *bend) solver(s *towline.Setup) towline.Solver {
	if b.at.Curve == 0 {
		return nil
	}
	return func(off towline.Offsets, tol float64) (line.Lie, line.Fault) {
		here := *b
		return here.seek(s.OnCourse(off), b.at, tol)
	}
}

// start is the straight tow.
func (b *bend) start(lay laying) line.Fault {
	b.at, b.gain = line.Course{Curve: 0, Out: b.out}, 1
	l, f := lay(b.at, line.Exact)
	b.length, b.depth, b.straight = l.Length, l.Depth, l.Depth
	b.begun = milestone{0, l.Depth, 1}
	b.drift = -l.Length * l.Length / 2 // as it does where the line streams along its own bent wake
	return f
}

// Each stage of the way makes the radius a fifth smaller. Where it is more than the length of the line, the curve grows by
// as much in each as it does there: from the straight tow on there are four of them.
const stage = 0.8

// The marks of a collapse: within one stage or part of it the lure comes sinks times as deep, one that skims counting as
// that share of the line's length down, or to a share inwards of its distance from the centre; or, step by step, to deeper
// times the depth it had and so much of the line's length.
const (
	sinks   = 1.7
	skims   = 0.02
	inwards = 0.2
	deeper  = 3
	upright = 0.5
)

// Into follows the line from where it is into a tighter turn, or stays. Where it collapses on the way the solution may
// go on beyond; where that ends, the fault is collapses.
func (b *bend) Into(lay laying, curve float64) (l line.Lie, collapsed bool, f line.Fault) {
	for {
		from := b.at
		stageEnd := max(b.begun.curve/stage, b.begun.curve+(1/stage-1)/b.length)
		next := min(stageEnd, curve)
		guess := b.at.Out + b.drift*(next-from.Curve)
		if from.Curve > 0 { // but at once not beyond half the distance from the centre
			guess = max(guess, (1/from.Curve+from.Out)/2-1/next)
		}
		tol := line.Rough
		if next == curve {
			tol = line.Exact
		}
		if l, f = b.seek(lay, line.Course{Curve: next, Out: guess}, tol); f != line.Fine {
			return l, collapsed, f
		}
		if next > from.Curve {
			b.drift = (b.at.Out - from.Out) / (next - from.Curve)
		}
		here := milestone{next, b.depth, 1 + next*b.at.Out}
		if here.depth > sinks*max(b.begun.depth, skims*b.length) || here.near < inwards*b.begun.near ||
			here.depth > deeper*b.straight && here.depth > upright*b.length {
			collapsed = true
		}
		if next == stageEnd {
			b.begun = here
		}
		if next == curve {
			return l, collapsed, line.Fine
		}
	}
}

// seek finds the free end on a course, from a guess, by secants.
func (b *bend) seek(lay laying, c line.Course, tol float64) (l line.Lie, f line.Fault) {
	gain, last, lastMiss := b.gain, math.NaN(), 0.
	near := tol * b.length
	if tol == line.Exact {
		near /= 10 // for where the depth changes steeply with it
	}
	for range 30 {
		if l, f = lay(c, tol); f != line.Fine {
			return l, f
		}
		miss := b.miss(&l, c)
		if last != c.Out && last == last {
			gain = (miss - lastMiss) / (c.Out - last)
		}
		if math.Abs(miss) <= near {
			b.at, b.gain, b.depth = c, gain, l.Depth
			l.Seat = b.seat(&l)
			return l, line.Fine
		}
		last, lastMiss = c.Out, miss
		// At once not beyond half the distance from the centre or twice as far.
		r := 1/c.Curve + c.Out
		c.Out += max(-r/2, min(-miss/max(gain, 0.05), r))
	}
	return l, line.Collapses
}

// miss is by how much the upper end is too far from the centre, m. Written so that it holds for a straight course too.
func (b *bend) miss(l *line.Lie, c line.Course) float64 {
	y := c.Out + l.Top.Y
	return y - b.out + c.Curve/2*((y-b.out)*(y+b.out)+l.Top.X*l.Top.X-b.ahead*b.ahead)
}

func (b *bend) seat(l *line.Lie) *line.Seat {
	if b.at.Curve == 0 {
		return &line.Seat{Out: b.at.Out, Cos: 1, Shift: b.ahead - l.Top.X, Side: b.side}
	}
	radius := 1 / b.at.Curve
	angle := math.Atan2(b.ahead, radius+b.out) - math.Atan2(l.Top.X, radius+b.at.Out+l.Top.Y)
	return &line.Seat{Radius: radius, Out: b.at.Out, Sin: math.Sin(angle), Cos: math.Cos(angle), Shift: 0, Side: b.side}
}
