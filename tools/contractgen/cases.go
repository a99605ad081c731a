package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"wirewake/server/log/contract"
)

// An entry of which nothing is wrong, but for what it sets.
const (
	id     = "01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d8e"
	record = "5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5a"
	trip   = "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f4e"
	base   = `{"id": "` + id + `", "record": "` + record + `", "kind": "mark", "trip": "` + trip + `", ` +
		`"prev": [], "set": {"rod": "port"}, "at": 1938081600000, "n": 17}`
)

// verdicts, by the codes of refusals.
const (
	good = ""
	form = "form"
	size = "size"
)

// list is the cases as they are written.
type list struct {
	lines []string
}

// add adds a case: the base with fields in place of its own, all as JSON, and without others.
func (l *list) add(code, name string, with map[string]string, without ...string) {
	var fields []string
	for _, field := range slices.Sorted(maps.Keys(with)) {
		fields = append(fields, fmt.Sprintf("%s: %s", quoted(field), with[field]))
	}
	line := fmt.Sprintf(`{"name": %s, "code": %q, "with": {%s}`, quoted(name), code, strings.Join(fields, ", "))
	if len(without) > 0 {
		line += `, "without": ["` + strings.Join(without, `", "`) + `"]`
	}
	l.lines = append(l.lines, line+"}")
}

// sets adds a case of one field of a kind.
func (l *list) sets(code, kind, field, name, value string) {
	with := map[string]string{"kind": quoted(kind), "set": fmt.Sprintf("{%s: %s}", quoted(field), value)}
	if kind == "trip" {
		with["record"] = quoted(trip)
	}
	l.add(code, fmt.Sprintf("%s.%s: %s", kind, field, name), with)
}

// quoted is a text as JSON, in ASCII: what cannot be seen could not be read here either.
func quoted(text string) string {
	var b strings.Builder
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(text); err != nil {
		panic(err) // no text fails
	}
	var ascii strings.Builder
	for _, r := range strings.TrimSuffix(b.String(), "\n") {
		switch {
		case r > 0xffff:
			fmt.Fprintf(&ascii, `\u%04x\u%04x`, 0xd800+(r-0x10000)>>10, 0xdc00+(r-0x10000)&0x3ff)
		case r > 0x7e:
			fmt.Fprintf(&ascii, `\u%04x`, r)
		default:
			ascii.WriteRune(r)
		}
	}
	return ascii.String()
}

// cases is the file of them all.
func cases() []byte {
	var l list
	envelope(&l)
	for _, kind := range slices.Sorted(maps.Keys(contract.The.Kinds)) {
		fields := contract.The.Kinds[kind]
		for _, name := range slices.Sorted(maps.Keys(fields)) {
			l.field(kind, name, fields[name])
		}
	}
	for _, name := range slices.Sorted(maps.Keys(contract.The.Any)) {
		l.field("note", name, contract.The.Any[name])
	}
	values(&l)
	hidden(&l)
	var out bytes.Buffer
	fmt.Fprintf(&out, "{\n  \"base\": %s,\n  \"cases\": [\n    %s\n  ],\n  \"names\": [\n    %s\n  ]\n}\n",
		base, strings.Join(l.lines, ",\n    "), strings.Join(names(), ",\n    "))
	return out.Bytes()
}

// names are names of phones and whether they are any.
func names() (all []string) {
	add := func(good bool, name string) {
		all = append(all, fmt.Sprintf(`{"name": %s, "good": %t}`, quoted(name), good))
	}
	most := contract.The.Entry.Name
	for _, name := range []string{"A", "Ann's phone", "Ann ❤️", "Телефон", "電話", "__proto__", "constructor", strings.Repeat("é", most), strings.Repeat("😀", most)} {
		add(true, name)
	}
	for _, name := range []string{"", " ", "   ", strings.Repeat("x", most+1), strings.Repeat("😀", most+1),
		"a\nb", "a\tb", "a\u0085b", "Ann\u202E", "An\u200Bn", "An\u2028n", "An\u00ADn", "\u3164", "An\uFEFFn", "An\u2066n", "An\U000E0041n"} {
		add(false, name)
	}
	return all
}
