package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/creack/pty"

	"wirewake/calc/codec"
	"wirewake/calc/desk"
	"wirewake/calc/tide"
)

func TestCalcListsWhatTheDeskAnswers(t *testing.T) {
	out, _, code := tell(t, "", "calc")
	if code != done {
		t.Errorf("exit %d", code)
	}
	for _, c := range desk.List() {
		if !regexp.MustCompile(`(?m)^ +` + c.Name + ` +` + regexp.QuoteMeta(c.Summary) + `$`).MatchString(out) {
			t.Errorf("the list lacks %s: %s", c.Name, out)
		}
	}
}

func TestEveryExampleIsAnswered(t *testing.T) {
	tables, err := stations()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range desk.List() {
		if len(tables) == 0 && slices.Contains([]string{"stations", "tide", "stream", "day", "moments"}, c.Name) {
			continue // built without the webapp
		}
		example, _, code := tell(t, "", "calc", c.Name, "--example")
		if code != done || !json.Valid([]byte(example)) || !strings.HasSuffix(example, "\n") {
			t.Errorf("%s --example: exit %d, %q", c.Name, code, example)
			continue
		}
		answer, err, code := tell(t, example, "calc", c.Name)
		if code != done || err != "" || !json.Valid([]byte(answer)) || !strings.Contains(answer, "\n  \"") {
			t.Errorf("%s: exit %d, %q, %q", c.Name, code, answer, err)
		}
	}
}

// A line whose end pulls at the critical angle is straight at that angle: there its weight across the
// line equals the drag across it, w·cos φ = ½·ρ·Cn·d·V²·sin² φ (the "critical angle" of L. Pode, Tables for
// computing the equilibrium configuration of a flexible cable in a uniform stream, 1951; from memory).
func TestCalcAnswersAStraightLineAtTheCriticalAngle(t *testing.T) {
	const rho, speed, length, diameter, weight, cn, endWeight = 1025, 1.6, 60.96, 0.000508, 0.013725, 1.4, 1.0
	k := 0.5 * rho * cn * diameter * speed * speed / weight
	cos := (math.Sqrt(1+4*k*k) - 1) / (2 * k)
	sin := math.Sqrt(1 - cos*cos)
	dragArea := endWeight * cos / sin / (0.5 * rho * speed * speed)

	request := fmt.Sprintf(`{"sea": {"water": {"density": %g}, "speed": %g}, "sections": [{"name": "wire", "length": %g,
		"diameter": %g, "weight": %g, "cn": %g, "end": {"weight": %g, "dragArea": %.17g}}]}`,
		float64(rho), speed, length, diameter, weight, cn, endWeight, dragArea)
	out, problems, code := tell(t, request, "calc", "tow")
	if code != done {
		t.Fatalf("exit %d: %s", code, problems)
	}
	var answer struct {
		Sections []struct{ Depth, Astern, AngleTop float64 }
	}
	if err := json.Unmarshal([]byte(out), &answer); err != nil || len(answer.Sections) != 1 {
		t.Fatalf("%v: %s", err, out)
	}
	got := answer.Sections[0]
	for name, pair := range map[string][2]float64{
		"depth": {got.Depth, length * sin}, "astern": {got.Astern, length * cos}, "angle": {got.AngleTop, math.Acos(cos)},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-6*pair[1] {
			t.Errorf("%s = %.9g, want %.9g", name, pair[0], pair[1])
		}
	}
}

func TestProblemsAreOnePerLineAtTheirField(t *testing.T) {
	out, err, code := tell(t, `{"depth": "deep", "colour": 1}`, "calc", "lineout")
	if code != failed || out != "" {
		t.Errorf("exit %d, out %q", code, out)
	}
	lines := strings.Split(strings.TrimSuffix(err, "\n"), "\n")
	if len(lines) < 2 {
		t.Errorf("%d lines: %q", len(lines), err)
	}
	for _, field := range []string{"depth", "colour"} {
		if !regexp.MustCompile(`(?m)^` + field + `: \S`).MatchString(err) {
			t.Errorf("no line for %s: %q", field, err)
		}
	}
}

func TestRequestsThatAreNone(t *testing.T) {
	for name, c := range map[string]struct{ stdin, says string }{
		"nothing":   {"", "wirewake calc tow --example"},
		"not JSON":  {"depth = 3", ""},
		"too large": {`{"x":"` + strings.Repeat("x", codec.MaxBytes) + `"}`, "larger than 16777216 bytes"},
	} {
		out, err, code := tell(t, c.stdin, "calc", "tow")
		if code != failed || out != "" || err == "" || !strings.Contains(err, c.says) {
			t.Errorf("%s: exit %d, out %q, err %q", name, code, out, err)
		}
	}
}

func TestAnAnswerThatCannotBeWrittenIsAFailure(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("this system has no /dev/full")
	}
	defer full.Close()
	cmd := exec.Command(binary, "calc", "tow", "--example")
	cmd.Stdout = full
	if err := cmd.Run(); err == nil || cmd.ProcessState.ExitCode() != failed {
		t.Errorf("exit %d with nowhere to write", cmd.ProcessState.ExitCode())
	}
}

func TestAtAKeyboardCalcSaysWhatItWaitsFor(t *testing.T) {
	keyboard, terminal, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer keyboard.Close()
	defer terminal.Close()
	cmd := exec.Command(binary, "calc", "tow")
	var hint, answer said
	cmd.Stdin, cmd.Stdout, cmd.Stderr = terminal, &answer, &hint
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	hint.wait(t, regexp.MustCompile(`Waiting for a request`))
	hint.wait(t, regexp.MustCompile(`calc tow --example`))
	example, _ := desk.Example("tow")
	if _, err := keyboard.Write(append(example, "\n\x04"...)); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil || !json.Valid([]byte(answer.String())) {
		t.Errorf("%v: %q", err, answer.String())
	}
}

// The tables in the binary are whole: every seventh station of every kind predicts a day, or says why it cannot.
func TestTheStationsInTheBinaryPredict(t *testing.T) {
	tables, err := stations()
	if err != nil {
		t.Fatal(err)
	}
	if len(tables) == 0 {
		t.Skip("built without the webapp")
	}
	const day = 1784073600 // 2026 July 15, 0h UTC
	refused, all := 0, 0
	for _, place := range []tide.Place{{Lat: 0.71, Lon: -1.29}, {Lat: 0.66, Lon: -2.14}} {
		for kind, tell := range map[tide.Kind]func(tide.Tables, tide.Span) (tide.Prediction, error){
			tide.KindTide: tide.ToHeights, tide.KindCurrent: tide.ToCurrents,
		} {
			near, err := tide.Nearest(tables, tide.Stations{Place: place, Kind: kind, Count: 100})
			if err != nil || len(near.Stations) != 100 || near.Stations[99].Distance > 500e3 {
				t.Fatalf("%v: %d stations near %v", err, len(near.Stations), place)
			}
			for i := 0; i < 100; i += 7 {
				s := near.Stations[i]
				p, err := tell(tables, tide.Span{Station: s.ID, From: day, Until: day + 86400})
				all++
				switch {
				case s.Why != "" && err != nil:
					refused++
				case err != nil || len(p.Marks) < 2:
					t.Errorf("%s: %d marks, %v", s.Name, len(p.Marks), err)
				}
			}
		}
	}
	if refused > all/10 {
		t.Errorf("%d of %d refused", refused, all)
	}
}
