package codec

import "unicode/utf8"

// Checker checks values against the limits in their tags. Every method is given the field's name, empty for the
// element of a list that has been entered, and its value. As with Writer, they are kept from being inlined.
type Checker struct{ trail }

// note notes a problem of a field.
func (c *Checker) note(name string, p Problem) {
	if name != "" {
		c.Enter(name)
		defer c.Leave()
	}
	c.add(p)
}

// Check checks v as reading it would, for requests made in Go. The error is of type Problems.
func Check(v interface{ CheckFields(*Checker) }) error {
	var c Checker
	v.CheckFields(&c)
	return c.found.err()
}

// Float checks that v is a number from min to max.
//
//go:noinline
func (c *Checker) Float(name string, v, min, max float64, unit string) {
	if min <= v && v <= max {
		return
	}
	c.note(name, limits(CodeRange, "must be ", min, max, unit, ""))
}

// Finite checks that v is a number.
//
//go:noinline
func (c *Checker) Finite(name string, v float64) {
	if finite(v) {
		return
	}
	c.note(name, Problem{Code: CodeRange, Text: "must be a finite number"})
}

// Floats checks that each of vs is a number from min to max.
func (c *Checker) Floats(name string, vs []float64, min, max float64, unit string) {
	c.Enter(name)
	for i, v := range vs {
		if min <= v && v <= max {
			continue
		}
		c.EnterAt(i)
		c.add(limits(CodeRange, "must be ", min, max, unit, ""))
		c.Leave()
	}
	c.Leave()
}

// FiniteAll checks that each of vs is a number.
func (c *Checker) FiniteAll(name string, vs []float64) {
	c.Enter(name)
	for i, v := range vs {
		c.EnterAt(i)
		c.Finite("", v)
		c.Leave()
	}
	c.Leave()
}

// Int checks that v is from min to max.
//
//go:noinline
func (c *Checker) Int(name string, v, min, max int, unit string) {
	if min <= v && v <= max {
		return
	}
	c.note(name, limits(CodeRange, "must be ", float64(min), float64(max), unit, ""))
}

// Count checks that a list has from min to max elements.
//
//go:noinline
func (c *Checker) Count(name string, n, min, max int) {
	if min <= n && n <= max {
		return
	}
	c.note(name, count(min, max))
}

// Chars checks that v has from min to max characters.
//
//go:noinline
func (c *Checker) Chars(name, v string, min, max int) {
	if n := utf8.RuneCountInString(v); min <= n && n <= max {
		return
	}
	c.note(name, limits(CodeLength, "must have ", float64(min), float64(max), "", " characters"))
}

// OneOf checks that v is one of the choices.
func (c *Checker) OneOf(name, v string, choices ...string) {
	for _, choice := range choices {
		if v == choice {
			return
		}
	}
	text := "must be one of"
	for i, choice := range choices {
		if i > 0 {
			text += ","
		}
		text += ` "` + choice + `"`
	}
	c.note(name, Problem{Code: CodeUnknown, Text: text})
}
