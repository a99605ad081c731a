package current

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/geodesic"
)

// positionsOf is where a boat is that goes straight on, as a receiver tells it every second: with errors half of which
// are each fix's own and half of which last about a minute.
func positionsOf(r *rand.Rand, velocity vec, seconds int, accuracy float64) (all []Position) {
	const lat, lon = 0.71, -1.29
	size := accuracy / circle95 / math.Sqrt2
	tied := math.Exp(-1 / 60.)
	gauss := func() vec { return vec{r.NormFloat64(), r.NormFloat64()} }
	slow := gauss().times(size)
	for i := range seconds {
		slow = slow.times(tied).plus(gauss().times(size * math.Sqrt(1-tied*tied)))
		at := velocity.times(float64(i)).plus(slow).plus(gauss().times(size))
		p := geodesic.Place{Lat: lat, Lon: lon}.Onward(at.speed(), at.bearing())
		all = append(all, Position{float64(i), p.Lat, p.Lon, accuracy})
	}
	return all
}

// A receiver that tells no speed: the velocity is reckoned from where the boat was, and its doubt is what it says.
func TestReckonedFromPositions(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	const runs = 1500
	for _, accuracy := range []float64{8, 15} {
		held, doubt := 0, 0.
		for range runs {
			velocity := polar(1.5+r.Float64(), r.Float64()*6.28)
			a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: positionsOf(r, velocity, 45, accuracy)})
			if err != nil || !a.Reckoned || a.Used < 30 {
				t.Fatalf("%+v %v", a, err)
			}
			if got := polar(a.Speed, a.Course); a.CourseKnown && math.Abs(got.east-velocity.east) < 1.645*a.Doubt {
				held++
			}
			doubt += a.Doubt / runs
		}
		// Two standard errors of this count below what it says, at least.
		if p := 100 * float64(held) / runs; p < 88.5 || p > 96 {
			t.Errorf("fixes of %v m: the 90 %% interval holds %.1f %%, doubt %.2f m/s", accuracy, p, doubt)
		}
		if doubt < 0.05 || doubt > 0.4 {
			t.Errorf("fixes of %v m: doubt %.2f m/s", accuracy, doubt)
		}
	}
}

func TestWhatCannotBeReckoned(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	good := positionsOf(r, vec{1, 1}, 30, 5)
	poor := positionsOf(r, vec{1, 1}, 30, 50)
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
	few := []Position{all[100], all[105], all[110], all[115]}
	for n, used := range map[int]int{3: 0, 4: 4} {
		if a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: few[:n]}); err != nil || a.Used != used {
			t.Errorf("%d fixes: %+v %v", n, a, err)
		}
	}
}
