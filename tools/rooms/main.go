// Command rooms draws the folders of the source and what they import, from the source, into DEVELOPERS.md. Every arrow
// leads to the right: where one would lead back there is no drawing. An arrow that others make up is left out.
//
//	go run ./tools/rooms
package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
)

const guide = "DEVELOPERS.md"

// The drawing stands between these in the guide.
const (
	begin = "<!-- rooms: by go run ./tools/rooms -->\n"
	end   = "<!-- end of rooms -->\n"
)

func main() {
	if err := run("."); err != nil {
		fmt.Fprintln(os.Stderr, "rooms:", err)
		os.Exit(1)
	}
}

func run(root string) error {
	text, err := os.ReadFile(root + "/" + guide)
	if err != nil {
		return err
	}
	drawn, err := redraw(root, string(text))
	if err != nil || bytes.Equal(text, []byte(drawn)) {
		return err
	}
	return os.WriteFile(root+"/"+guide, []byte(drawn), 0o644)
}

// redraw is the guide with the drawing of today in it.
func redraw(root, text string) (string, error) {
	before, rest, ok := strings.Cut(text, begin)
	_, after, closed := strings.Cut(rest, end)
	if !ok || !closed {
		return "", fmt.Errorf("%s has no place for the drawing: %q and %q", guide, begin, end)
	}
	text = before + begin
	for _, of := range [][]string{{"server", "embed", "calc"}, {"webapp/src"}} {
		imports, err := read(root, of...)
		if err != nil {
			return "", err
		}
		drawing, err := imports.draw()
		if err != nil {
			return "", err
		}
		text += drawing
	}
	return text + "\n" + end + after, nil
}
