// Package desk is the counter where calculations are asked for by name: JSON in, JSON out. Phone, terminal and
// tests all come here.
package desk

import (
	"wirewake/calc/cadence"
	"wirewake/calc/codec"
	"wirewake/calc/current"
	"wirewake/calc/gear"
	"wirewake/calc/seawater"
	"wirewake/calc/towline"
	"wirewake/calc/trade"
)

//go:generate go run wirewake/calc/codec/gen

// calculations is everything the desk can answer. What crosses the counter is generated from this list, which
// calc/codec/gen reads as text; so name, summary and the two types are written out here.
func calculations() []calculation {
	return []calculation{
		offer[towline.Spread, towline.SpreadAnswer]("spread", "where every lure of the spread rides, with bands, and what to do", towline.SolveSpread),
		offer[towline.LineOutQuery, towline.LineOutAnswer]("lineout", "line out that brings a lure to a depth", towline.LineOutFor),
		offer[towline.DrailQuery, towline.DrailAnswer]("drail", "drail that brings a lure to a depth at its line out", towline.DrailFor),
		offer[towline.TouchSpeedQuery, towline.TouchSpeedAnswer]("touchspeed", "speed at which a line just touches bottom", towline.TouchSpeed),
		offer[towline.CardQuery, towline.CardAnswer]("card", "one rod's depths by line out and weight, to print", towline.Card),
		offer[towline.Tow, towline.TowAnswer]("tow", "shape and pull of one fully specified line", towline.Solve),
		offer[current.Motion, current.MotionAnswer]("motion", "speed and course over ground from the latest fixes, and how the speed swings", current.Moving),
		offer[current.Run, current.Answer]("drift", "speed through the water, set and drift from ground velocities in a turn or on legs", current.Drift),
		offer[current.Steer, current.SteerAnswer]("steer", "course to steer and speed made good in a current", current.ToSteer),
		offer[current.Throttle, current.ThrottleAnswer]("throttle", "whether to go a little faster or slower, and by how much over ground", current.ToThrottle),
		offer[cadence.Taps, cadence.BeatAnswer]("beat", "beat of the rod tip from the times of taps, and how sure it is", cadence.Beat),
		offer[cadence.Pump, cadence.PumpAnswer]("pump", "at which beat and speed a spoon works, from the skipper's own marks", cadence.Pumping),
		offer[trade.ThumbQuery, trade.ThumbAnswer]("thumb", "what the rules of thumb say: common practice, no source", trade.Thumb),
		offer[seawater.Query, seawater.Answer]("water", "density and viscosity of sea water from salinity and temperature", seawater.Properties),
		offer[codec.Nothing, gear.Catalogue]("gear", "the catalogue of wires, nylons, spoons, drails and places to begin with", catalogue),
	}
}

// Calculation is one thing the desk can answer.
type Calculation struct{ Name, Summary string }

// List is every calculation, in the order to show them.
func List() []Calculation {
	var list []Calculation
	for _, c := range calculations() {
		list = append(list, c.Calculation)
	}
	return list
}

// Answer answers the request to the calculation of this name. The error is of type codec.Problems.
func Answer(name string, request []byte) (answer []byte, err error) {
	for _, c := range calculations() {
		if c.Name == name {
			return c.answer(request)
		}
	}
	return nil, codec.Problems{{Code: codec.CodeUnknown, Text: "there is no calculation of this name"}}
}

// calculation is one with how it is answered.
type calculation struct {
	Calculation
	handle func(request []byte, w *codec.Writer) error
}

// offer puts a calculation on the counter.
func offer[Request, Answer any, R interface {
	*Request
	codec.Decoder
}, A interface {
	*Answer
	codec.Encoder
}](name, summary string, calculate func(Request) (Answer, error)) calculation {
	return calculation{Calculation{name, summary}, func(in []byte, w *codec.Writer) error {
		var request Request
		if err := codec.Decode(in, R(&request)); err != nil {
			return err
		}
		answer, err := calculate(request)
		if err == nil {
			A(&answer).Encode(w) // not by interface: that would put every Encode into the module for the phone
		}
		return err
	}}
}

// answer answers a request.
func (c calculation) answer(request []byte) (answer []byte, err error) {
	// A fault of ours must not end the phone's worker, which answers the other calculations too.
	defer func() {
		if recover() != nil {
			answer, err = nil, codec.Fault("", "cannot be calculated: a fault of this program, please report it with this request")
		}
	}()
	w := codec.NewWriter()
	if err := c.handle(request, w); err != nil {
		return nil, codec.ProblemsOf(err)
	}
	return w.Bytes()
}

// catalogue is gear's, asked for with nothing.
func catalogue(codec.Nothing) (gear.Catalogue, error) { return gear.Default(), nil }
