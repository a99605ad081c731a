package current

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"wirewake/calc/geodesic"
)

// positionsOf is where a boat of such a velocity is, as a receiver tells it every second: with errors half of which are
// each fix's own and half of which last about a minute.
func positionsOf(r *rand.Rand, velocity func(time float64) vec, seconds int, accuracy float64) (all []Position) {
	const lat, lon, often = 0.71, -1.29, 10
	size := accuracy / circle95 / math.Sqrt2
	tied := math.Exp(-1 / 60.)
	gauss := func() vec { return vec{r.NormFloat64(), r.NormFloat64()} }
	slow := gauss().times(size)
	var been vec
	for i := range seconds {
		slow = slow.times(tied).plus(gauss().times(size * math.Sqrt(1-tied*tied)))
		at := been.plus(slow).plus(gauss().times(size))
		p := geodesic.Place{Lat: lat, Lon: lon}.Onward(at.speed(), at.bearing())
		all = append(all, Position{float64(i), p.Lat, p.Lon, accuracy})
		for k := range often {
			been = been.plus(velocity(float64(i) + (float64(k)+0.5)/often).times(1. / often))
		}
	}
	return all
}

func straightOn(v vec) func(float64) vec { return func(float64) vec { return v } }

// change is from one velocity to another in so long.
func change(from, to vec, begins, lasts float64) func(float64) vec {
	return func(time float64) vec {
		return from.plus(to.minus(from).times(math.Max(0, math.Min(1, (time-begins)/lasts))))
	}
}

// A receiver that tells no speed: the velocity is reckoned from where the boat was, and its doubt is what it says of
// boats of which one in four has begun to change its speed or course within the half minute.
func TestReckonedFromPositions(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	const runs, seconds = 1500, 45
	for _, c := range []struct{ accuracy, told, least, most float64 }{
		{8, 8, 0.1, 0.3}, {15, 15, 0.2, 0.5}, {25, 25, 0.3, 0.6},
		{15, 8, 0.2, 0.5}, // worse than it says
	} {
		held, doubt := 0, 0.
		for n := range runs {
			any := func() vec { return polar(1.5+r.Float64(), r.Float64()*6.28) }
			velocity := straightOn(any())
			if n%4 == 0 {
				from := any().times(float64(r.IntN(2))) // or standing
				velocity = change(from, any(), seconds-1-30*r.Float64(), 3+9*r.Float64())
			}
			positions := positionsOf(r, velocity, seconds, c.accuracy)
			for i := range positions {
				positions[i].Accuracy = c.told
			}
			q := Motion{Window: 10, Poorest: 30, Positions: positions}
			a, err := Moving(q)
			if err != nil || !a.Reckoned || a.Used != 31 {
				t.Fatalf("%+v %v", a, err)
			}
			_, got := q.reckon()
			if math.Abs(got.east-velocity(seconds-1).east) < 1.645*a.Doubt {
				held++
			}
			doubt += a.Doubt / runs
		}
		p := 100 * float64(held) / runs
		t.Logf("fixes of %v m, said to be of %v: the 90 %% interval holds %.1f %%, doubt %.2f m/s", c.accuracy, c.told, p, doubt)
		if p < 86 || p > 96 {
			t.Errorf("fixes of %v m, said to be of %v: the 90 %% interval holds %.1f %%", c.accuracy, c.told, p)
		}
		if doubt < c.least || doubt > c.most {
			t.Errorf("fixes of %v m: doubt %.2f m/s", c.accuracy, doubt)
		}
	}
}

// A boat that has got under way in ten seconds: it is not told to go faster once the fixes can show that it goes.
func TestReckonedGettingUnderWay(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 7))
	const runs, begins, takes = 600, 60, 10
	wanted := vec{1.7, 0}
	velocity := change(vec{}, wanted, begins, takes)
	for _, c := range []struct {
		accuracy, after, most float64
	}{{5, 2, 3}, {8, 5, 4}, {15, 5, 25}, {15, 10, 10}, {15, 20, 3}} {
		wrong := 0
		for range runs {
			q := Motion{Window: 10, Poorest: 30, Positions: positionsOf(r, velocity, begins+takes+int(c.after)+1, c.accuracy)}
			a, v := q.reckon()
			told, err := ToThrottle(Throttle{
				Current: &Current{DoubtEast: 0.05, DoubtNorth: 0.05},
				Speed:   a.Speed, Course: v.bearing(), Ground: a.Doubt, Low: 1.6, High: 1.8,
			})
			if err != nil {
				t.Fatal(err)
			}
			if told.Verdict == VerdictFaster {
				wrong++
			}
		}
		p := 100 * float64(wrong) / runs
		t.Logf("fixes of %v m, %v s after it was up to speed: told to go faster %.1f %%", c.accuracy, c.after, p)
		if p > c.most {
			t.Errorf("fixes of %v m, %v s after it was up to speed: told to go faster %.1f %%", c.accuracy, c.after, p)
		}
	}
}

func TestWhatCannotBeReckoned(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	good := positionsOf(r, straightOn(vec{1, 1}), 30, 5)
	poor := positionsOf(r, straightOn(vec{1, 1}), 30, 50)
	for name, c := range map[string]struct {
		positions []Position
		used      int
	}{
		"none": {nil, 0}, "three": {good[:3], 0}, "five seconds": {good[:6], 0}, "poor ones": {poor, 0}, "enough": {good, 30},
	} {
		if a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: c.positions}); err != nil || a.Used != c.used {
			t.Errorf("%s: %+v %v", name, a, err)
		}
	}
	// A sample that tells its speed is better than all of them.
	a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: good, Samples: []Sample{{Time: 1, Speed: 2, Course: 1}}})
	if err != nil || a.Reckoned || a.Speed != 2 {
		t.Errorf("%+v %v", a, err)
	}
}

// What tells of now is the last half minute, and four fixes of it at least.
func TestWhatIsReckonedWith(t *testing.T) {
	const perMetre = 1 / 6371e3
	var all []Position
	for i := range 131 {
		north := 2 * math.Max(0, float64(i)-100)
		all = append(all, Position{float64(i), 0.71 + north*perMetre, -1.29, 5})
	}
	a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: all})
	if err != nil || math.Abs(a.Speed-2) > 0.02 || a.Used != 31 {
		t.Errorf("after a stop: %+v %v", a, err)
	}
	back := slices.Clone(all)
	slices.Reverse(back)
	if b, err := Moving(Motion{Window: 10, Poorest: 30, Positions: back}); err != nil || b.Newest != 0 || b.Used != a.Used || math.Abs(b.Speed-a.Speed) > 1e-9 {
		t.Errorf("the last one first: %+v %v, not %+v", b, err, a)
	}
	few := []Position{all[100], all[105], all[110], all[115]}
	for n, used := range map[int]int{3: 0, 4: 4} {
		if a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: few[:n]}); err != nil || a.Used != used {
			t.Errorf("%d fixes: %+v %v", n, a, err)
		}
	}
}

// What a receiver says of itself is not believed without limit: no fix is better than some decimetres.
func TestReckonedFromFixesTooGoodToBeTrue(t *testing.T) {
	for _, accuracy := range []float64{1e-300, 1e-6, 0.01} {
		for truly, speed := range map[float64]float64{0: 0, 5: 1.4} {
			positions := positionsOf(rand.New(rand.NewPCG(4, 4)), straightOn(vec{0, speed}), 40, truly)
			for i := range positions {
				positions[i].Accuracy = accuracy
			}
			a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: positions})
			if err != nil || a.Used != 31 || !(math.Abs(a.Speed-speed) < 0.02+3*a.Doubt) || a.Doubt < smoothed || a.Doubt > 0.1+truly/10 {
				t.Errorf("of %v m, truly %v m: %+v %v", accuracy, truly, a, err)
			}
		}
	}
}
