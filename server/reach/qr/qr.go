// Package qr draws an address as a QR code (ISO/IEC 18004): for the screen, for the terminal and for paper.
// All are dark on light with the quiet zone of four modules that the standard asks for. Error
// correction is level M on a screen, which is seldom torn: larger modules are read from farther. On paper,
// which gets wet and scratched, it is level Q: a quarter of the code may be lost.
package qr

import (
	"fmt"
	"strings"

	"github.com/skip2/go-qrcode"
)

// modules gives the code with its quiet zone, row by row; true is dark.
func modules(text string, correction qrcode.RecoveryLevel) ([][]bool, error) {
	code, err := qrcode.New(text, correction)
	if err != nil {
		return nil, fmt.Errorf("%q does not fit a QR code: %w", text, err)
	}
	return code.Bitmap(), nil
}

// The levels of correction by the names that the library gives them.
const (
	levelM = qrcode.Medium
	levelQ = qrcode.High
)

// SVG draws the code for a screen, to fill whatever room it is given.
func SVG(text string) ([]byte, error) { return drawing(text, levelM) }

// Print draws the code for paper.
func Print(text string) ([]byte, error) { return drawing(text, levelQ) }

func drawing(text string, correction qrcode.RecoveryLevel) ([]byte, error) {
	rows, err := modules(text, correction)
	if err != nil {
		return nil, err
	}
	var dark strings.Builder
	for y, row := range rows {
		for x := 0; x < len(row); x++ {
			start := x
			for x < len(row) && row[x] {
				x++
			}
			if x > start {
				fmt.Fprintf(&dark, "M%d %dh%dv1h-%dz", start, y, x-start, x-start)
			}
		}
	}
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %[1]d %[1]d" shape-rendering="crispEdges">`+
		`<path fill="#fff" d="M0 0h%[1]dv%[1]dh-%[1]dz"/><path fill="#000" d="%[2]s"/></svg>`+"\n",
		len(rows), dark.String()), nil
}

// Black on white by their places in the fixed part of the 256 colours, which no theme changes.
const (
	blackOnWhite = "\x1b[38;5;16;48;5;231m"
	reset        = "\x1b[0m"
)

// Terminal draws the code in half-height blocks, two rows of modules to a line. With colours it is
// dark on light on any terminal; without, it is so where the text is lighter than its ground.
func Terminal(text string, colours bool) (string, error) {
	rows, err := modules(text, levelM)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	for y := 0; y < len(rows); y += 2 {
		if colours {
			out.WriteString(blackOnWhite)
		}
		for x := range rows[y] {
			// Below an odd last row there is nothing: as light as the quiet zone above it.
			upper, lower := rows[y][x], y+1 < len(rows) && rows[y+1][x]
			// Ink is dark with colours; without, it is the light of the screen.
			out.WriteRune(halves[upper == colours][lower == colours])
		}
		if colours {
			out.WriteString(reset)
		}
		out.WriteByte('\n')
	}
	return out.String(), nil
}

// halves is the block with ink in its upper and in its lower half.
var halves = map[bool]map[bool]rune{
	true:  {true: '█', false: '▀'},
	false: {true: '▄', false: ' '},
}
