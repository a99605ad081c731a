//go:build linux

package main

import (
	"bytes"
	"cmp"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"
)

// Single entries from 32 mates' phones to the binary that make build made, each on the disk before it is answered; against
// the least server that does so, by turns: entries a second, and the processor time that each took of an entry. And the same
// phones where each is told all that the others bring, against these that ask for next to nothing.
func BenchmarkBesideMinimal(b *testing.B) {
	wirewake, _ := pair(b)
	minimal := filepath.Join(b.TempDir(), "minimal")
	build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", minimal, "./testdata/minimal")
	if out, err := build.CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	data := b.TempDir()
	ours := launched(b, exec.Command(wirewake, "serve", "--data", data))
	phones := mates(b, ours, wirewake, data)
	theirs := launched(b, exec.Command(minimal, b.TempDir()))
	var rates, works, told []float64
	for b.Loop() {
		for range rounds {
			rate, work := ours.under(b, phones)
			least, leastWork := theirs.under(b, phones)
			ours.upToNow(b, phones)
			all, allWork := ours.under(b, phones)
			for _, p := range phones {
				p.cursor = ""
			}
			rates, works, told = append(rates, rate/least), append(works, work/leastWork), append(told, all/rate)
			b.Logf("%.0f, least %.0f, told all %.0f entries/s; %.0f, %.0f and %.0f µs of an entry", rate, least, all, work, leastWork, allWork)
		}
	}
	reportSpread(b, "rate", rates)
	reportSpread(b, "processor", works)
	reportSpread(b, "told-all", told)
	b.ReportMetric(0, "ns/op")
}

// reportSpread tells the least, the median and the most of some figures.
func reportSpread(b *testing.B, of string, ratios []float64) {
	b.Helper()
	slices.Sort(ratios)
	b.ReportMetric(ratios[0], of+"-min")
	b.ReportMetric(ratios[len(ratios)/2], of+"-median")
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

// noting is a phone that brings one note after the other.
type noting struct {
	token string
	trip  uuid.UUID
	n     int
	// cursor is what it has seen, as a request says it; "" while it asks for next to nothing.
	cursor string
	// told is what it was answered last.
	told bytes.Buffer
}

// mates takes phones aboard.
func mates(b *testing.B, s *running, wirewake, data string) (all []*noting) {
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
		all = append(all, &noting{token: r.Cookies()[0].Value, trip: uuid.New()})
	}
	return all
}

// upToNow lets the phones fetch all that there is.
func (s *running) upToNow(b *testing.B, phones []*noting) {
	b.Helper()
	for _, p := range phones {
		p.cursor = `"since":0`
		for more := true; more; {
			text, err := s.post(p, fmt.Appendf(nil, `{"version":1,%s,"entries":[]}`, p.cursor))
			if err != nil {
				b.Fatal(err)
			}
			more = bytes.Contains(text, []byte(`"more":true`))
		}
	}
}

// under is how many entries a second the phones bring in for a second, and the processor time of the server for each, µs.
func (s *running) under(b *testing.B, phones []*noting) (rate, work float64) {
	b.Helper()
	var all sync.WaitGroup
	var total atomic.Int64
	began, from := time.Now(), s.processor(b)
	for _, p := range phones {
		all.Go(func() {
			for time.Since(began) < time.Second {
				if _, err := s.post(p, p.note()); err != nil {
					b.Error(err)
					return
				}
				total.Add(1)
			}
		})
	}
	all.Wait()
	took, used := time.Since(began), s.processor(b)-from
	return float64(total.Load()) / took.Seconds(), float64(used.Microseconds()) / float64(total.Load())
}

// note is a request with one more entry.
func (p *noting) note() []byte {
	p.n++
	return fmt.Appendf(nil, `{"version":1,%s,"entries":[{"id":%q,"record":%q,"kind":"note","trip":%q,"prev":[],`+
		`"set":{"text":"birds to the east, bait on the screen at 25 ft"},"at":1938081600000,"n":%d}]}`,
		cmp.Or(p.cursor, `"most":1`), uuid.Must(uuid.NewV7()), uuid.New(), p.trip, p.n)
}

// toldForm is what an answer says of how far the phone is with it. Only that is read, so that the phones take little of the
// machine.
var toldForm = regexp.MustCompile(`"epoch":"([^"]*)".*"upto":(\d+),"check":"([^"]*)"`)

func (s *running) request(p *noting, body []byte) (*http.Request, error) {
	r, err := http.NewRequest("POST", s.url+"/api/exchange", bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	r.Header.Set("Origin", s.url)
	r.Header.Set("Content-Type", "application/json")
	r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: p.token})
	return r, nil
}

func (s *running) post(p *noting, body []byte) ([]byte, error) {
	r, err := s.request(p, body)
	if err != nil {
		return nil, err
	}
	response, err := s.client.Do(r)
	if err != nil {
		return nil, err
	}
	defer response.Body.Close()
	p.told.Reset()
	_, err = p.told.ReadFrom(response.Body)
	text := p.told.Bytes()
	if err == nil && response.StatusCode != 200 {
		err = fmt.Errorf("%s %s", response.Status, text)
	}
	if err != nil || p.cursor == "" {
		return text, err
	}
	return text, p.moves(text)
}

// moves moves the cursor to where an answer leads.
func (p *noting) moves(text []byte) error {
	// The entries come first.
	end := text[max(0, bytes.LastIndex(text, []byte(`"version":`))):]
	told := toldForm.FindSubmatch(end)
	if told == nil {
		return fmt.Errorf("an answer without a cursor: %s", end)
	}
	p.cursor = fmt.Sprintf(`"epoch":%q,"since":%s,"check":%q`, told[1], told[2], told[3])
	return nil
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
