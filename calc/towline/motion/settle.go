package motion

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/turn"
)

const (
	maxSamples = 240
	longStep   = 0.25 // s, at most, from one balance to the next
)

// SettleRod follows one rod's line in time through a change of speed, line or course. Errors are codec.Problems.
func SettleRod(q Settle) (SettleAnswer, error) {
	if err := towline.Ready(&q, &q.Sea, &q.Rod); err != nil {
		return SettleAnswer{}, err
	}
	if q.Lasts/q.Every > maxSamples+1e-9 {
		least := q.Lasts / maxSamples
		return SettleAnswer{}, codec.Problems{{
			Field: "every", Code: codec.CodeRange, Min: &least, Unit: "s",
			Text: "must be at least " + strconv.FormatFloat(least, 'g', 4, 64) + " s, so that no more than 240 samples come of it",
		}}
	}
	after := q.Rod
	if q.Line != nil {
		after.LineOut = q.Line.To
		if aboard := q.Rod.Rig.WireLength + q.Rod.Rig.BackingLength; after.LineOut > aboard {
			return SettleAnswer{}, towline.Limit("line.to", 1, aboard, "wire and backing on the reel")
		}
	}
	a, err := q.through(towline.Offsets{})
	if err != nil {
		return SettleAnswer{}, err
	}
	a.Risk = q.risk(a.Down)
	a.ComesTo = q.comesTo(after)
	for k := len(a.Depth) - 1; k >= 0 && math.Abs(a.Depth[k]-a.ComesTo) <= q.Within; k-- {
		a.Settled = &Moment{float64(k) * q.Every, a.Depth[k], "lure"}
	}
	return a, nil
}

// through follows the line, its inputs off, through the changes.
func (q *Settle) through(off towline.Offsets) (SettleAnswer, error) {
	s := towline.Setup{Sea: q.Sea}
	s.Take(q.Rod)
	s.Doubt = q.Doubt
	l, f := s.Settle(off, line.Exact)
	if f != line.Fine {
		return SettleAnswer{}, f.At("rod.lineOut")
	}
	m := &manoeuvre{q: q}
	c, ok := newChain(&l, m.tip(), q.Sea.Bottom, 1)
	m.length = l.Length
	if q.Line != nil {
		c.mesh = max(c.mesh, share*q.Line.To)
	}
	if !ok || !m.follow(c, &s, q) {
		return SettleAnswer{}, codec.Fault("rod", "tooHard", "cannot be followed through so hard a change: make it slower")
	}
	return m.answer, nil
}

// risk is when something may have touched: when it does with the inputs as they most probably are where it touches on the
// straight course as often as is accepted. Where those cannot be followed, it is when it touches with the inputs as given.
func (q *Settle) risk(down *Moment) *Moment {
	s := towline.Setup{Sea: q.Sea, Doubt: q.Doubt}
	s.Take(q.Rod)
	off, higher, f := s.Lowering(nil, math.Hypot(q.BottomDoubt, q.TideDoubt), q.Caution.AcceptsInTurn())
	if q.Sea.Bottom == 0 || f != line.Fine || off == (towline.Offsets{}) && higher == 0 {
		return down
	}
	// What the boat does is off with the speed, the line and the tip; the rest is off in the line.
	w := *q
	w.CurvePoints = 0
	w.Sea.Bottom = math.Max(w.Sea.Bottom-higher, least)
	slower := func(speed float64) float64 { return math.Max(speed+off[towline.InputSpeed]*q.Doubt.Speed, 0) }
	stretch := math.Exp(off[towline.InputLineOut] * q.Doubt.LineOut)
	w.Sea.Speed = slower(w.Sea.Speed)
	if w.Speed != nil && w.Speed.To > 0 {
		w.Speed = &SpeedChange{slower(w.Speed.To), w.Speed.In}
	}
	w.Rod.LineOut *= stretch
	if w.Line != nil {
		w.Line = &LineChange{w.Line.To * stretch, w.Line.Rate}
	}
	w.Rod.TipHeight = math.Max(w.Rod.TipHeight+off[towline.InputTipHeight]*q.Doubt.TipHeight, 0)
	off[towline.InputSpeed], off[towline.InputLineOut], off[towline.InputTipHeight] = 0, 0, 0
	a, err := w.through(off)
	if err != nil {
		return down
	}
	return a.Down
}

// least is the shallowest water that is looked at, m.
const least = 0.1

// manoeuvre is the boat on her way and what comes of it.
type manoeuvre struct {
	q      *Settle
	time   float64
	x, y   float64 // of her steering point
	length float64 // of line, from the lure to the tip
	answer SettleAnswer
}

// speedAt and headingAt are what the boat does at a time.
func (q *Settle) speedAt(time float64) float64 {
	if q.Speed == nil {
		return q.Sea.Speed
	}
	return q.Sea.Speed + (q.Speed.To-q.Sea.Speed)*min(time/q.Speed.In, 1)
}

func (q *Settle) headingAt(time float64) (cos, sin float64) {
	if q.Course == nil {
		return 1, 0
	}
	angle := math.Copysign(min(math.Abs(q.Course.By), q.Course.Rate*time), q.Course.By)
	return math.Cos(angle), math.Sin(angle)
}

// sail takes the boat on by a time step: Simpson's rule over her velocity.
func (m *manoeuvre) sail(h float64) {
	for k, weight := range [3]float64{h / 6, h * 2 / 3, h / 6} {
		time := m.time + h*float64(k)/2
		cos, sin := m.q.headingAt(time)
		speed := m.q.speedAt(time)
		m.x += weight * speed * cos
		m.y += weight * speed * sin
	}
	m.time += h
}

// tip is where the rod tip is.
func (m *manoeuvre) tip() line.Vec {
	cos, sin := m.q.headingAt(m.time)
	r := &m.q.Rod
	return line.Vec{m.x + r.Ahead*cos - r.Abeam*sin, m.y + r.Ahead*sin + r.Abeam*cos, r.TipHeight}
}

// follow takes the boat and the line through the manoeuvre.
func (m *manoeuvre) follow(c *chain, s *towline.Setup, q *Settle) bool {
	each := int(math.Ceil(q.Every / longStep))
	c.begin(q.Every / float64(each))
	m.note(c)
	for range int(q.Lasts/q.Every + 1e-9) {
		for range each {
			m.sail(c.h)
			if q.Line != nil {
				want := q.Rod.Rig.LeaderLength + q.Line.To
				by := max(-q.Line.Rate*c.h, min(want-m.length, q.Line.Rate*c.h))
				m.length += by
				c.pay(by, &s.Line().Pieces[s.Line().PieceAt(m.length)])
			}
			if !c.step(m.tip()) {
				return false
			}
			m.touch(c)
		}
		m.note(c)
	}
	return true
}

// note takes a sample.
func (m *manoeuvre) note(c *chain) {
	a := &m.answer
	main := c.main()
	depth := c.depthOf(0)
	astern, abeam := m.place(c.links[0].p)
	a.Depth, a.Astern, a.Abeam = append(a.Depth, depth), append(a.Astern, astern), append(a.Abeam, abeam)
	a.Tension = append(a.Tension, c.links[main[len(main)-2]].pull)
	now := Moment{m.time, depth, "lure"}
	if len(a.Depth) == 1 || depth > a.Deepest.Depth {
		a.Deepest = now
	}
	if len(a.Depth) == 1 || depth < a.Shallowest.Depth {
		a.Shallowest = now
	}
	if n := m.q.CurvePoints; n > 1 {
		var curve towline.Curve
		for k := range n {
			i := main[(len(main)-1)*k/(n-1)]
			astern, abeam := m.place(c.links[i].p)
			curve.Astern, curve.Abeam = append(curve.Astern, astern), append(curve.Abeam, abeam)
			curve.Depth = append(curve.Depth, c.depthOf(i))
		}
		a.Curves = append(a.Curves, curve)
	}
}

// place is where something is, behind the boat and to starboard of her.
func (m *manoeuvre) place(p line.Vec) (astern, abeam float64) {
	cos, sin := m.q.headingAt(m.time)
	x, y := p[0]-m.x, p[1]-m.y
	return -x*cos - y*sin, y*cos - x*sin
}

// touch notes the first part that comes to the bottom.
func (m *manoeuvre) touch(c *chain) {
	if c.bottom == 0 || m.answer.Down != nil {
		return
	}
	for i := range c.links {
		if l := &c.links[i]; l.part != "" && -l.p[2] >= c.bottom {
			m.answer.Down = &Moment{m.time, c.bottom, l.part}
			return
		}
	}
}

// comesTo is the depth at which the lure rides when all is done; 0 where it does not ride.
func (q *Settle) comesTo(rod towline.Rod) float64 {
	s := towline.Setup{Sea: q.Sea}
	s.Take(rod)
	s.Sea.Speed = q.speedAt(q.Lasts)
	toward, curve := turn.Port, 0.
	if q.Course != nil && q.Course.Rate*q.Lasts < math.Abs(q.Course.By) {
		if s.Sea.Speed == 0 || len(q.Sea.Current) > 0 {
			return 0
		}
		curve = q.Course.Rate / s.Sea.Speed
		if q.Course.By > 0 {
			toward = turn.Starboard
		}
	}
	depth := 0.
	if b, err := turn.Enter(&s, "", toward); err == nil {
		if l, collapsed, f := b.Into(s.OnCourse(towline.Offsets{}), curve); f == line.Fine && !collapsed {
			depth = l.Depth
		}
	}
	if q.Sea.Bottom > 0 {
		depth = min(depth, q.Sea.Bottom)
	}
	return depth
}
