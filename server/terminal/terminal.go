// Package terminal writes for whoever sits at one: lines that fit, and commands as they can be typed there.
package terminal

import (
	"io"
	"os"
	"regexp"
	"runtime"
	"strings"

	"golang.org/x/term"
)

// Typed is a command of this program, as it can be typed where this one was.
func Typed(words ...string) string {
	all := []string{Quoted(os.Args[0])}
	for _, word := range words {
		all = append(all, Quoted(word))
	}
	return strings.Join(all, " ")
}

var plainWord = regexp.MustCompile(`^[A-Za-z0-9_@%+=:,./-]+$`)

// Quoted is a word as a POSIX shell takes it, or on Windows its command line.
func Quoted(word string) string {
	if plainWord.MatchString(word) {
		return word
	}
	if runtime.GOOS == "windows" {
		// Names of files have no quotes there.
		return `"` + word + `"`
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}

// Coloured says whether colours may be written: to a screen, not to a file.
func Coloured(out io.Writer) bool {
	file, ok := out.(*os.File)
	return ok && term.IsTerminal(int(file.Fd())) && os.Getenv("TERM") != "dumb"
}

// Wrap breaks each line between words to fit a narrow terminal.
func Wrap(text string) string {
	const width = 78
	var out strings.Builder
	for line := range strings.Lines(text) {
		used := 0
		for word := range strings.FieldsSeq(line) {
			switch {
			case used == 0:
			case used+1+len(word) > width:
				out.WriteByte('\n')
				used = 0
			default:
				out.WriteByte(' ')
				used++
			}
			out.WriteString(word)
			used += len(word)
		}
		out.WriteByte('\n')
	}
	return out.String()
}
