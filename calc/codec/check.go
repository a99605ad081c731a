package codec

import (
	"strings"
	"unicode/utf8"
)

// Checker checks values against the limits in their tags. Every method names the field and gives its value.
type Checker struct{ trail }

// Check checks v as reading it would, for requests made in Go. The error is of type Problems.
func Check(v interface{ CheckFields(*Checker) }) error {
	var c Checker
	v.CheckFields(&c)
	return c.found.err()
}

// Float checks that v is a number from min to max.
func (c *Checker) Float(name string, v, min, max float64, unit string) {
	if min <= v && v <= max {
		return
	}
	c.Enter(name)
	c.limits(CodeRange, "must be ", min, max, unit, "")
	c.Leave()
}

// Finite checks that v is a number.
func (c *Checker) Finite(name string, v float64) {
	if v-v == 0 {
		return
	}
	c.Enter(name)
	c.problem(CodeRange, "must be a finite number")
	c.Leave()
}

// Floats checks that each of vs is a number from min to max.
func (c *Checker) Floats(name string, vs []float64, min, max float64, unit string) {
	for i, v := range vs {
		if min <= v && v <= max {
			continue
		}
		c.Enter(name)
		c.EnterAt(i)
		c.limits(CodeRange, "must be ", min, max, unit, "")
		c.Leave()
		c.Leave()
	}
}

// FiniteAll checks that each of vs is a number.
func (c *Checker) FiniteAll(name string, vs []float64) {
	for i, v := range vs {
		if v-v == 0 {
			continue
		}
		c.Enter(name)
		c.EnterAt(i)
		c.problem(CodeRange, "must be a finite number")
		c.Leave()
		c.Leave()
	}
}

// Int checks that v is from min to max.
func (c *Checker) Int(name string, v, min, max int, unit string) {
	if min <= v && v <= max {
		return
	}
	c.Enter(name)
	c.limits(CodeRange, "must be ", float64(min), float64(max), unit, "")
	c.Leave()
}

// Count checks that a list has from min to max elements.
func (c *Checker) Count(name string, n, min, max int) {
	if min <= n && n <= max {
		return
	}
	c.Enter(name)
	c.count(min, max)
	c.Leave()
}

// Chars checks that v has from min to max characters.
func (c *Checker) Chars(name, v string, min, max int) {
	if n := utf8.RuneCountInString(v); min <= n && n <= max {
		return
	}
	c.Enter(name)
	c.limits(CodeLength, "must have ", float64(min), float64(max), "", " characters")
	c.Leave()
}

// OneOf checks that v is one of the choices.
func (c *Checker) OneOf(name, v string, choices ...string) {
	for _, choice := range choices {
		if v == choice {
			return
		}
	}
	c.Enter(name)
	c.problem(CodeUnknown, `must be one of "`+strings.Join(choices, `", "`)+`"`)
	c.Leave()
}
