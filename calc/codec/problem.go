package codec

// Code says what sort of problem it is.
type Code string

// The sorts of problems.
const (
	// CodeSyntax: not JSON, or JSON this package does not take.
	CodeSyntax Code = "syntax"
	// CodeMissing: a field that must be there is not.
	CodeMissing Code = "missing"
	// CodeUnknown: a field, a choice or a calculation of this name does not exist.
	CodeUnknown Code = "unknown"
	// CodeType: a value of the wrong type.
	CodeType Code = "type"
	// CodeRange: a number outside Min to Max.
	CodeRange Code = "range"
	// CodeCount: too few or too many elements; Min and Max say how many.
	CodeCount Code = "count"
	// CodeLength: too few or too many characters; Min and Max say how many.
	CodeLength Code = "length"
	// CodePhysics: each value is allowed, but together they have no meaning or no solution.
	CodePhysics Code = "physics"
)

// Problem is one thing wrong with a request, and what to do about it.
type Problem struct {
	// Field is where: a path such as "rods[2].lineOut"; empty for the request as a whole.
	Field string `json:"field"`
	Code  Code   `json:"code"`
	// ID says which one it is, where Code tells only the sort: words in another language are found by it.
	ID string `json:"id" optional:"yes"`
	// Text says what to do, to be read after the field's name: "must be from 0 to 10 m/s".
	Text string `json:"text"`
	// Min is the least allowed, where there is a limit.
	Min *float64 `json:"min" optional:"yes"`
	// Max is the greatest allowed, where there is a limit.
	Max *float64 `json:"max" optional:"yes"`
	// Unit of Min and Max.
	Unit string `json:"unit" optional:"yes"`
}

// Encode writes the problem as JSON.
func (p *Problem) Encode(w *Writer) {
	w.Open()
	w.Text("field", p.Field)
	w.Text("code", string(p.Code))
	if p.ID != "" {
		w.Text("id", p.ID)
	}
	w.Text("text", p.Text)
	if p.Min != nil {
		w.Float("min", *p.Min)
	}
	if p.Max != nil {
		w.Float("max", *p.Max)
	}
	if p.Unit != "" {
		w.Text("unit", p.Unit)
	}
	w.Close()
}

// Problems is all that was found wrong, as an error.
type Problems []Problem

// Error gives one line for each problem.
func (ps Problems) Error() string {
	var b []byte
	for i, p := range ps {
		if i > 0 {
			b = append(b, '\n')
		}
		if p.Field != "" {
			b = append(b, p.Field...)
			b = append(b, ' ')
		}
		b = append(b, p.Text...)
	}
	return string(b)
}

// Encode writes the problems as a JSON list.
func (ps Problems) Encode(w *Writer) {
	w.OpenList("")
	for i := range ps {
		ps[i].Encode(w)
	}
	w.CloseList()
}

// err is the problems as an error, nil when there are none.
func (ps Problems) err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

// Fault is the error of a calculation that has no answer: what is wrong with the field, by its id and in English.
//
//go:noinline
func Fault(field, id, text string) error {
	return Problems{{Field: field, Code: CodePhysics, ID: id, Text: text}}
}

// ProblemsOf is the problems in err; an error of another type becomes a single problem.
func ProblemsOf(err error) Problems {
	if err == nil {
		return nil
	}
	if ps, ok := err.(Problems); ok {
		return ps
	}
	return Problems{{Code: CodePhysics, Text: err.Error()}}
}
