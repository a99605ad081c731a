package calibrate

import (
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/gear"
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

	catalogue := gear.Default()
	var all []*seen
	for i := range q.Observations {
		o, err := q.see(i, &catalogue)
		if err != nil {
			a.Observations[i] = Judged{Verdict: Lost, Trouble: &codec.ProblemsOf(err)[0]}
			continue
		}
		all = append(all, o)
	}
	f := newFit(all)
	told := f.foretell()
	for i, o := range all {
		j := f.judge(i)
		j.Foretold = told[i]
		a.Observations[o.of] = j
	}
	a.Records = f.records(told)
	a.Used = len(all)
	a.Effective, a.Shared = f.effective()

	sizes := q.Doubt.Sizes()
	for r, rod := range rods {
		rod.learn(f)
		a.Rods[r] = rod.tell(&q, r, rod.learned(f, sizes))
	}
	a.Width, a.Next = q.next(f, rods, a.Rods)
	return a, nil
}

// rod is a rod as it is now, with nothing learned yet. What is wrong with it is an error.
func (q *Query) rod(r int) (*taught, error) {
	now := q.Rods[r]
	now.Rod.Learned = nil
	_, err := towline.NewTrial("sea", q.Sea, "rods["+strconv.Itoa(r)+"].rod", now.Rod, q.Doubt)
	if above := now.Rod.Rig.LeaderLength; err == nil && q.Above > above {
		err = codec.Fault("above", "aboveLeader", "must be at most the length of every leader")
	}
	return &taught{point: point{of: -1 - r, wire: now.Wire, lure: now.Lure, place: now.Rod.Place, speedDoubt: q.Doubt.Speed}, rod: now.Rod}, err
}
