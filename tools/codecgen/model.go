package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// house is all that is generated from.
type house struct {
	packages []*pkg // codec first, then in the order of the list
	entries  []entry
	paths    map[string]string // of what the desk imports, by name
}

// entry is a calculation of the desk's list.
type entry struct {
	name, summary   string
	request, answer typeName
	by              string // the function, as written in the list
	with            bool   // it takes the stations too
	box             bool   // only the box has it
}

// onPhone says whether a calculation of the phone has to do with types of a package.
func (h *house) onPhone(p *pkg) bool {
	for _, e := range h.entries {
		for _, t := range []typeName{e.request, e.answer} {
			if !e.box && h.reaches(t.pkg, p) {
				return true
			}
		}
	}
	return false
}

// reaches says whether the package of this name is p, or has fields of p's types, or of packages that have.
func (h *house) reaches(name string, p *pkg) bool {
	i := slices.IndexFunc(h.packages, func(q *pkg) bool { return q.name == name })
	return name == p.name || slices.ContainsFunc(h.packages[i].others, func(q *pkg) bool { return h.reaches(q.name, p) })
}

// typeName is a type in a package.
type typeName struct{ pkg, name string }

// pkg is a package with types that travel.
type pkg struct {
	name    string
	path    string            // from calc, such as towline/line
	paths   map[string]string // of the packages of ours that its source imports, by name
	structs map[string]*structType
	enums   map[string]*enum
	order   []string // names of structs and enums as in the source
	others  []*pkg   // of which it has fields
}

// subject is the first folder of the path: packages of one subject have their types in one file of TypeScript.
func (p *pkg) subject() string {
	subject, _, _ := strings.Cut(p.path, "/")
	return subject
}

// home is the package that a type belongs to, and the type's name there; of is as the package's source has it.
func (p *pkg) home(of string) (*pkg, string) {
	if other, name, ok := strings.Cut(of, "."); ok {
		for _, q := range p.others {
			if q.name == other {
				return q, name
			}
		}
	}
	return p, of
}

func (p *pkg) structOf(of string) *structType {
	q, name := p.home(of)
	return q.structs[name]
}

func (p *pkg) enumOf(of string) *enum {
	q, name := p.home(of)
	return q.enums[name]
}

// structType is a struct whose fields travel.
type structType struct {
	name, doc           string
	fields              []field
	inRequest, inAnswer bool
}

// enum is a string type with constants.
type enum struct {
	name, doc string
	values    []string
}

// kind is how a value is read and written.
type kind int

const (
	kindFloat kind = iota
	kindInt
	kindBool
	kindString
	kindEnum
	kindStruct
	kindPointer // to a struct
	kindProblem // pointer to codec.Problem
	kindNumber  // pointer to float64, in codec only
	kindList
)

// field is a field of a struct.
type field struct {
	goName, name, doc string
	kind              kind
	elem              kind   // of a list
	of                string // name of the struct or enum, as in the source
	unit              string
	limits            *limits // of the number, or of each in a list
	count             *limits
	chars             *limits
	hasDefault        bool
	def               string
	optional          bool
	digits            int
}

// limits are least and greatest as written in the tag.
type limits struct{ min, max string }

// parseLimits reads "min,max".
func parseLimits(tag string, whole bool) (*limits, error) {
	low, high, ok := strings.Cut(tag, ",")
	if !ok {
		return nil, fmt.Errorf("%q is not min,max", tag)
	}
	var v [2]float64
	for i, s := range []string{low, high} {
		var err error
		if v[i], err = strconv.ParseFloat(s, 64); err != nil || math.IsInf(v[i], 0) || math.IsNaN(v[i]) {
			return nil, fmt.Errorf("%q is not min,max", tag)
		}
		if whole && v[i] != math.Trunc(v[i]) {
			return nil, fmt.Errorf("%q must be whole numbers", tag)
		}
	}
	if v[0] > v[1] {
		return nil, fmt.Errorf("%q: min is above max", tag)
	}
	return &limits{low, high}, nil
}

// holds says whether the number is within the limits.
func (l *limits) holds(number string) bool {
	v, err := strconv.ParseFloat(number, 64)
	low, _ := strconv.ParseFloat(l.min, 64)
	high, _ := strconv.ParseFloat(l.max, 64)
	return err == nil && low <= v && v <= high
}

// checkTags says what in the types of requests and answers cannot be.
func (p *pkg) checkTags() error {
	if p.name == "codec" {
		return nil // written by hand
	}
	for _, s := range p.structs {
		if s.inRequest {
			if err := p.checkRequest(s); err != nil {
				return err
			}
		}
		if s.inAnswer {
			if err := s.checkAnswer(); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkRequest says what in a request's struct is not bounded or not possible.
func (p *pkg) checkRequest(s *structType) error {
	if len(s.fields) > 64 {
		return fmt.Errorf("%s has more than 64 fields", s.name)
	}
	for _, f := range s.fields {
		element := f.kind
		if f.kind == kindList {
			element = f.elem
		}
		var wrong string
		switch {
		case f.kind == kindProblem || f.kind == kindNumber:
			wrong = "has a type that only an answer can have"
		case f.kind == kindList && f.count == nil:
			wrong = "needs a count"
		case element == kindString && f.chars == nil:
			wrong = "needs chars"
		case f.kind == kindPointer && !f.optional:
			wrong = "is a pointer, so must be optional"
		case f.optional && f.kind != kindPointer && f.kind != kindList:
			wrong = "can have a default instead of optional"
		case f.hasDefault && !p.canBe(f, f.def):
			wrong = "cannot have the default " + strconv.Quote(f.def)
		case s.inAnswer && f.hasDefault:
			wrong = "has a default, but the type is also part of an answer"
		}
		if wrong != "" {
			return fmt.Errorf("%s.%s %s", s.name, f.goName, wrong)
		}
	}
	return nil
}

// canBe says whether the field can have this default.
func (p *pkg) canBe(f field, def string) bool {
	switch f.kind {
	case kindFloat:
		_, err := strconv.ParseFloat(def, 64)
		return err == nil && (f.limits == nil || f.limits.holds(def))
	case kindInt:
		_, err := strconv.Atoi(def)
		return err == nil && (f.limits == nil || f.limits.holds(def))
	case kindBool:
		return def == "true" || def == "false"
	case kindString:
		return f.chars == nil || f.chars.holds(strconv.Itoa(utf8.RuneCountInString(def)))
	case kindEnum:
		return slices.Contains(p.enumOf(f.of).values, def)
	}
	return false
}

// checkAnswer says what in an answer's struct has no meaning there.
func (s *structType) checkAnswer() error {
	for _, f := range s.fields {
		if !s.inRequest && (f.limits != nil || f.count != nil || f.chars != nil || f.hasDefault) {
			return fmt.Errorf("%s.%s has limits or a default, but is only in answers", s.name, f.goName)
		}
	}
	return nil
}
