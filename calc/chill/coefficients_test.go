package chill

import (
	"math"
	"testing"

	"wirewake/calc/stat"
)

// Stowage of ice, m³/t: FAO Fisheries Technical Paper 331, ch. 12: block 1.4, crushed 1.4 to 1.5, flake 2.2 to 2.3, tube
// 1.6 to 2.0. What is left over in the box is for sea water of 1025 kg/m³ between ice of 917 (handbook values, from
// memory) and for fish of 1040 (from memory).
func TestRoomInTheBox(t *testing.T) {
	for kind, span := range map[Ice][2]float64{Block: {1.4, 1.4}, Crushed: {1.4, 1.5}, Flake: {2.2, 2.3}, Tube: {1.6, 2.0}} {
		near(t, string(kind), kind.stowage()*1000, (span[0]+span[1])/2, 1e-9)
	}
	q := outing()
	q.Mix, q.Aboard, q.Fish = 1, 20, []Batch{{At: 0, Mass: 10, Temperature: 18}}
	f := ice(t, q).Fill
	near(t, "water", f.Water, 20./1025, 1e-9)
	near(t, "fish", f.Fish, 10./1040, 1e-9)
	near(t, "all", f.Taken, 10./1040+20./1025+20./917, 1e-9)
}

// Walls by hand: six faces, twelve edges of 0.54 and eight corners of 0.15 of the wall (Langmuir's shape factors, as in the
// textbooks), in series with a film of 15 W/(m²·K) outside; conductivities of polyurethane foam 0.028 W/(m·K) (CIBSE
// Guide A), of polystyrene foam 0.037, wood 0.14 and polyethylene 0.4 (from memory).
func TestWallsByHand(t *testing.T) {
	for material, conductivity := range map[Material]float64{Polyurethane: 0.028, Polystyrene: 0.037, Wood: 0.14, Plastic: 0.4} {
		b := Box{Length: 1, Width: 0.5, Height: 0.4, Wall: 0.05, Material: material}
		const shape = 2*(0.5+0.2+0.4)/0.05 + 4*0.54*1.9 + 8*0.15*0.05
		const outer = 2 * (1.1*0.6 + 0.6*0.5 + 1.1*0.5)
		leak, lid := b.leak()
		near(t, string(material), leak, 1/(1/(conductivity*shape)+1/(15*outer)), 1e-9)
		near(t, "lid", lid, 1.1*0.6/outer, 1e-9)
	}
}

// The interval of a time holds what its doubts make of it, each by one standard deviation: of the girth when it was
// measured 2 %, of depth over breadth 0.2 about 1.5, of the film 45 % about 50 W/(m²·K) packed in ice, 40 % about 80 in
// still and 30 % about 150 in stirred slush, of the diffusivity 6 % about 1.33e-7 m²/s, of the model 15 %. (The film within
// the 16 to 300 of SINTEF and NTNU at ICR 2019, the diffusivity within the published 1.2 to 1.45e-7; the others from
// memory.)
func TestDoubtsOfCooling(t *testing.T) {
	for stir, film := range map[Stir][2]float64{Packed: {50, 0.45}, Still: {80, 0.4}, Stirred: {150, 0.3}} {
		q := Cooling{Girth: 0.45, Temperature: 18, Stir: stir, Targets: []float64{4.5}}
		a, err := ToCool(q)
		if err != nil {
			t.Fatal(err)
		}
		time := func(girth, deepness, film, diffusivity float64) float64 {
			c := (&body{girth, deepness, film, diffusivity}).cooling()
			return c.until(4.5 / 18)
		}
		mid := time(0.45, 1.5, film[0], 1.33e-7)
		squares := 0.15 * 0.15
		for _, off := range []float64{
			time(0.45*math.Exp(0.02), 1.5, film[0], 1.33e-7), time(0.45, 1.7, film[0], 1.33e-7),
			time(0.45, 1.5, film[0]*math.Exp(film[1]), 1.33e-7), time(0.45, 1.5, film[0], 1.33e-7*math.Exp(0.06)),
		} {
			squares += math.Pow(math.Log(off/mid), 2)
		}
		got := a.Reaches[0].Time
		near(t, string(stir), got.Mid, mid, 1e-6)
		near(t, string(stir)+", low", got.Low, mid*math.Exp(-stat.Z90*math.Sqrt(squares)), 1e-6)
		near(t, string(stir)+", high", got.High, mid*math.Exp(stat.Z90*math.Sqrt(squares)), 1e-6)
	}
}

// The inner half of an empty box of polyethylene, 1900 J/(kg·K) from memory, cools from the air to the slush.
func TestHeatOfTheBox(t *testing.T) {
	q := outing()
	q.Aboard = 60
	a := ice(t, q)
	near(t, "box", a.Heat.Box, 15*1900./2*(q.Air-a.Curve[len(a.Curve)-1].Temperature), 1e-6)
}
