package main

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/sync/exchange"
)

// The most memory the server had while 32 phones at once sent 200 entries each, read all of them, and then
// sent single entries for five seconds; against the same server before anything was asked.
func BenchmarkMemoryUnderLoad(b *testing.B) {
	wirewake, _ := pair(b)
	var most, idle, rate float64
	for b.Loop() {
		m, i, r := underLoad(b, wirewake)
		most, idle, rate = most+m, idle+i, rate+r
	}
	n := float64(b.N)
	b.ReportMetric(most/n, "MB")
	b.ReportMetric(idle/n, "idle-MB")
	b.ReportMetric(most/idle, "ratio")
	b.ReportMetric(rate/n, "entries/s")
	b.ReportMetric(0, "ns/op")
}

func underLoad(b *testing.B, wirewake string) (most, idle, rate float64) {
	const phones = 32
	data := b.TempDir()
	server := exec.Command(wirewake, "serve", "--data", data)
	url, _ := begin(b, server)
	defer end(server)
	url = strings.TrimSuffix(url, "/")
	time.Sleep(time.Second)
	idle = memory(b, server, "VmRSS:")
	out, err := exec.Command(wirewake, "invite", "--role", "mate", "--uses", fmt.Sprint(phones), "--data", data).Output()
	link := linkForm.FindStringSubmatch(string(out))
	if err != nil || link == nil {
		b.Fatalf("%v: %s", err, out)
	}
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: phones}}
	var all sync.WaitGroup
	single := make([]int, phones)
	var began time.Time
	ready := make(chan bool)
	for i := range phones {
		p := &aboard{url: url, client: client}
		r, text, err := p.try("POST", "/api/enrol", map[string]string{"invitation": link[2], "name": fmt.Sprint("phone ", i)})
		if err != nil || r.StatusCode != 200 {
			b.Fatal(err, text)
		}
		p.token = r.Cookies()[0].Value
		all.Go(func() {
			<-ready
			if err := p.sendAndRead(exchange.MaxEntries); err != nil {
				b.Error(err)
			}
			for ; time.Since(began) < 5*time.Second; single[i]++ {
				if err := p.send(1, nil); err != nil {
					b.Error(err)
					return
				}
			}
		})
	}
	began = time.Now()
	close(ready)
	all.Wait()
	total := phones * exchange.MaxEntries
	for _, n := range single {
		total += n
	}
	return memory(b, server, "VmHWM:"), idle, float64(total) / time.Since(began).Seconds()
}

// send sends so many new entries of one trip.
func (p *aboard) send(entries int, answer *exchange.Answer) error {
	trip := uuid.New()
	request := exchange.Request{Version: exchange.Version, Most: 1}
	for n := range entries {
		request.Entries = append(request.Entries, fmt.Appendf(nil, `{"id":%q,"record":%q,"kind":"touch","trip":%q,"prev":[],"at":1938081600000,"n":%d,`+
			`"set":{"rod":"port","bottom":12.8,"lineOut":61.5,"speed":1.61,"spread":{"port":{"lineOut":61.5,"drail":0.45,"lure":"bunker spoon"}}}}`,
			uuid.Must(uuid.NewV7()), uuid.New(), trip, n+1))
	}
	return p.exchange(request, answer)
}

func (p *aboard) exchange(request exchange.Request, answer *exchange.Answer) error {
	r, text, err := p.try("POST", "/api/exchange", request)
	if err == nil && r.StatusCode != 200 {
		err = fmt.Errorf("%s %s", r.Status, text)
	}
	if err != nil || answer == nil {
		return err
	}
	return json.Unmarshal([]byte(text), answer)
}

// sendAndRead sends entries, and then reads the whole log.
func (p *aboard) sendAndRead(entries int) error {
	if err := p.send(entries, nil); err != nil {
		return err
	}
	request := exchange.Request{Version: exchange.Version}
	for more := true; more; {
		var answer exchange.Answer
		if err := p.exchange(request, &answer); err != nil {
			return err
		}
		request.Epoch, request.Since, request.Check, more = answer.Epoch, answer.Upto, answer.Check, answer.More
	}
	return nil
}
