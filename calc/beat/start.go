package beat

import (
	"math"

	"wirewake/calc/stat"
)

// What is known of a spoon before it is marked: its band lies about where practice has it. Judgements, from memory.
const (
	practiceOff   = 0.15 // standard deviation of the middle of the band, by natural logarithm
	practiceWidth = 0.5  // the same of how wide it is
	markBlur      = 0.06 // width of the logistic by which a skipper's marks waver, by natural logarithm of the speed
	slips         = 0.02 // share of marks that have nothing to do with the spoon, such as a wrong button
	cells         = 14   // of the grid, on either side of the middle
	widest        = 3.5  // standard deviations from the middle to the edge of the grid
)

// cell is one band that may be the spoon's, by natural logarithm of its two ends, with how likely it is.
type cell struct{ low, high, chance float64 }

// start narrows the band of practice by the marks, by Bayes' rule on a grid of middles and widths; ratio is the beats
// for each metre, 0 when no mark tells.
func start(q *Pump, ratio float64) *Start {
	grid := practice(math.Log(q.PracticeLow), math.Log(q.PracticeHigh))
	s := &Start{}
	for _, m := range q.Marks {
		speed := swum(m.Beat, m.Speed, ratio)
		if speed == 0 {
			continue
		}
		s.Marks++
		most := 0.
		for i := range grid {
			c := &grid[i]
			slow, fast := c.miss(math.Log(speed))
			chance := 1 - slow - fast
			switch m.Feel {
			case TooSlow:
				chance = slow
			case TooFast:
				chance = fast
			}
			c.chance *= (1-slips)*chance + slips/3
			most = math.Max(most, c.chance)
		}
		for i := range grid { // many marks would come to nothing otherwise
			grid[i].chance /= most
		}
	}
	s.Low = within(grid, func(c *cell) float64 { return c.low })
	s.High = within(grid, func(c *cell) float64 { return c.high })
	if speed := swum(q.Beat, q.Speed, ratio); speed > 0 {
		s.Chances = make([]float64, 3)
		sum := 0.
		for i := range grid {
			c := &grid[i]
			slow, fast := c.miss(math.Log(speed))
			s.Chances[0] += slow * c.chance
			s.Chances[2] += fast * c.chance
			sum += c.chance
		}
		s.Chances[0] /= sum
		s.Chances[2] /= sum
		s.Chances[1] = 1 - s.Chances[0] - s.Chances[2]
	}
	return s
}

// practice is the bands that may be, before any mark.
func practice(low, high float64) []cell {
	grid := make([]cell, 0, (2*cells+1)*(2*cells+1))
	for i := -cells; i <= cells; i++ {
		for j := -cells; j <= cells; j++ {
			off, wide := widest*float64(i)/cells, widest*float64(j)/cells
			middle := (low+high)/2 + practiceOff*off
			half := (high - low) / 2 * math.Exp(practiceWidth*wide)
			grid = append(grid, cell{middle - half, middle + half, math.Exp(-(off*off + wide*wide) / 2)})
		}
	}
	return grid
}

// miss is the chances that a speed, by its natural logarithm, is felt as too slow and as too fast.
func (c *cell) miss(speed float64) (slow, fast float64) {
	return 1 / (1 + math.Exp((speed-c.low)/markBlur)), 1 / (1 + math.Exp((c.high-speed)/markBlur))
}

// swum is the speed that a mark is of; 0 when neither it nor its beat tells one.
func swum(beat, speed, ratio float64) float64 {
	if speed > 0 || ratio == 0 {
		return speed
	}
	return beat / ratio
}

// within is the median and the 90 % interval of one end of the bands.
func within(grid []cell, end func(*cell) float64) Interval {
	lowest, highest, sum := math.Inf(1), math.Inf(-1), 0.
	for i := range grid {
		lowest, highest = math.Min(lowest, end(&grid[i])), math.Max(highest, end(&grid[i]))
		sum += grid[i].chance
	}
	at := func(share float64) float64 {
		return math.Exp(stat.Root(func(x float64) float64 {
			below := 0.
			for i := range grid {
				if end(&grid[i]) <= x {
					below += grid[i].chance
				}
			}
			return below/sum - share
		}, lowest, highest, 1e-3))
	}
	return Interval{at(0.05), at(0.5), at(0.95)}
}
