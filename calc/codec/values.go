package codec

import (
	"math/bits"
	"strconv"
)

// Float reads a number.
func (r *Reader) Float() float64 {
	if c := r.peek(); c != '-' && (c < '0' || c > '9') {
		r.wrong("a number")
		return 0
	}
	return r.value(r.number())
}

// Int reads a whole number.
func (r *Reader) Int() int {
	if c := r.peek(); c != '-' && (c < '0' || c > '9') {
		r.wrong("a whole number")
		return 0
	}
	number := r.number()
	if r.dead {
		return 0
	}
	v, err := strconv.Atoi(string(number))
	if err != nil {
		r.problem(CodeType, "must be a whole number, without point or exponent")
		return 0
	}
	return v
}

// Bool reads true or false.
func (r *Reader) Bool() bool {
	r.peek()
	switch {
	case r.word("true"):
		return true
	case !r.word("false"):
		r.wrong("true or false")
	}
	return false
}

// Text reads a string.
func (r *Reader) Text() string {
	if r.peek() != '"' {
		r.wrong("text in double quotes")
		return ""
	}
	return string(r.text())
}

// Object is an object being read.
type Object struct {
	// Field is the index of the name whose value is to be read now.
	Field    int
	names    []string
	required uint64
	named    uint64 // bit i: name i has come
	given    uint64 // bit i: with a value
	inside   bool   // the value of Field is being read
	first    bool
	done     bool
}

// Object begins to read an object with fields of these names, of which bit i of required says that name i
// must come.
func (r *Reader) Object(names []string, required uint64) Object {
	o := Object{names: names, required: required, first: true, Field: -1}
	switch {
	case r.absent:
		r.absent = false
		r.missing(&o)
		o.done = true
	case r.peek() != '{':
		r.wrong("an object in braces")
		o.done = true
	default:
		r.open()
	}
	return o
}

// Next goes to the next field that has a value; its value must then be read.
func (r *Reader) Next(o *Object) bool {
	if o.inside {
		r.Leave()
		o.inside = false
	}
	for !o.done && r.separated(o.first, '}') {
		o.first = false
		name := r.name()
		if r.dead {
			return false
		}
		i := o.find(name)
		if i < 0 {
			r.unknown(name, o.names)
			continue
		}
		o.Field = i
		bit := uint64(1) << i
		r.Enter(o.names[i])
		if o.named&bit != 0 {
			r.problem(CodeSyntax, "is given twice")
			r.skip()
			r.Leave()
			continue
		}
		o.named |= bit
		r.peek()
		if r.word("null") {
			r.Leave()
			continue
		}
		o.given |= bit
		o.inside = true
		return true
	}
	if !o.done && !r.dead {
		o.done = true
		r.missing(o)
	}
	return false
}

// find is the index of the name, -1 if it is none. Fields mostly come in order, so it looks after the last first.
func (o *Object) find(name []byte) int {
	i := o.Field
	for range o.names {
		if i++; i == len(o.names) {
			i = 0
		}
		if string(name) == o.names[i] {
			return i
		}
	}
	return -1
}

// Given says whether the field of this index has come with a value.
func (o *Object) Given(i int) bool { return o.given>>i&1 != 0 }

// missing notes the fields that should have come.
func (r *Reader) missing(o *Object) {
	for left := o.required &^ o.given; left != 0; left &= left - 1 {
		r.Enter(o.names[bits.TrailingZeros64(left)])
		r.problem(CodeMissing, "is missing")
		r.Leave()
	}
}

// Absent reads v from {} because the field of this name has not come.
func (r *Reader) Absent(name string, v interface{ Decode(*Reader) }) {
	if r.dead {
		return
	}
	r.Enter(name)
	r.absent = true
	v.Decode(r)
	r.Leave()
}

// unknown notes a field that does not exist, and steps over it.
func (r *Reader) unknown(name []byte, names []string) {
	text := "is not known here"
	if meant := nearest(string(name), names); meant != "" {
		text += `; did you mean "` + meant + `"?`
	}
	r.Enter(shorten(string(name)))
	r.problem(CodeUnknown, text)
	r.skip()
	r.Leave()
}

// List is a list being read.
type List struct {
	n        int
	min, max int
	done     bool
}

// List begins to read a list of min to max elements.
func (r *Reader) List(min, max int) List {
	l := List{n: -1, min: min, max: max}
	if r.peek() != '[' {
		r.wrong("a list in brackets")
		l.done = true
		return l
	}
	r.open()
	return l
}

// More goes to the next element; it must then be read. It steps over elements after the last that is allowed.
func (r *Reader) More(l *List) bool {
	if l.n >= 0 && !l.done {
		r.Leave()
	}
	for !l.done && r.separated(l.n < 0, ']') {
		l.n++
		if l.n < l.max {
			r.EnterAt(l.n)
			return true
		}
		if l.n == l.max {
			r.add(count(l.min, l.max))
		}
		r.skip()
	}
	l.done = true
	return false
}
