package main

import (
	"os"
	"regexp"
	"runtime"
	"strings"
)

// typed is a command of this program, as it can be typed where this one was.
func typed(words ...string) string {
	all := []string{quoted(os.Args[0])}
	for _, word := range words {
		all = append(all, quoted(word))
	}
	return strings.Join(all, " ")
}

var plainWord = regexp.MustCompile(`^[A-Za-z0-9_@%+=:,./-]+$`)

// quoted is a word as a POSIX shell takes it, or on Windows its command line.
func quoted(word string) string {
	if plainWord.MatchString(word) {
		return word
	}
	if runtime.GOOS == "windows" {
		// Names of files have no quotes there.
		return `"` + word + `"`
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}

// given is a flag as it was typed.
type given struct{ name, value string }

// dataGiven are the words that lead another command to the same data.
func (f *serveFlags) dataGiven() []string {
	for _, g := range f.given {
		if g.name == "data" {
			return []string{"--data", g.value}
		}
	}
	return nil
}

// serving is this command with some flags otherwise: with "" the flag is left out.
func (f *serveFlags) serving(change ...given) string {
	words := []string{"serve"}
	for _, g := range f.given {
		changed := false
		for _, c := range change {
			changed = changed || c.name == g.name
		}
		switch {
		case changed:
		case g.name == "verbose":
			words = append(words, "--verbose="+g.value)
		default:
			words = append(words, "--"+g.name, g.value)
		}
	}
	for _, c := range change {
		if c.value != "" {
			words = append(words, "--"+c.name, c.value)
		}
	}
	return typed(words...)
}
