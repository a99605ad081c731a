// Package problem is what the server answers when a request fails: a status, a code for the program
// and a whole sentence for the person. The protocol document lists the codes.
package problem

import "time"

// Problem is an answer that is not a success. As an error it is its sentence.
type Problem struct {
	Status int
	// Code says to a program what is wrong.
	Code string
	// Text says to a person what is wrong and what to do.
	Text string
	// RetryAfter is how long to wait before asking again; 0 if that is no matter of time.
	RetryAfter time.Duration
	// Have is how much of a photo is there, where that is what went wrong.
	Have *int64
}

func (p *Problem) Error() string { return p.Text }

// Problems that more than one part of the server answers with.
var (
	NotAboard = &Problem{Status: 401, Code: "aboard", Text: "This phone is not aboard. Ask the skipper for an invitation."}
	NotYours  = &Problem{Status: 403, Code: "role", Text: "Only the skipper may do this."}
	Nothing   = &Problem{Status: 404, Code: "nothing", Text: "There is nothing here for this phone."}
	NoStore   = &Problem{Status: 503, Code: "store",
		Text: "The boat's server cannot use its store now; its log says why. All that is on this phone stays here and is sent later."}
	Full = &Problem{Status: 507, Code: "full",
		Text: "The disk of the boat's server is full. Make room on it; all that is on this phone stays here and is sent later."}
	Allotted = &Problem{Status: 507, Code: "full",
		Text: "This boat has as much in its harbour as it may. Who keeps the harbour can allow more; all that is on this phone stays here and is sent later."}
)

// Form is the problem of a request that is not as the protocol document says.
func Form(text string) *Problem { return &Problem{Status: 400, Code: "form", Text: text} }

// Because is the problem with what led to it, which is for the log and not for the answer.
func (p *Problem) Because(cause error) error { return &because{p, cause} }

type because struct {
	*Problem
	cause error
}

func (b *because) Error() string   { return b.Problem.Text + " " + b.cause.Error() }
func (b *because) Unwrap() []error { return []error{b.Problem, b.cause} }
