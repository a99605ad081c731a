// Package desk is the counter where calculations are asked for by name: JSON in, JSON out. Phone, terminal and
// tests all come here.
package desk

import (
	"wirewake/calc/beat"
	"wirewake/calc/calibrate"
	"wirewake/calc/chill"
	"wirewake/calc/codec"
	"wirewake/calc/current"
	"wirewake/calc/day"
	"wirewake/calc/fish"
	"wirewake/calc/formats"
	"wirewake/calc/gear"
	"wirewake/calc/light"
	"wirewake/calc/overboard"
	"wirewake/calc/plan"
	"wirewake/calc/produced"
	"wirewake/calc/rise"
	"wirewake/calc/seawater"
	"wirewake/calc/sentence"
	"wirewake/calc/sounder"
	"wirewake/calc/tide"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/motion"
	"wirewake/calc/towline/steady"
	"wirewake/calc/towline/turn"
	"wirewake/calc/trade"
)

//go:generate go run wirewake/tools/codecgen

// List is every calculation, in the order to show them. What crosses the counter, and the function handle that answers,
// are generated from this list, which tools/codecgen reads as text; so all is written out here.
func List() []Calculation {
	return []Calculation{
		offer[steady.Spread, steady.SpreadAnswer]("spread", "where every lure of the spread rides, with bands, and what to do", steady.SolveSpread),
		offerBox[steady.LineOutQuery, towline.LineOutAnswer]("lineout", "line out that brings a lure to a depth", steady.LineOutFor),
		offer[steady.DrailQuery, steady.DrailAnswer]("drail", "drail that brings a lure to a depth at its line out", steady.DrailFor),
		offer[steady.TouchSpeedQuery, steady.TouchSpeedAnswer]("touchspeed", "speed at which a line just touches bottom", steady.TouchSpeed),
		offer[steady.SlowestQuery, steady.SlowestAnswer]("slowest", "how slowly the boat may go before a line lies on the bottom, and which to take in first", steady.SlowestSpeed),
		offer[steady.CardQuery, steady.CardAnswer]("card", "one rod's depths by line out and weight, to print", steady.Card),
		offer[calibrate.Query, calibrate.Answer]("calibrate", "what this boat's own touches teach of its lines, and the touch to try next", calibrate.Calibrate),
		offer[calibrate.Held, calibrate.HeldAnswer]("sight", "the wire's angle by a phone held along it, from gravity as it felt it", calibrate.Sight),
		offer[plan.Query, plan.Answer]("plan", "a drail and the line out for every rod with what is aboard, and the order of letting out", plan.Plan),
		offer[rise.Query, rise.Answer]("rise", "what the sounder has read that the lures are still to come to, and what to do", rise.Ahead),
		offerBox[line.Tow, line.TowAnswer]("tow", "shape and pull of one fully specified line", line.Solve),
		offer[turn.Turn, turn.TurnAnswer]("turn", "where every lure of the spread rides in a steady turn, with bands, and which lines come closest", turn.SolveTurn),
		offer[turn.Tightest, turn.TightestAnswer]("tightest", "tightest turn in which no lure touches oftener than is accepted and the lines keep apart", turn.TightestTurn),
		offerBox[turn.Circle, turn.CircleAnswer]("circle", "shape and pull of one fully specified line towed round a circle", turn.SolveCircle),
		offer[motion.Settle, motion.SettleAnswer]("settle", "what a lure does in time after a change of speed, line out or course", motion.SettleRod),
		offer[current.Motion, current.MotionAnswer]("motion", "speed and course over ground from the latest fixes, how the speed swings, and by the current through the water", current.Moving),
		offer[current.Run, current.Answer]("drift", "speed through the water, set and drift from ground velocities in a turn or on legs", current.Drift),
		offer[current.Wheel, current.WheelAnswer]("wheel", "speed through the water by a paddle wheel, what it reads wrong, and the current with it", current.ToWheel),
		offer[current.Steer, current.SteerAnswer]("steer", "course to steer and speed made good in a current", current.ToSteer),
		offer[current.Way, current.WayAnswer]("way", "distance and bearing of a place, and what to steer for it in the current", current.ToGo),
		offer[overboard.Query, overboard.Answer]("overboard", "the way back to somebody who went over the side, and about where they are now: an estimate", overboard.Recover),
		offer[current.Known, current.KnownAnswer]("known", "the current as it is known now, from what was found and what is predicted", current.ToKnow),
		offer[current.Throttle, current.ThrottleAnswer]("throttle", "whether to go a little faster or slower, and by how much over ground", current.ToThrottle),
		offerWith[tide.Stations, tide.StationsAnswer]("stations", "the tide or current stations nearest to a place", tide.Nearest),
		offerWith[tide.Span, tide.Prediction]("tide", "high and low water and the heights between at a station: computed, not for navigation", tide.ToHeights),
		offerWith[tide.Span, tide.Prediction]("stream", "slacks, floods and ebbs and the current between at a station: computed, not for navigation", tide.ToCurrents),
		offerWith[day.Query, day.Answer]("day", "a day's tide, current and light at a place, how to run in it and how much line: not for navigation", day.Ahead),
		offerWith[day.Moments, day.Hours]("moments", "the hour of the tide, the current and the light of moments past or to come", day.Of),
		offerBox[sentence.Line, sentence.Sentence]("sentence", "what a line of NMEA 0183 says, in SI, or why nothing is taken from it", sentence.Read),
		offerBox[sounder.Query, sounder.Answer]("bottom", "the bottom from what a sounder read, without false echoes", sounder.Bottom),
		offer[light.Query, light.Answer]("light", "when sun and moon rise and set, dawn and dusk, and the moon's phase", light.At),
		offer[beat.Taps, beat.BeatAnswer]("beat", "beat of the rod tip from the times of taps, and how sure it is", beat.Beat),
		offer[beat.Pump, beat.PumpAnswer]("pump", "at which beat and speed a spoon works, from the skipper's own marks", beat.Pumping),
		offer[trade.ThumbQuery, trade.ThumbAnswer]("thumb", "what the rules of thumb say: common practice, no source", trade.Thumb),
		offer[seawater.Query, seawater.Answer]("water", "density and viscosity of sea water from salinity and temperature", seawater.Properties),
		offer[chill.IceQuery, chill.IceAnswer]("ice", "how much ice a day takes, the slush it makes, and how long it lasts", chill.ToIce),
		offer[chill.Cooling, chill.CoolingAnswer]("chill", "how long the thickest part of a fish takes to cool: an estimate", chill.ToCool),
		offer[chill.History, chill.HistoryAnswer]("keeping", "what the temperatures since its death have done to the keeping of a fish", chill.ToKeep),
		offer[produced.Query, produced.Answer]("produced", "what of a season's settings brought fish, and whether that is more than chance", produced.Read),
		offerBox[produced.Rates, produced.RatesAnswer]("rates", "rates of plain counts with exact intervals, and how they compare", produced.Compare),
		offer[formats.Query, formats.Answer]("formats", "notes as GPX, GeoJSON, CSV or iCalendar", formats.Write),
		offer[fish.Measures, fish.MeasuresAnswer]("weight", "weight, length and girth of a striped bass from one another, with their spread", fish.ToWeigh),
		offer[fish.Catch, fish.Judgement]("keep", "whether rules of size, season and bag allow to keep a fish, and how many more", fish.ToKeep),
		offer[codec.Nothing, fish.Book]("rules", "rules of size, season and bag to begin with: defaults of their dates, not the rules in force", rules),
		offer[codec.Nothing, gear.Catalogue]("gear", "the catalogue of wires, nylons, spoons, drails and places to begin with", catalogue),
	}
}

// Calculation is one thing the desk can answer.
type Calculation struct {
	Name, Summary string
	// Box says that only the boat's computer and the terminal have it.
	Box bool
}

// Desk is a counter with what it was given to answer from.
type Desk struct {
	// Stations of tide and current; without them their calculations say so.
	Stations tide.Tables
	// more answers what the desk has on the box alone; nil on the phone.
	more func(name string, request []byte, w *codec.Writer) error
}

// Box is the desk with all it can have, for the boat's computer and the terminal.
func Box(stations tide.Tables) Desk { return Desk{stations, handleBox} }

// Answer answers the request to the calculation of this name. The error is of type codec.Problems.
func (d Desk) Answer(name string, request []byte) (answer []byte, err error) {
	return guard(func(w *codec.Writer) error {
		if d.more != nil {
			if err := d.more(name, request, w); !isUnknown(err) {
				return err
			}
		}
		return handle(d.Stations, name, request, w)
	})
}

// offer puts a calculation on the counter: it sees to it that the types fit. Were it to answer as well, the module for
// the phone would have it once for each calculation, at half a kilobyte over the wire.
func offer[Request, Answer any, R interface {
	*Request
	codec.Decoder
}, A interface {
	*Answer
	codec.Encoder
}](name, summary string, _ func(Request) (Answer, error)) Calculation {
	return Calculation{name, summary, false}
}

// offerWith offers one that answers from the stations too.
func offerWith[Request, Answer any, R interface {
	*Request
	codec.Decoder
}, A interface {
	*Answer
	codec.Encoder
}](name, summary string, _ func(tide.Tables, Request) (Answer, error)) Calculation {
	return Calculation{name, summary, false}
}

// offerBox offers one that the module for the phone does without: what it is asked about is on the box, or nobody asks it on a
// phone.
func offerBox[Request, Answer any, R interface {
	*Request
	codec.Decoder
}, A interface {
	*Answer
	codec.Encoder
}](name, summary string, _ func(Request) (Answer, error)) Calculation {
	return Calculation{name, summary, true}
}

// guard is what was written. A fault of ours must not end the phone's worker, which answers the other calculations too.
func guard(write func(w *codec.Writer) error) (answer []byte, err error) {
	defer func() {
		if recover() != nil {
			answer, err = nil, codec.Fault("", "program", "cannot be calculated: a fault of this program, please report it with this request")
		}
	}()
	w := codec.NewWriter()
	if err := write(w); err != nil {
		return nil, codec.ProblemsOf(err)
	}
	return w.Bytes()
}

// unknown is the error of a name that no calculation has.
func unknown() error {
	return codec.Problems{{Code: codec.CodeUnknown, Text: "there is no calculation of this name"}}
}

// isUnknown says whether the error is that of unknown.
func isUnknown(err error) bool {
	p := codec.ProblemsOf(err)
	return len(p) == 1 && p[0].Code == codec.CodeUnknown && p[0].Field == ""
}

// catalogue is gear's, asked for with nothing.
func catalogue(codec.Nothing) (gear.Catalogue, error) { return gear.Default(), nil }

// rules are fish's, asked for with nothing.
func rules(codec.Nothing) (fish.Book, error) { return fish.Default(), nil }
