package chill

import (
	"math"

	"wirewake/calc/seawater"
	"wirewake/calc/stat"
)

// Specific heats in J/(kg·K) and heat of melting in J/kg. Of fish: the slope of FAO Fisheries Technical Paper 340,
// table 31, from 0 to 28 °C, 0.876 kcal/kg. The others are handbook values (from memory; FAO Fisheries Technical Paper
// 331, ch. 12, has them within 2 %, with 80 kcal/kg for the melting).
const (
	fishHeat  = 3670
	seaHeat   = 3990
	waterHeat = 4190
	iceHeat   = 2050
	melting   = 334e3
	boxHeat   = 1900 // polyethylene, from memory
)

// slush is what a box holds: ice and its water, sea water, fish, and the inner half of the box, all at one temperature.
// While there is ice, that is the freezing point of its brine.
type slush struct {
	ice, sea, fish float64 // kg put in; some of the ice may be water by now
	salinity       float64 // of the sea water
	box            float64 // J/K
	heat           float64 // J; that of liquid water at 0 °C is 0
	walls, sun     float64 // J taken in on these ways
}

func (s *slush) addIce(mass float64) {
	s.ice += mass
	s.heat -= mass * melting
}

func (s *slush) addFish(b Batch) {
	s.fish += b.Mass
	s.heat += b.Mass * fishHeat * b.Temperature
}

// brine is the salinity and freezing point when so much of the ice has melted.
func (s *slush) brine(melted float64) (salinity, freezing float64) {
	if water := s.sea + melted; water > 0 {
		salinity = s.salinity * s.sea / water
	}
	return salinity, seawater.FreezingPoint(salinity, 0)
}

// capacity is the heat for each kelvin of all but the ice.
func (s *slush) capacity(melted float64) float64 {
	return s.sea*seaHeat + melted*waterHeat + s.fish*fishHeat + s.box
}

// heatAt is the heat with so much of the ice melted, at the freezing point.
func (s *slush) heatAt(melted float64) float64 {
	_, t := s.brine(melted)
	return s.capacity(melted)*t + (s.ice-melted)*(iceHeat*t-melting)
}

// settle finds how much of the ice has melted, and the temperature.
func (s *slush) settle() (melted, temperature float64) {
	if surplus := s.heat - s.heatAt(s.ice); surplus >= 0 {
		_, t := s.brine(s.ice)
		if c := s.capacity(s.ice); c > 0 {
			t += surplus / c
		}
		return s.ice, t
	}
	melted = stat.Root(func(m float64) float64 { return s.heatAt(m) - s.heat }, 0, s.ice, 1e-9*s.ice)
	_, temperature = s.brine(melted)
	return melted, temperature
}

// point is what is there now.
func (s *slush) point(time float64) Point {
	melted, temperature := s.settle()
	salinity, _ := s.brine(melted)
	return Point{time, s.ice - melted, s.sea + melted, salinity, temperature}
}

// weather is what warms a box.
type weather struct {
	leak float64 // W/K
	air  float64 // °C
	lit  float64 // K by which the sun on the lid adds to the air
}

// power that gets in, W.
func (w *weather) power(temperature float64) float64 { return w.leak * (w.air + w.lit - temperature) }

// warm lets time pass, and says after how much of it the ice was gone; +Inf when it is not.
func (s *slush) warm(w weather, seconds float64) (gone float64) {
	gone = math.Inf(1)
	_, t := s.settle()
	if room := s.heatAt(s.ice) - s.heat; room > 0 {
		// The freezing point moves so little that the power in the middle of the step serves for all of it.
		half := *s
		half.heat += math.Min(room, w.power(t)*seconds/2)
		_, t = half.settle()
		power, step := w.power(t), seconds
		if power*seconds >= room {
			step = room / power
		}
		s.absorb(power*step, w.leak*w.lit*step)
		if step == seconds {
			return gone
		}
		gone, seconds = step, seconds-step
		_, t = s.settle()
	} else {
		gone = 0
	}
	// Without ice, water and fish go towards the temperature at which nothing gets in any more.
	if c := s.capacity(s.ice); c > 0 {
		s.absorb(-c*(w.air+w.lit-t)*math.Expm1(-w.leak*seconds/c), w.leak*w.lit*seconds)
	}
	return gone
}

// absorb takes heat in, of which so much is the sun's.
func (s *slush) absorb(heat, sun float64) {
	s.heat += heat
	s.sun += sun
	s.walls += heat - sun
}
