package main

import (
	"fmt"
	"strconv"
	"strings"

	"wirewake/server/log/contract"
)

// field adds what a field of a kind may be and what not, at its bounds and beyond each.
func (l *list) field(kind, name string, f contract.Field) {
	sets := func(code, what, value string) { l.sets(code, kind, name, what, value) }
	if name != "struck" {
		sets(good, "null", "null")
	} else {
		sets(form, "null", "null")
	}
	switch f.Is {
	case "number", "whole":
		least, most := spelt(f.Min), spelt(f.Max)
		sets(good, "least", least)
		sets(good, "most", most)
		sets(form, "below the least", spelt(f.Min-1))
		sets(form, "beyond the most", spelt(f.Max+1))
		sets(form, "far beyond", "1e300")
		sets(form, "far below", "-1e300")
		sets(form, "a text", `"5"`)
		sets(form, "a list", "["+least+"]")
		if f.Is == "whole" {
			sets(form, "a fraction", spelt(f.Min+0.5))
		} else {
			sets(good, "a fraction", spelt(f.Min+0.5))
		}
	case "time":
		sets(good, "least", fmt.Sprint(contract.The.Entry.Time.Min))
		sets(good, "most", fmt.Sprint(contract.The.Entry.Time.Max))
		sets(form, "below the least", fmt.Sprint(contract.The.Entry.Time.Min-1))
		sets(form, "beyond the most", fmt.Sprint(contract.The.Entry.Time.Max+1))
		sets(form, "far beyond", "1e300")
		sets(form, "a fraction", "0.5")
		sets(form, "a text", `"2031-06-01"`)
	case "flag":
		sets(good, "true", "true")
		sets(good, "false", "false")
		sets(form, "a number", "1")
		sets(form, "a text", `"yes"`)
	case "line", "text":
		sets(good, "empty", `""`)
		sets(good, "longest", quoted(strings.Repeat("x", f.Most)))
		sets(form, "too long", quoted(strings.Repeat("x", f.Most+1)))
		sets(form, "a number", "5")
		sets(form, "a list", `["x"]`)
		if f.Is == "line" {
			sets(form, "a line break", `"a\nb"`)
			sets(form, "turned round", `"a\u202eb"`)
			sets(form, "nothing to be seen", `"a\u200bb"`)
		} else {
			sets(good, "a line break", `"a\nb\tc"`)
			sets(form, "turned round", `"a\u202eb"`)
			sets(good, "a joiner, as in an emoji", `"\ud83d\udc69\u200d\ud83d\ude80"`)
		}
	case "lines":
		sets(good, "none", "[]")
		sets(good, "the most", "["+strings.TrimSuffix(strings.Repeat(`"x",`, f.Items), ",")+"]")
		sets(form, "too many", "["+strings.TrimSuffix(strings.Repeat(`"x",`, f.Items+1), ",")+"]")
		sets(good, "longest", "["+quoted(strings.Repeat("x", f.Most))+"]")
		sets(form, "too long", "["+quoted(strings.Repeat("x", f.Most+1))+"]")
		sets(form, "a number in it", `["x", 5]`)
		sets(form, "a text", `"x"`)
		sets(form, "an object", `{"a": "x"}`)
	case "sha256":
		sets(good, "sound", quoted(strings.Repeat("0a", 32)))
		sets(form, "in upper case", quoted(strings.Repeat("0A", 32)))
		sets(form, "too short", quoted(strings.Repeat("a", 63)))
		sets(form, "too long", quoted(strings.Repeat("a", 65)))
		sets(form, "no digits", quoted(strings.Repeat("xy", 32)))
		sets(form, "a number", "5")
	case "record":
		sets(good, "sound", quoted(record))
		sets(form, "in upper case", quoted(strings.ToUpper(record)))
		sets(form, "zeros", `"00000000-0000-0000-0000-000000000000"`)
		sets(form, "a word", `"x"`)
	case "fields":
		sets(good, "one", `{"fish": "striped bass"}`)
		sets(good, "one that is nothing", `{"fish": null}`)
		sets(form, "none", "{}")
		for _, value := range []string{"5", "true", `"x"`, "[]", `[{"fish": "x"}]`} {
			sets(form, "no object, "+value, value)
		}
		sets(form, "a reserved name in it", `{"constructor": 1}`)
	case "value":
		for _, value := range []string{"5", "true", `"x"`, "[]", "{}", `[1, "x", null, {"a": [true]}]`} {
			sets(good, "any JSON, "+value, value)
		}
		sets(good, "as deep as may be", nested(contract.The.Value.Depth))
		sets(form, "too deep", nested(contract.The.Value.Depth+1))
		sets(form, "a reserved name in it", `{"constructor": 1}`)
	default:
		panic("a field of an unknown sort: " + f.Is)
	}
}

func nested(depth int) string { return strings.Repeat("[", depth) + strings.Repeat("]", depth) }

func spelt(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// envelope adds what an entry is besides what it sets.
func envelope(l *list) {
	one := func(field, value string) map[string]string { return map[string]string{field: value} }
	l.add(good, "the base", nil)
	ids := func(n int) string {
		return "[" + strings.TrimSuffix(strings.Repeat(quoted(id)+", ", n), ", ") + "]"
	}
	for _, field := range []string{"id", "record", "trip"} {
		l.add(form, "no "+field, nil, field)
		for _, value := range []string{strings.ToUpper(id), "{" + id + "}", strings.ReplaceAll(id, "-", ""), "00000000-0000-0000-0000-000000000000"} {
			l.add(form, field+" "+value, one(field, quoted(value)))
		}
		l.add(form, field+" a number", one(field, "5"))
		l.add(form, field+" nothing", one(field, "null"))
	}
	l.add(form, "id of another version", one("id", quoted(record)))
	for _, field := range []string{"kind", "prev", "set", "at", "n"} {
		l.add(form, "no "+field, nil, field)
		l.add(form, field+" nothing", one(field, "null"))
	}
	most := contract.The.Entry
	l.add(good, "a kind of a newer app", one("kind", quoted("k"+strings.Repeat("1", most.Kind-1))))
	for _, kind := range append([]string{"", "1a", "a b", "Kind", "__proto__", "k" + strings.Repeat("1", most.Kind)}, contract.The.Reserved...) {
		l.add(form, "kind "+kind, one("kind", quoted(kind)))
	}
	l.add(form, "a trip's own record under another id", one("kind", `"trip"`))
	l.add(form, "another record under the trip's id", one("record", quoted(trip)))
	l.add(good, "prev full", one("prev", ids(most.Prev)))
	l.add(form, "prev too long", one("prev", ids(most.Prev+1)))
	l.add(form, "prev no list", one("prev", quoted(id)))
	l.add(form, "prev of words", one("prev", `["x"]`))
	for _, bound := range []struct {
		field string
		of    contract.Range
	}{{"at", most.Time}, {"n", most.N}} {
		l.add(good, bound.field+" least", one(bound.field, fmt.Sprint(bound.of.Min)))
		l.add(good, bound.field+" most", one(bound.field, fmt.Sprint(bound.of.Max)))
		l.add(form, bound.field+" below the least", one(bound.field, fmt.Sprint(bound.of.Min-1)))
		l.add(form, bound.field+" beyond the most", one(bound.field, fmt.Sprint(bound.of.Max+1)))
		l.add(form, bound.field+" a fraction", one(bound.field, "1.5"))
		l.add(form, bound.field+" a text", one(bound.field, `"1"`))
		l.add(form, bound.field+" beyond all numbers", one(bound.field, "1e400"))
		l.add(good, bound.field+" written as a fraction", one(bound.field, "5.0"))
	}
	l.add(form, "at of the earliest clock of JavaScript", one("at", "-8640000000000000"))
	l.add(form, "n of the greatest whole number", one("n", "9007199254740991"))
	l.add(form, "both set and strike", one("strike", "true"))
	l.add(good, "struck through", one("strike", "true"), "set")
	l.add(form, "strike false", one("strike", "false"), "set")
	l.add(form, "sets nothing", one("set", "{}"))
	l.add(form, "sets a list", one("set", "[1]"))
	set := func(name, value string) map[string]string { return one("set", "{"+quoted(name)+": "+value+"}") }
	l.add(good, "a field of a newer app", set("f"+strings.Repeat("1", most.Field-1), "5"))
	for _, name := range append([]string{"", "1a", "a b", "Field", "__proto__", "f" + strings.Repeat("1", most.Field)}, contract.The.Reserved...) {
		l.add(form, "sets "+name, set(name, "5"))
	}
	room := most.Bytes - len(`{"at":1938081600000,"id":"`+id+`","kind":"mark","n":17,"prev":[],"record":"`+record+`","set":{"more":""},"trip":"`+trip+`"}`)
	l.add(good, "as large as may be", set("more", quoted(strings.Repeat("x", room))))
	l.add(size, "too large", set("more", quoted(strings.Repeat("x", room+1))))
	l.add(size, "too large in bytes, not in characters", set("more", quoted(strings.Repeat("é", room/2+1))))
}

// values adds what holds of every value.
func values(l *list) {
	deep, most := contract.The.Value.Depth, contract.The.Value.Number
	sets := func(code, name, value string) { l.sets(code, "mark", "more", name, value) }
	sets(good, "as deep as may be", nested(deep))
	sets(form, "too deep", nested(deep+1))
	sets(form, "four thousand deep", nested(4000))
	sets(good, "objects as deep as may be", strings.Repeat(`{"a":`, deep)+"1"+strings.Repeat("}", deep))
	sets(form, "objects too deep", strings.Repeat(`{"a":`, deep+1)+"1"+strings.Repeat("}", deep+1))
	sets(good, "the greatest number", fmt.Sprint(most))
	sets(good, "the least number", fmt.Sprint(-most))
	sets(form, "a number too great", fmt.Sprint(most+1))
	sets(form, "a number too great within", fmt.Sprintf(`{"a": [%d]}`, most+1))
	sets(form, "beyond all numbers", "1e400")
	sets(good, "the smallest number", "5e-324")
	sets(good, "nought below nought", "-0.0")
	sets(form, "half a pair", `"cut \ud83d"`)
	sets(form, "the other half", `"\ude00 cut"`)
	sets(form, "a pair the wrong way round", `"\ude00\ud83d"`)
	sets(form, "half a pair within", `{"a": ["\ud83d"]}`)
	sets(form, "half a pair as a name", `{"\ud83d": 1}`)
	sets(good, "a pair", `"\ud83d\ude00"`)
	sets(good, "the stroke before a letter u", `"\\ud83d"`)
	sets(form, "a zero byte", `"a\u0000b"`)
	for _, name := range append([]string{"__proto__", "", "a b", "Ä"}, contract.The.Reserved...) {
		sets(form, "an object with "+name, "{"+quoted(name)+": 1}")
	}
}

// hidden adds the characters at the ends of each span of those that a line or a text may not have, and beside it.
func hidden(l *list) {
	for _, of := range []struct {
		kind, field string
		spans       [][2]rune
	}{{"person", "name", contract.The.Hidden.Line}, {"note", "text", contract.The.Hidden.Text}} {
		in := func(r rune) bool {
			for _, span := range of.spans {
				if span[0] <= r && r <= span[1] {
					return true
				}
			}
			return false
		}
		for _, span := range of.spans {
			for _, r := range []rune{span[0] - 1, span[0], span[1], span[1] + 1} {
				if r < 0 || r >= 0xd800 && r <= 0xdfff {
					continue
				}
				code := good
				if in(r) {
					code = form
				}
				l.sets(code, of.kind, of.field, fmt.Sprintf("U+%04X", r), quoted("a"+string(r)+"b"))
			}
		}
	}
}
