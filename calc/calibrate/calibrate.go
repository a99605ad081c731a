package calibrate

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
)

// Calibrate tells what observations teach of the rods. Errors are codec.Problems; that one observation or one rod as it
// is set cannot be computed is an answer.
func Calibrate(q Query) (Answer, error) {
	if err := codec.Check(&q); err != nil {
		return Answer{}, err
	}
	a := Answer{Observations: make([]Judged, len(q.Observations)), Rods: make([]RodLearned, len(q.Rods))}
	rods := make([]*taught, len(q.Rods))
	for r := range q.Rods {
		var err error
		if rods[r], err = q.rod(r); err != nil {
			return Answer{}, err
		}
	}

	var all []*seen
	for i := range q.Observations {
		o, err := q.see(i)
		if err != nil {
			a.Observations[i] = Judged{Verdict: Lost, Trouble: &codec.ProblemsOf(err)[0]}
			continue
		}
		all = append(all, o)
	}
	f := newFit(all)
	for i, o := range all {
		a.Observations[o.of] = f.judge(i)
	}
	a.Used = len(all)

	sizes := q.Doubt.Sizes()
	for r, rod := range rods {
		rod.learn(f)
		a.Rods[r] = rod.tell(&q, r, rod.learned(f, sizes))
	}
	a.Width, a.Next = q.next(f, rods, a.Rods)
	return a, nil
}

// Steps along the lines, so that no request can hang the phone. A usual fit takes some thousand for each observation, in a
// current that changes with depth ten times as many.
const (
	work = 6_000_000 // of a fit
	most = 300_000   // of one observation in it
	few  = 20_000    // of one try
)

// see makes an observation ready for the fit. What is wrong with it, or that its line has no equilibrium, is an error.
func (q *Query) see(i int) (*seen, error) {
	field := "observations[" + strconv.Itoa(i) + "]."
	o := q.Observations[i]
	o.Rod.Learned = nil
	doubt := q.Doubt
	if o.SpeedDoubt > 0 {
		doubt.Speed = o.SpeedDoubt
	}
	trial, err := towline.NewTrial(field+"sea", o.Sea, field+"rod", o.Rod, doubt)
	if err != nil {
		return nil, err
	}
	if o.Sea.Bottom <= 0 {
		return nil, codec.Fault(field+"sea.bottom", "must be given: the depth of water under the line")
	}
	trial.Allow(min(most, work/len(q.Observations)))
	if _, ok := trial.Lowest(vector{}); !ok {
		_, err := trial.Depth(field + "rod.lineOut")
		if err == nil {
			err = codec.Fault(field+"rod.lineOut", "has no equilibrium under water: check line out, weights and speed")
		}
		return nil, err
	}
	return &seen{
		point: point{i, o.Wire, o.Lure, o.Age},
		site:  site{clear: o.Contact == Clear, water: o.Sea.Bottom, own: q.BottomDoubt * q.BottomDoubt},
		trial: trial,
	}, nil
}

// judge puts one observation beside all others.
func (f *fit) judge(i int) Judged {
	o := f.seen[i]
	depth, variance := f.others(i)
	j := Judged{Verdict: Agrees, Expected: depth, Doubt: math.Sqrt(variance + o.own), Off: o.water - depth, Counts: o.own / o.variance()}
	if o.extra > 0 {
		j.Verdict = Contradicts
	}
	return j
}

// learnable is the number of inputs that touches tell something of.
const learnable = towline.Inputs - towline.FirstLearned

// taught is a rod and what the observations say of its inputs, in standard deviations of the doubt.
type taught struct {
	point
	rod  towline.Rod
	x    vector
	tied []vector // to each observation
}

// rod is a rod as it is now, with nothing learned yet. What is wrong with it is an error.
func (q *Query) rod(r int) (*taught, error) {
	now := q.Rods[r]
	now.Rod.Learned = nil
	_, err := towline.NewTrial("sea", q.Sea, "rods["+strconv.Itoa(r)+"].rod", now.Rod, q.Doubt)
	if above := now.Rod.Rig.LeaderLength; err == nil && q.Above > above {
		err = codec.Fault("above", "must be at most the length of every leader")
	}
	return &taught{point: point{-1 - r, now.Wire, now.Lure, 0}, rod: now.Rod}, err
}

// learn takes in what the observations say.
func (t *taught) learn(f *fit) {
	t.tied = make([]vector, len(f.seen))
	for i, o := range f.seen {
		t.tied[i] = t.point.tied(&o.point)
	}
	t.x = carry(t.tied, f.here.v)
}

// covariance of the learnable inputs of two rods, after the observations.
func (t *taught) covariance(f *fit, other *taught) matrix {
	c := newMatrix(learnable)
	prior := t.point.tied(&other.point)
	side := make([]float64, len(f.seen))
	for i := range learnable {
		input := towline.FirstLearned + i
		for k, o := range f.seen {
			side[k] = t.tied[k][input] * o.row[input]
		}
		product := f.m.times(side)
		for j := range learnable {
			input := towline.FirstLearned + j
			for k, o := range f.seen {
				c.row(i)[j] -= product[k] * other.tied[k][input] * o.row[input]
			}
		}
		c.row(i)[i] += prior[input]
	}
	return c
}

// learned is what goes with the rod, in the units of its inputs.
func (t *taught) learned(f *fit, sizes vector) towline.Learned {
	root := t.covariance(f, t)
	root.cholesky()
	by := t.x
	for input := range by {
		by[input] *= sizes[input]
	}
	l := towline.LearnedOf(by)
	for i := range learnable {
		for _, v := range root.row(i)[:i+1] {
			l.Root = append(l.Root, v*sizes[towline.FirstLearned+i])
		}
	}
	return l
}

// tell is a rod's part of the answer.
func (t *taught) tell(q *Query, r int, learned towline.Learned) RodLearned {
	a := RodLearned{Learned: learned}
	field := "rods[" + strconv.Itoa(r) + "].rod"
	half := stat.Z90 * learned.Root[0]
	a.LineDrag = Factor{math.Exp(learned.LineDrag - half), math.Exp(learned.LineDrag), math.Exp(learned.LineDrag + half)}
	for _, side := range []struct {
		band *towline.Band
		with *towline.Learned
	}{{&a.Before, nil}, {&a.After, &learned}} {
		t.rod.Learned = side.with
		trial, err := towline.NewTrial("sea", q.Sea, field, t.rod, q.Doubt)
		if err == nil {
			*side.band, err = trial.Depth(field + ".lineOut")
		}
		if err != nil {
			return RodLearned{Learned: learned, LineDrag: a.LineDrag, Trouble: &codec.ProblemsOf(err)[0]}
		}
	}
	return a
}
