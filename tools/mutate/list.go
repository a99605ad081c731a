package main

import (
	"fmt"
	"path"
	"regexp"
	"strconv"
	"strings"
)

// change is one change of one file, and the tests that should notice it.
type change struct {
	file     string
	tests    []string
	old, new string
}

func (c change) String() string { return c.file + ": " + c.old + " => " + c.new }

var (
	blanks = regexp.MustCompile(`\s+`)
	number = regexp.MustCompile(`-?\d+(\.\d*)?(e-?\d+)?`)
)

// parse reads a list.
func parse(text string) (changes []change, err error) {
	var file string
	var tests []string
	for i, line := range strings.Split(text, "\n") {
		words := strings.Fields(line)
		switch {
		case len(words) == 0 || words[0][0] == '#':
			continue
		case line[0] != '\t':
			file, tests = words[0], words[1:]
			if len(tests) == 0 {
				tests = []string{roomOf(file)}
			}
			continue
		case file == "":
			return nil, fmt.Errorf("line %d: no file before it", i+1)
		}
		olds, news, err := ofLine(strings.TrimSpace(line))
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		for k := range olds {
			changes = append(changes, change{file, tests, olds[k], news[k]})
		}
	}
	return changes, nil
}

// roomOf is where the tests of a file are: its package, or its folder in the webapp.
func roomOf(file string) string {
	if inside, ok := strings.CutPrefix(file, "webapp/"); ok {
		return path.Dir(inside) + "/"
	}
	return "./" + path.Dir(file)
}

// ofLine is the changes that a line names.
func ofLine(line string) (olds, news []string, err error) {
	if old, ok := strings.CutSuffix(line, "± 10 %"); ok {
		old = strings.TrimSpace(old)
		at := number.FindAllStringIndex(old, -1)
		if len(at) == 0 {
			return nil, nil, fmt.Errorf("no number in %q", old)
		}
		from, to := at[len(at)-1][0], at[len(at)-1][1]
		v, err := strconv.ParseFloat(old[from:to], 64)
		if err != nil || v == 0 {
			return nil, nil, fmt.Errorf("no number to change in %q", old)
		}
		for _, by := range []float64{1.1, 0.9} {
			olds = append(olds, old)
			news = append(news, old[:from]+strconv.FormatFloat(v*by, 'g', 10, 64)+old[to:])
		}
		return olds, news, nil
	}
	old, new, ok := strings.Cut(line, " => ")
	if old = strings.TrimSpace(old); !ok || old == "" {
		return nil, nil, fmt.Errorf("neither old => new nor a number ± 10 %%: %q", line)
	}
	return []string{old}, []string{strings.TrimSpace(new)}, nil
}

// apply is the text with the change in it. That the old text is not there just once is an error.
func (c *change) apply(text string) (string, error) {
	words := blanks.Split(c.old, -1)
	for i := range words {
		words[i] = regexp.QuoteMeta(words[i])
	}
	at := regexp.MustCompile(strings.Join(words, `\s+`)).FindAllStringIndex(text, -1)
	if len(at) != 1 {
		return "", fmt.Errorf("%s has %q %d times: name it so that it is there once", c.file, c.old, len(at))
	}
	return text[:at[0][0]] + c.new + text[at[0][1]:], nil
}
