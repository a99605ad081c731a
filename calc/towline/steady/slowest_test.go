package steady

import (
	"slices"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/sample"
)

// What each rod's own edge says, put together: nothing lies on the bottom at the speed told, the first to take in does a
// little below its edge, and once it is in, the next one's edge is the one that counts.
func TestSlowestKeepsAllLinesOff(t *testing.T) {
	sea := sample.Sea(3.25)
	rods := []towline.Rod{sample.Rod(100, 4, 0), sample.Rod(200, 4, 8), sample.Rod(150, 4, 4)}
	ask := func(rods []towline.Rod) SlowestAnswer {
		t.Helper()
		a, err := SlowestSpeed(SlowestQuery{Sea: sea, Doubt: sample.Doubt, BottomDoubt: 0.4, TideDoubt: 0.3, Rods: rods})
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	a := ask(rods)
	if len(a.TakeIn) == 0 || !slices.IsSortedFunc(a.TakeIn, func(i, j int) int {
		if a.Rods[i].Sure > a.Rods[j].Sure {
			return -1
		}
		return 1
	}) {
		t.Fatalf("%+v", a)
	}
	for i, r := range a.Rods {
		one, err := TouchSpeed(TouchSpeedQuery{
			Sea: sea, Doubt: sample.Doubt, BottomDoubt: 0.4, TideDoubt: 0.3, Rod: rods[i], Slowest: slowest, Fastest: fastest,
		})
		if err != nil || one.Speed != r.Touch || one.High != r.Sure {
			t.Errorf("rod %d: %+v, by itself %+v, %v", i, r, one, err)
		}
	}
	touching := func(rod int, speed float64) bool {
		t.Helper()
		at := sea
		at.Speed = speed
		s, err := SolveSpread(Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: at, Wanted: Wanted{Low: 1, High: 3}, Doubt: sample.Doubt, Rods: rods[rod : rod+1]})
		if err != nil || s.Rods[0].Trouble != nil {
			t.Fatal(err, s.Rods[0].Trouble)
		}
		return s.Rods[0].Touch != nil
	}
	for i := range rods {
		if touching(i, a.Slowest) {
			t.Errorf("rod %d lies on the bottom at %.2f m/s", i, a.Slowest)
		}
	}
	first := a.TakeIn[0]
	if !touching(first, a.Rods[first].Touch*0.97) {
		t.Errorf("rod %d does not touch a little below its edge", first)
	}
	if without := ask(slices.Delete(slices.Clone(rods), first, first+1)); without.Slowest >= a.Slowest {
		t.Errorf("%.2f m/s with rod %d in, %.2f with it out", without.Slowest, first, a.Slowest)
	}
}

// A line that never comes down asks for no speed; one that always lies there is the first to come in; one without an
// answer says so and holds up nobody.
func TestSlowestAtTheEnds(t *testing.T) {
	short, heavy, broken := sample.Rod(25, 4, 0), sample.Rod(290, 1, 48), sample.Rod(200, 4, 8)
	broken.LineOut = 2000
	ask := func(bottom float64, rods ...towline.Rod) (SlowestAnswer, error) {
		sea := sample.Sea(3.25)
		sea.Bottom = bottom
		return SlowestSpeed(SlowestQuery{Sea: sea, Rods: rods})
	}
	if a, err := ask(60, short); err != nil || a.Slowest != 0 || len(a.TakeIn) != 0 {
		t.Errorf("%+v, %v", a, err)
	}
	if a, err := ask(1.2, short, heavy); err != nil || !a.Rods[1].Always || a.TakeIn[0] != 1 || a.Slowest != fastest {
		t.Errorf("%+v, %v", a, err)
	}
	if a, err := ask(15, broken, heavy); err != nil || a.Rods[0].Trouble == nil || len(a.TakeIn) != 1 || a.TakeIn[0] != 1 {
		t.Errorf("%+v, %v", a, err)
	}
	if _, err := ask(0, short); err == nil {
		t.Error("no bottom at all")
	}
}
