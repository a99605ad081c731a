package codec

import "strconv"

// trail knows which field is being looked at, and gathers the problems.
type trail struct {
	steps []step
	found Problems
}

// step is a field's name, or without one an index.
type step struct {
	name  string
	index int
}

// Enter goes to a field.
//
//go:noinline
func (t *trail) Enter(name string) { t.steps = append(t.steps, step{name: name}) }

// EnterAt goes to an element of a list.
//
//go:noinline
func (t *trail) EnterAt(index int) { t.steps = append(t.steps, step{index: index}) }

// Leave goes back to what holds the field or element.
//
//go:noinline
func (t *trail) Leave() { t.steps = t.steps[:len(t.steps)-1] }

// path is the place as in rods[2].lineOut.
func (t *trail) path() string {
	var b []byte
	for _, s := range t.steps {
		switch {
		case s.name == "":
			b = append(b, '[')
			b = strconv.AppendInt(b, int64(s.index), 10)
			b = append(b, ']')
		case !plain(s.name):
			b = append(b, '[')
			b = appendText(b, s.name)
			b = append(b, ']')
		default:
			if len(b) > 0 {
				b = append(b, '.')
			}
			b = append(b, s.name...)
		}
	}
	return string(b)
}

// plain says whether the name can stand in a path without quotes.
func plain(name string) bool {
	for _, c := range []byte(name) {
		if c != '_' && (c < '0' || c > '9') && (c < 'A' || c > 'Z') && (c < 'a' || c > 'z') {
			return false
		}
	}
	return true
}

// add notes a problem here, unless this field or what holds it has one already: what follows from a fault is
// not a second fault.
func (t *trail) add(p Problem) {
	p.Field = t.path()
	if len(t.found) >= MaxProblems {
		return
	}
	for _, q := range t.found {
		if within(p.Field, q.Field) {
			return
		}
	}
	t.found = append(t.found, p)
}

// within says whether the path is that of the field or leads into it.
func within(path, field string) bool {
	if len(path) <= len(field) || field == "" {
		return path == field || field == ""
	}
	next := path[len(field)]
	return path[:len(field)] == field && (next == '.' || next == '[')
}

// problem notes one without limits.
func (t *trail) problem(code Code, text string) { t.add(Problem{Code: code, Text: text}) }

// limits is a problem with limits. Its text is before + "from min to max" + after.
func limits(code Code, before string, min, max float64, unit, after string) Problem {
	b := append([]byte(before), "from "...)
	b = strconv.AppendFloat(b, min, 'g', -1, 64)
	b = append(b, " to "...)
	b = strconv.AppendFloat(b, max, 'g', -1, 64)
	if unit != "" {
		b = append(b, ' ')
		b = append(b, unit...)
	}
	b = append(b, after...)
	return Problem{Code: code, Text: string(b), Min: &min, Max: &max, Unit: unit}
}

// count is the problem of a wrong number of elements.
func count(min, max int) Problem {
	return limits(CodeCount, "must have ", float64(min), float64(max), "", " entries")
}
