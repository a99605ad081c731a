package qr

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

var addresses = []string{
	"http://192.168.1.5:8610",
	"https://boat.example",
	"http://[fd00::2]:8610",
	"https://" + strings.Repeat("a-long-name.", 10) + "example:8610",
}

// The reader is ZBar, which shares no code with the library that draws.
func read(t *testing.T, file string) string {
	t.Helper()
	zbar, err := exec.LookPath("zbarimg")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("zbarimg is missing; make test installs it (zbar-tools)")
		}
		t.Skip("zbarimg is missing: install zbar-tools")
	}
	out, err := exec.Command(zbar, "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file).Output()
	if err != nil {
		t.Fatalf("zbarimg reads nothing from %s: %v", file, err)
	}
	return strings.TrimSpace(string(out))
}

func TestTheSVGIsReadBack(t *testing.T) {
	for _, address := range addresses {
		svg, err := SVG(address)
		if err != nil {
			t.Fatal(err)
		}
		if got := read(t, save(t, paintSVG(t, svg))); got != address {
			t.Errorf("the reader says %q, want %q", got, address)
		}
	}
}

func TestTheTerminalCodeIsReadBackOnEveryGround(t *testing.T) {
	dark, light := color.Gray{20}, color.Gray{235}
	for _, address := range addresses {
		for name, c := range map[string]struct {
			colours     bool
			ink, ground color.Gray
		}{
			"colours":                 {true, color.Gray{0}, color.Gray{255}},
			"no colours, dark ground": {false, light, dark},
		} {
			text, err := Terminal(address, c.colours)
			if err != nil {
				t.Fatal(err)
			}
			text = strings.NewReplacer(blackOnWhite, "", reset, "").Replace(text)
			if got := read(t, save(t, paintText(text, c.ink, c.ground))); got != address {
				t.Errorf("%s: the reader says %q, want %q", name, got, address)
			}
		}
	}
}

func TestEveryTerminalLineEndsItsColours(t *testing.T) {
	text, err := Terminal(addresses[0], true)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, blackOnWhite) || !strings.HasSuffix(line, reset+"\n") {
			t.Errorf("line %q leaves the terminal coloured", line)
		}
	}
}

func TestTheQuietZoneIsFourModules(t *testing.T) {
	// ISO/IEC 18004:2015, 5.3.8: a quiet zone 4X wide on all four sides.
	rows, err := modules(addresses[0], levelM)
	if err != nil {
		t.Fatal(err)
	}
	n := len(rows)
	for y, row := range rows {
		for x, dark := range row {
			if dark && (min(x, y) < 4 || max(x, y) >= n-4) {
				t.Errorf("dark module at %d, %d of %d", x, y, n)
			}
		}
	}
	// The finder pattern's corner is the first dark module inside it.
	if !rows[4][4] {
		t.Error("the quiet zone is wider than four modules")
	}
}

func TestTextThatDoesNotFitIsRefused(t *testing.T) {
	long := strings.Repeat("x", 4000)
	if _, err := SVG(long); err == nil {
		t.Error("SVG took 4000 characters")
	}
	if _, err := Terminal(long, true); err == nil {
		t.Error("Terminal took 4000 characters")
	}
}

// paintSVG draws the paths as a browser would, 6 pixels to a module.
func paintSVG(t *testing.T, svg []byte) image.Image {
	t.Helper()
	var doc struct {
		ViewBox string `xml:"viewBox,attr"`
		Paths   []struct {
			Fill string `xml:"fill,attr"`
			D    string `xml:"d,attr"`
		} `xml:"path"`
	}
	if err := xml.NewDecoder(bytes.NewReader(svg)).Decode(&doc); err != nil {
		t.Fatal(err)
	}
	var n int
	if _, err := fmt.Sscanf(doc.ViewBox, "0 0 %d", &n); err != nil {
		t.Fatal(err)
	}
	const scale = 6
	// Ground neither dark nor light: what the SVG leaves unpainted would be seen by the reader.
	picture := image.NewGray(image.Rect(0, 0, n*scale, n*scale))
	fill(picture, picture.Bounds(), color.Gray{128})
	for _, path := range doc.Paths {
		shade := map[string]color.Gray{"#fff": {255}, "#000": {0}}[path.Fill]
		for _, part := range strings.SplitAfter(path.D, "z") {
			if part == "" {
				continue
			}
			var x, y, w, h, back int
			if _, err := fmt.Sscanf(part, "M%d %dh%dv%dh%dz", &x, &y, &w, &h, &back); err != nil || back != -w {
				t.Fatalf("part %q: %v", part, err)
			}
			fill(picture, image.Rect(x*scale, y*scale, (x+w)*scale, (y+h)*scale), shade)
		}
	}
	return picture
}

// paintText draws block characters as a terminal would, on a ground of its own all around.
func paintText(text string, ink, ground color.Gray) image.Image {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	const scale, margin = 6, 30
	width := len([]rune(lines[0]))
	picture := image.NewGray(image.Rect(0, 0, width*scale+2*margin, 2*len(lines)*scale+2*margin))
	fill(picture, picture.Bounds(), ground)
	for row, line := range lines {
		for col, char := range []rune(line) {
			for half, inked := range []bool{char == '█' || char == '▀', char == '█' || char == '▄'} {
				if inked {
					x, y := margin+col*scale, margin+(2*row+half)*scale
					fill(picture, image.Rect(x, y, x+scale, y+scale), ink)
				}
			}
		}
	}
	return picture
}

func fill(picture *image.Gray, area image.Rectangle, shade color.Gray) {
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			picture.SetGray(x, y, shade)
		}
	}
}

func save(t *testing.T, picture image.Image) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "code.png")
	file, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if err := png.Encode(file, picture); err != nil {
		t.Fatal(err)
	}
	return name
}
