package steady

import (
	"math/rand/v2"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/sample"
	"wirewake/calc/unit"
)

// What is told as the best line over a depth of water is what the advice for the spread comes to there: set so, it touches
// no oftener than is accepted and there is no better line; and where none is told there is none.
func TestBestLineIsWhatIsAdvised(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	told, none, missed := 0, 0, 0
	for i := range rigs(400) {
		q := anySpread(r)
		q.Wanted.SpeedLow, q.Wanted.SpeedHigh = 0, 0
		bottom := q.Sea.Bottom
		q.Sea.Bottom = 0 // it is asked for the depth it is given
		lineOut := q.BestLine(&towline.Setup{}, 0, bottom, 0)
		q.Sea.Bottom = bottom
		if lineOut > 0 {
			q.Rods = []towline.Rod{q.Rods[0]}
			q.Rods[0].LineOut = lineOut
		}
		a, _ := solvedRod(t, q)
		if lineOut == 0 {
			none++
			odds := a.Odds
			for _, step := range a.Advice.Steps {
				if step.Do == DoLine {
					odds = step.Odds
				}
			}
			if a.Trouble == nil && a.Advice.Why == towline.WhyNone && odds.Touch <= q.Caution.Accepts() {
				t.Errorf("rig %d: none told, but %+v, %+v", i, a.Odds, a.Advice)
			}
			continue
		}
		told++
		if a.Trouble != nil || a.Odds.Touch > q.Caution.Accepts()+tolerated+1e-9 {
			t.Errorf("rig %d: %.2f m out: %+v, %v", i, lineOut, a.Odds, a.Trouble)
		}
		if a.Advice.Why != towline.WhyNone {
			t.Errorf("rig %d: %.2f m out though no line brings the lure to the band: %s", i, lineOut, a.Advice.Why)
		}
		for _, step := range a.Advice.Steps {
			if step.Do == DoLine && step.Odds.InBand > a.Odds.InBand+2*worthwhile {
				missed++
				t.Logf("rig %d: %.2f m out with %+v, advised %+v", i, lineOut, a.Odds, step)
			}
		}
	}
	t.Logf("%d told, %d not, %d missed", told, none, missed)
	if told < rigs(400)/3 || none < rigs(400)/20 || missed > rigs(400)/100 {
		t.Errorf("%d told, %d not, %d missed", told, none, missed)
	}
}

// The less sure the tide, the less line; the band in the bottom has none.
func TestBestLineByTheTide(t *testing.T) {
	q := testSpread(1)
	q.Rods[0] = sample.Rod(280, 5, 8)
	q.Doubt.LineDrag, q.BottomDoubt, q.TideDoubt, q.Caution = towline.LineDragDoubt, 0.3, 0.3, towline.NowAndThen
	var s towline.Setup
	depth := 60 * unit.Foot
	sure, same, unsure := q.BestLine(&s, 0, depth, 0), q.BestLine(&s, 0, depth, 0.3), q.BestLine(&s, 0, depth, 2)
	if !(sure > 0 && sure == same && unsure < 0.97*sure) {
		t.Errorf("%v m, %v m and %v m out", sure, same, unsure)
	}
	if lineOut := q.BestLine(&s, 0, q.Wanted.Low, 0); lineOut != 0 {
		t.Errorf("%v m out where the band is in the bottom", lineOut)
	}
}
