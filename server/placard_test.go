package main

import (
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/google/uuid"
	"golang.org/x/sys/unix"

	"wirewake/server/harness"
)

func TestThePlacardSaysWhereTheServerWasLastStarted(t *testing.T) {
	data := t.TempDir()
	if _, err, code := tell(t, "", "placard", "--ssid", "Boat", "--data", data); code != failed || !strings.Contains(err, "--address") {
		t.Errorf("before the server ever ran: exit %d, %q", code, err)
	}
	s := start(t, "--data", data, "--address", "https://192.168.77.7:8610")
	out, err, code := tell(t, "p<ss;word\n", "placard", "--ssid", `Boat & "crew"`, "--password", "-", "--data", data)
	if code != done || err != "" {
		t.Fatalf("exit %d, %q", code, err)
	}
	for _, text := range []string{
		"<!doctype html>", "<dd>http://192.168.77.7:8610</dd>", "<dd>Boat &amp; &#34;crew&#34;</dd>", "<dd>p&lt;ss;word</dd>", "must be:",
	} {
		if !strings.Contains(out, text) {
			t.Errorf("the placard lacks %q: %s", text, out)
		}
	}
	_, ways := s.get("/api/way-in", "localhost")
	_, fingerprint, _ := strings.Cut(ways, `"fingerprint":"`)
	if fingerprint = strings.ReplaceAll(fingerprint[:23], ":", " "); !strings.Contains(out, fingerprint) {
		t.Errorf("the placard lacks the fingerprint, %s…", fingerprint)
	}
	out, _, code = tell(t, "", "placard", "--ssid", "Boat", "--data", data, "--address", "https://boat.example")
	if code != done || strings.Contains(out, "must be:") || strings.Contains(out, "Password") || !strings.Contains(out, "<dd>https://boat.example/#/enrol</dd>") {
		t.Errorf("exit %d, %s", code, out)
	}
	if _, err, code := tell(t, "", "placard", "--ssid", "Boat", "--password", "-", "--data", data); code != misuse || !strings.Contains(err, "no password came") {
		t.Errorf("exit %d, %q", code, err)
	}
}

// shows says whether a terminal shows what is typed.
func shows(t *testing.T, terminal *os.File) bool {
	t.Helper()
	state, err := unix.IoctlGetTermios(int(terminal.Fd()), unix.TCGETS)
	if err != nil {
		t.Fatal(err)
	}
	return state.Lflag&unix.ECHO != 0
}

// Who types the password is asked for it, and nobody reads it over the shoulder; the terminal is as before, also where
// the question was left.
func TestThePasswordIsAskedForAndNotShown(t *testing.T) {
	data := t.TempDir()
	start(t, "--data", data, "--address", "https://192.168.77.7:8610")
	for _, left := range []bool{false, true} {
		keyboard, terminal, err := pty.Open()
		if err != nil {
			t.Fatal(err)
		}
		defer keyboard.Close()
		defer terminal.Close()
		var sheet, asked said
		cmd := exec.Command(binary, "placard", "--ssid", "Boat", "--password", "-", "--data", data)
		cmd.Stdin, cmd.Stdout, cmd.Stderr = terminal, &sheet, &asked
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		asked.wait(t, regexp.MustCompile("^Password of the Wi-Fi: $"))
		for shows(t, terminal) {
			time.Sleep(time.Millisecond)
		}
		if left {
			cmd.Process.Signal(os.Interrupt)
		} else if _, err := keyboard.WriteString("splash;word\n"); err != nil {
			t.Fatal(err)
		}
		cmd.Wait()
		if want := map[bool]int{false: done, true: misuse}[left]; cmd.ProcessState.ExitCode() != want {
			t.Errorf("exit %d, want %d: %s", cmd.ProcessState.ExitCode(), want, &asked)
		}
		if !left && !strings.Contains(sheet.String(), "<dd>splash;word</dd>") {
			t.Errorf("%s", &sheet)
		}
		if !shows(t, terminal) {
			t.Error("the terminal shows nothing any more")
		}
		terminal.Write([]byte("#")) // so that there is something to read
		screen := make([]byte, 4096)
		if n, _ := keyboard.Read(screen); strings.Contains(string(screen[:n]), "splash") {
			t.Errorf("it is on the screen: %q", screen[:n])
		}
	}
}

// A sheet whose code leads to the computer it was printed at is no help on a dock.
func TestAPlacardForThisComputerAloneIsTold(t *testing.T) {
	data := t.TempDir()
	start(t, "--data", data)
	out, err, code := tell(t, "", "placard", "--ssid", "Boat", "--data", data)
	if code != done || !strings.Contains(out, "localhost") || !strings.Contains(err, "leads no phone to the app") {
		t.Errorf("exit %d, %q", code, err)
	}
}

func TestThePlacardHasTheBoatsNameAndTwoLanguages(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data, "--address", "https://192.168.77.7:8610")
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log, trip := harness.NewPhone(), uuid.New()
	log.Write("boat", trip, uuid.Nil, map[string]any{"name": "Demo <Spoon>"}, false, 0)
	skipper.run(log)
	told, _, _ := tell(t, "", "placard", "--ssid", "Boat", "--data", data, "--address", "https://192.168.77.8:8610")
	if !strings.Contains(told, "<h1>Demo &lt;Spoon&gt;</h1>") {
		t.Errorf("with an address of its own: %s", told)
	}
	out, _, code := tell(t, "", "placard", "--ssid", "Boat", "--data", data, "--language", "es,en")
	if code != done || !strings.Contains(out, "<h1>Demo &lt;Spoon&gt;</h1>") || !strings.Contains(out, `<html lang="es">`) ||
		!strings.Contains(out, "pide subir a bordo") || !strings.Contains(out, "asks to come aboard") || strings.Contains(out, "{") && strings.Contains(out, "}</") {
		t.Errorf("exit %d, %s", code, out)
	}
	out, _, code = tell(t, "", "placard", "--ssid", "Boat", "--data", data, "--boat", "Other", "--address", "https://192.168.77.8:8610")
	if code != done || !strings.Contains(out, "<h1>Other</h1>") || strings.Contains(out, "subir") || !strings.Contains(out, "<dd>http://192.168.77.8:8610</dd>") {
		t.Errorf("exit %d, %s", code, out)
	}
}
