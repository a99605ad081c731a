package main

import (
	"bytes"
	"fmt"
	"os/exec"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store/fault"
)

// stopping is a server that kills itself when it comes by a place.
func stopping(t *testing.T, place string, args ...string) *served {
	t.Helper()
	return startWith(t, func(c *exec.Cmd) { c.Env = append(c.Environ(), "WIREWAKE_STOP=1 "+place) }, args...)
}

// wantKilled waits for the end that a server makes of itself.
func (s *served) wantKilled(place string) {
	s.t.Helper()
	s.cmd.Wait()
	if status, ok := s.cmd.ProcessState.Sys().(syscall.WaitStatus); !ok || status.Signal() != syscall.SIGKILL {
		s.t.Fatalf("%s: %v", place, s.cmd.ProcessState)
	}
}

// sendPhoto sends a photo in one part, and says with which status it ended; 0 if there was no answer.
func (p *aboard) sendPhoto(sha string, content []byte) int {
	p.t.Helper()
	for _, body := range [][]byte{nil, content} {
		part := fmt.Sprintf("bytes */%d", len(content))
		if body != nil {
			part = fmt.Sprintf("bytes 0-%d/%d", len(content)-1, len(content))
		}
		r, _, err := p.try("PUT", "/api/photos/"+sha, body, "Content-Range", part)
		if err != nil {
			return 0
		}
		if r.StatusCode != 202 {
			return r.StatusCode
		}
	}
	return 202
}

// The server is killed at every step of a photo's way, and the photo gets there all the same, with one more try.
func TestKilledAtEveryStepAPhotoIsNotLost(t *testing.T) {
	for i, place := range fault.Photo {
		t.Run(place, func(t *testing.T) {
			data := t.TempDir()
			s := stopping(t, place, "--data", data)
			phone := comeAboard(t, s, data, "--role", "mate")
			content, sha := picture(fmt.Sprint("photo ", i))
			log, trip := harness.NewPhone(), uuid.New()
			log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": sha}, false, 0)
			phone.run(log)
			if ended := phone.sendPhoto(sha, content); ended != 0 {
				t.Fatalf("it was not killed, and answers %d", ended)
			}
			s.wantKilled(place)

			s = start(t, "--data", data)
			phone.url = s.url()
			if ended := phone.sendPhoto(sha, content); ended != 200 && ended != 201 {
				t.Fatalf("after that it ends with %d", ended)
			}
			if wanted := phone.run(log).Photos.Wanted; len(wanted) > 0 {
				t.Errorf("still wanted: %v", wanted)
			}
			if r, got := phone.ask("GET", "/api/photos/"+sha, nil); r.StatusCode != 200 || got != string(content) {
				t.Errorf("%s, %d bytes", r.Status, len(got))
			}
			s.stop(syscall.SIGTERM)
			if out, _, code := tell(t, "", "check", "--data", data); code != done {
				t.Errorf("check: exit %d, %s", code, out)
			}
		})
	}
}

// The same between the box and home, either way, and whichever of the two is killed.
func TestKilledAtEveryStepPhotosGetHomeAndBack(t *testing.T) {
	for i, place := range fault.Photo {
		t.Run(place, func(t *testing.T) {
			box, ashore := t.TempDir(), t.TempDir()
			atHome := start(t, "--data", ashore)
			out, err, code := tell(t, "", "invite", "--role", "mate", "--data", ashore)
			link := strings.TrimSpace(linkForm.FindString(out))
			if code != done || link == "" {
				t.Fatalf("exit %d, %q, %q", code, out, err)
			}
			flags := []string{"--data", box, "--home", link}
			known := regexp.MustCompile(`msg="home knows this server now"`)
			atBox := start(t, flags...)
			atBox.err.wait(t, known)
			trip := uuid.New()
			give := func(s *served, data, what string) (sha string, content []byte) {
				phone := comeAboard(t, s, data, "--role", "mate")
				content, sha = picture(what)
				log := harness.NewPhone()
				log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": sha}, false, 0)
				phone.run(log)
				if ended := phone.sendPhoto(sha, content); ended != 201 {
					t.Fatalf("%s: %d", what, ended)
				}
				return sha, content
			}
			// Home first, where the box lies still: then it cannot have fetched it yet.
			atBox.stop(syscall.SIGTERM)
			down, downContent := give(atHome, ashore, fmt.Sprint("down ", i))
			port := atHome.port
			atHome.stop(syscall.SIGTERM)
			atBox = start(t, "--data", box)
			up, upContent := give(atBox, box, fmt.Sprint("up ", i))
			atBox.stop(syscall.SIGTERM)

			back := []string{"--data", ashore, "--listen", "127.0.0.1:" + port}
			atHome = stopping(t, place, back...)
			atBox = start(t, flags...)
			atHome.wantKilled(place)
			atBox.stop(syscall.SIGTERM)
			atHome = start(t, back...)
			atBox = stopping(t, place, flags...)
			atBox.wantKilled(place)
			atBox = start(t, flags...)
			waitFor(t, comeAboard(t, atHome, ashore, "--role", "mate"), up, upContent)
			waitFor(t, comeAboard(t, atBox, box, "--role", "mate"), down, downContent)
		})
	}
}

// waitFor waits until a photo is there.
func waitFor(t *testing.T, phone *aboard, sha string, content []byte) {
	t.Helper()
	for deadline := time.Now().Add(time.Minute); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		if r, got := phone.ask("GET", "/api/photos/"+sha, nil); r.StatusCode == 200 && bytes.Equal([]byte(got), content) {
			return
		}
	}
	t.Fatalf("photo %s is not there", sha)
}
