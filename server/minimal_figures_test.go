//go:build linux

package main

import (
	"bytes"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
)

// Single entries from 32 mates' phones to the binary that make build made, each on the disk before it is answered; against
// the least server that does so, by turns: entries a second, and the processor time that each took of an entry.
func BenchmarkBesideMinimal(b *testing.B) {
	wirewake, _ := pair(b)
	minimal := filepath.Join(b.TempDir(), "minimal")
	build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", minimal, "./testdata/minimal")
	if out, err := build.CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	data := b.TempDir()
	ours := launched(b, exec.Command(wirewake, "serve", "--data", data))
	tokens := mates(b, ours, wirewake, data)
	theirs := launched(b, exec.Command(minimal, b.TempDir()))
	var rates, works []float64
	for b.Loop() {
		for range rounds {
			rate, work := ours.under(b, tokens)
			least, leastWork := theirs.under(b, tokens)
			rates, works = append(rates, rate/least), append(works, work/leastWork)
			b.Logf("%.0f and %.0f entries/s, %.0f and %.0f µs of an entry", rate, least, work, leastWork)
		}
	}
	reportSpread(b, "rate", rates)
	reportSpread(b, "processor", works)
	b.ReportMetric(0, "ns/op")
}

// reportSpread tells the least, the median and the most of some ratios.
func reportSpread(b *testing.B, of string, ratios []float64) {
	b.Helper()
	slices.Sort(ratios)
	b.ReportMetric(ratios[0], of+"-min")
	b.ReportMetric(ratios[len(ratios)/2], of+"-ratio")
	b.ReportMetric(ratios[len(ratios)-1], of+"-max")
}

// running is a server of its own process.
type running struct {
	server *exec.Cmd
	url    string
	client *http.Client
}

const clients = 32

// rounds are the turns of each.
const rounds = 7

func launched(b *testing.B, server *exec.Cmd) *running {
	b.Helper()
	url, _ := begin(b, server)
	b.Cleanup(func() { end(server) })
	return &running{server, strings.TrimSuffix(url, "/"), &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: clients}}}
}

// mates takes phones aboard, and gives what each proves itself with.
func mates(b *testing.B, s *running, wirewake, data string) (tokens []string) {
	b.Helper()
	out, err := exec.Command(wirewake, "invite", "--role", "mate", "--uses", fmt.Sprint(clients), "--data", data).Output()
	link := linkForm.FindStringSubmatch(string(out))
	if err != nil || link == nil {
		b.Fatalf("%v: %s", err, out)
	}
	for i := range clients {
		p := &aboard{url: s.url, client: s.client}
		r, text, err := p.try("POST", "/api/enrol", map[string]string{"invitation": link[2], "name": fmt.Sprint("phone ", i)})
		if err != nil || r.StatusCode != 200 {
			b.Fatal(err, text)
		}
		tokens = append(tokens, r.Cookies()[0].Value)
	}
	return tokens
}

// under is how many entries a second the phones bring in for a second, and the processor time of the server for each, µs.
func (s *running) under(b *testing.B, tokens []string) (rate, work float64) {
	b.Helper()
	var all sync.WaitGroup
	counts := make([]int, len(tokens))
	began, from := time.Now(), s.processor(b)
	for i, token := range tokens {
		trip := uuid.New()
		all.Go(func() {
			for time.Since(began) < time.Second {
				if err := s.post(token, withOneNote(trip, counts[i])); err != nil {
					b.Error(err)
					return
				}
				counts[i]++
			}
		})
	}
	all.Wait()
	total := 0
	for _, n := range counts {
		total += n
	}
	took, used := time.Since(began), s.processor(b)-from
	return float64(total) / took.Seconds(), float64(used.Microseconds()) / float64(total)
}

// withOneNote is a request with one entry, of a phone that asks for next to nothing.
func withOneNote(trip uuid.UUID, n int) []byte {
	return fmt.Appendf(nil, `{"version":1,"most":1,"entries":[{"id":%q,"record":%q,"kind":"note","trip":%q,"prev":[],`+
		`"set":{"text":"birds to the east, bait on the screen at 25 ft"},"at":1938081600000,"n":%d}]}`,
		uuid.Must(uuid.NewV7()), uuid.New(), trip, n+1)
}

func (s *running) post(token string, body []byte) error {
	r, err := http.NewRequest("POST", s.url+"/api/exchange", bytes.NewReader(body))
	if err != nil {
		return err
	}
	r.Header.Set("Origin", s.url)
	r.Header.Set("Content-Type", "application/json")
	r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: token})
	response, err := s.client.Do(r)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err == nil && response.StatusCode != 200 {
		err = fmt.Errorf("%s %s", response.Status, text)
	}
	return err
}

// processor is the time that the server has had of the processors so far.
func (s *running) processor(b *testing.B) time.Duration {
	b.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", s.server.Process.Pid))
	if err != nil {
		b.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), ") ")
	fields := strings.Fields(rest)
	var user, system int64
	if _, err := fmt.Sscan(fields[11]+" "+fields[12], &user, &system); err != nil {
		b.Fatal(err)
	}
	return time.Duration(user+system) * 10 * time.Millisecond
}
