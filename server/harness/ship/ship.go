// Package ship is a boat with instruments, for tests: it goes over a known bottom in a current, and says what a sounder, a
// paddle wheel, a compass and a receiver would, with noise, false echoes and others who talk.
package ship

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wirewake/calc/sentence"
)

// Ship is where it is and what it is like, in SI; its fields are set before use.
type Ship struct {
	// Bottom is the depth of the water after so many metres over ground.
	Bottom func(run float64) float64
	// Speed through the water; Heading, and by how much that turns in a second.
	Speed, Heading, Turn float64
	// East and North are the current.
	East, North float64
	// Factor and Zero are those of the wheel: the speed is Zero + Factor × what it reads.
	Factor, Zero float64
	// Noise scales all errors; Wrong is the share of soundings that are of something else.
	Noise, Wrong float64
	Rand         *rand.Rand

	x, y, run float64
}

// Depth is how deep it is under the boat, Run how far it has gone over ground.
func (s *Ship) Depth() float64 { return s.Bottom(s.run) }

// Run is how far it has gone over ground.
func (s *Ship) Run() float64 { return s.run }

const knot = 1852. / 3600

// Second moves on by one second, and says what is heard then.
func (s *Ship) Second() (lines []string) {
	s.Heading = math.Mod(s.Heading+s.Turn+2*math.Pi, 2*math.Pi)
	east, north := s.Speed*math.Sin(s.Heading)+s.East, s.Speed*math.Cos(s.Heading)+s.North
	s.x, s.y, s.run = s.x+east, s.y+north, s.run+math.Hypot(east, north)
	read := s.Depth() - 0.5 + 0.1*s.noise()
	if s.Rand != nil && s.Rand.Float64() < s.Wrong {
		read = 1 + 0.4*read*s.Rand.Float64()
	}
	course := math.Mod(math.Atan2(east, north)+2*math.Pi, 2*math.Pi)
	lat, lon := 4130+60*s.y/111_200, 7230-60*s.x/83_900
	return []string{
		Sum("SDDPT,%.2f,0.5", read),
		Sum("VWVHW,,T,,M,%.2f,N,,K", math.Max(0, (s.Speed-s.Zero)/s.Factor+0.03*s.noise())/knot),
		Sum("HCHDT,%.1f,T", degrees(s.Heading)),
		Sum("YXMTW,%.1f,C", 16.5),
		Sum("GPRMC,,A,%.4f,N,%010.4f,W,%.2f,%.1f,,,", lat, lon, (math.Hypot(east, north)+0.05*s.noise())/knot, degrees(course)),
		// Those who talk of other things, wrongly, or of nothing.
		Sum("GPGSV,3,1,12,02,,,32"), "$SDDPT,1.0,0.5*00", "!AIVDM,1,1,,A,14eG,0*7D", Sum("PXYZ,depth,1.0"), "\xff\xfe\x00", "$",
	}
}

func (s *Ship) noise() float64 {
	if s.Rand == nil {
		return 0
	}
	return s.Noise * s.Rand.NormFloat64()
}

func degrees(rad float64) float64 { return math.Mod(rad*180/math.Pi, 360) }

// Sum is a sentence with its checksum.
func Sum(format string, args ...any) string {
	body := fmt.Sprintf(format, args...)
	return fmt.Sprintf("$%s*%02X", body, sentence.Sum(body))
}
