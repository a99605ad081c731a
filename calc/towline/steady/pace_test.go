package steady

import (
	"math/rand/v2"
	"testing"

	"wirewake/calc/unit"
)

// A speed that reads as the end of those wanted, in tenths of a knot, is one of them: the advice is then about the line. By
// hand.
func TestASpeedThatReadsAsWantedIsWanted(t *testing.T) {
	w := Wanted{SpeedLow: 2.8 * unit.Knot, SpeedHigh: 3.46 * unit.Knot}
	for knots, want := range map[float64]float64{3.5: 3.5, 3.54: 3.54, 3.6: 3.46, 3.9: 3.46, 2.75: 2.75, 2.6: 2.8, 3.1: 3.1} {
		if got := w.Speed(knots * unit.Knot); got != want*unit.Knot {
			t.Errorf("%v kn: go %.3f kn, want %v", knots, got/unit.Knot, want)
		}
	}
	if got := (&Wanted{}).Speed(9); got != 9 {
		t.Errorf("with none wanted: go %v", got)
	}
}

// No step of the advice makes it touch oftener than is accepted and than before: wire sinks as the boat slows down. Put
// back into the spread, on random rigs that go too fast.
func TestNoAdviceSinksIt(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	slower, later := 0, 0
	for i := range rigs(400) {
		q := anySpread(r)
		q.Wanted.SpeedHigh = q.Sea.Speed * 0.85
		q.Wanted.SpeedLow = q.Wanted.SpeedHigh * 0.9
		a, accepted := solvedRod(t, q)
		if a.Trouble != nil {
			continue
		}
		touch, at := a.Odds.Touch, q
		for k := range a.Advice.Steps {
			s := &a.Advice.Steps[k]
			at = at.follow(s)
			then, _ := solvedRod(t, at)
			if then.Trouble != nil {
				continue
			}
			if then.Odds.Touch > max(touch, accepted)+0.01 {
				t.Errorf("rig %d: touching by %.3f, after %s of %+v by %.3f, accepted %v", i, touch, s.Do, a.Advice, then.Odds.Touch, accepted)
			}
			if s.Do == DoSpeed {
				slower++
				if k > 0 {
					later++
				}
			}
			touch = then.Odds.Touch
		}
	}
	t.Logf("%d times slower, %d of these after the line or the weight", slower, later)
	if slower-later < 20 || later < 20 {
		t.Errorf("%d times slower, %d of these later: nothing was checked", slower, later)
	}
}
