package calibrate

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
)

// learnable is the number of inputs that observations tell something of.
const learnable = towline.Inputs - towline.FirstLearned

// taught is a rod and what the observations say of its inputs, in standard deviations of the doubt.
type taught struct {
	point
	rod  towline.Rod
	x    vector
	tied []vector // to each observation
}

// learn takes in what the observations say.
func (t *taught) learn(f *fit) {
	t.tied = f.tiedTo(&t.point)
	t.x = mean(t.tied, f.mode.v)
}

// tiedTo is how a point is tied to each observation.
func (f *fit) tiedTo(p *point) []vector {
	tied := make([]vector, len(f.seen))
	for i, o := range f.seen {
		tied[i] = p.tied(&o.point)
	}
	return tied
}

// learned is what goes with the rod, in the units of its inputs.
func (t *taught) learned(f *fit, sizes towline.Offsets) towline.Learned {
	root := newMatrix(learnable)
	prior := t.point.tied(&t.point)
	side := make([]float64, len(f.seen))
	for i := range learnable {
		input := towline.FirstLearned + i
		for k, o := range f.seen {
			side[k] = t.tied[k][input] * o.row[input]
		}
		product := f.m.times(side)
		for j := range i + 1 {
			input := towline.FirstLearned + j
			for k, o := range f.seen {
				root.row(i)[j] -= product[k] * t.tied[k][input] * o.row[input]
			}
		}
		root.row(i)[i] += prior[input]
	}
	root.cholesky()
	by := t.x.line()
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
		rod := t.rod
		rod.Learned = side.with
		trial, err := towline.NewTrial("sea", q.Sea, field, rod, q.Doubt)
		if err == nil {
			*side.band, err = trial.Depth(field + ".lineOut")
		}
		if err != nil {
			return RodLearned{Learned: learned, LineDrag: a.LineDrag, Trouble: &codec.ProblemsOf(err)[0]}
		}
	}
	return a
}
