// Package codec carries the requests and answers of the calculations between Go values and JSON, and checks
// them. It does without reflection, fmt, encoding/json, time and strings, so that the module for the phone stays
// small. The methods of each type are written by tools/codecgen from the type's Go source; this package is what
// they call.
//
// # Tags
//
// The tags of a field say all there is to say about it; Go code, checks and TypeScript follow from them.
//
//	json:"name"        its name; every field needs one
//	unit:"m/s"         its unit, for problems and documentation
//	range:"min,max"    least and greatest value, both allowed; on a slice: of each element (requests only)
//	default:"1.5"      value when absent
//	optional:"yes"     may be absent, then stays zero: for slices and pointers
//	count:"min,max"    least and greatest number of elements; every slice in a request needs one
//	chars:"min,max"    least and greatest number of characters; every string in a request needs one
//	digits:"6"         significant digits written; without it a number is written so that it reads back exactly
//
// A field with neither default nor optional must be there. The exception is a struct: when absent it is read
// as {}, so that its own defaults, or its own missing fields, count. null is the same as absent.
//
// Kinds of fields: float64, int, bool, string, a string type with its constants (only these are allowed), a
// struct or a pointer to one, and slices of these; in answers also *codec.Problem. Types may be those of another
// package under calc.
//
// # JSON
//
// Reading follows RFC 8259 and is stricter in this: at most MaxBytes of input and MaxDepth levels, valid UTF-8
// without lone surrogates, numbers within the range of float64, whole numbers without point or exponent, no
// unknown or repeated names, names in exact case. It goes on after a fault that leaves the rest readable, so
// that one answer names up to MaxProblems of them.
package codec

// The bounds of what is read.
const (
	MaxBytes    = 16 << 20 // a season of a hundred long trips has two million
	MaxDepth    = 32
	MaxProblems = 20
)

// Decoder is a type that can be read and checked; gen writes both methods for every type used in a request.
type Decoder interface {
	Decode(r *Reader)
	CheckFields(c *Checker)
}

// Encoder is a type that can be written; gen writes the method for every type used in a request or an answer.
type Encoder interface {
	Encode(w *Writer)
}

// Decode reads v from JSON and checks it. The error is of type Problems.
func Decode(in []byte, v Decoder) error {
	r := NewReader(in)
	v.Decode(r)
	r.End()
	if r.dead {
		return r.found.err()
	}
	c := Checker{trail{found: r.found}}
	v.CheckFields(&c)
	return c.found.err()
}

// Encode writes v as JSON. The error is of type Problems; it is given when a number is not finite.
func Encode(v Encoder) ([]byte, error) {
	w := NewWriter()
	v.Encode(w)
	return w.Bytes()
}

// Nothing is the request of a calculation that needs none: {}.
type Nothing struct{}

// Decode reads an empty object.
func (*Nothing) Decode(r *Reader) {
	for o := r.Object(nil, 0); r.Next(&o); {
	}
}

// CheckFields finds nothing to check.
func (*Nothing) CheckFields(*Checker) {}

// Encode writes an empty object.
func (*Nothing) Encode(w *Writer) {
	w.Open()
	w.Close()
}
