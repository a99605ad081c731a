package main

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"wirewake/embed"
)

// The figures are of the binary that make build made, each with its ratio to a bare echo server that is
// built and measured in the same run.
const built = "../bin/wirewake"

func pair(b *testing.B) (wirewake, bare string) {
	b.Helper()
	if _, err := os.Stat(built); err != nil {
		b.Skip("there is no bin/wirewake: make build makes it")
	}
	bare = filepath.Join(b.TempDir(), "bare")
	build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", bare, "./testdata/bare")
	if out, err := build.CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	return built, bare
}

func BenchmarkBinarySize(b *testing.B) {
	wirewake, bare := pair(b)
	size := func(file string) float64 {
		info, err := os.Stat(file)
		if err != nil {
			b.Fatal(err)
		}
		return float64(info.Size()) / 1e6
	}
	for b.Loop() {
	}
	report(b, "MB", size(wirewake), size(bare))
}

// From starting the process to the whole of the first page, with data of an earlier run there.
func BenchmarkStartToFirstAnswer(b *testing.B) {
	wirewake, bare := pair(b)
	data := b.TempDir()
	once(b, exec.Command(wirewake, "serve", "--data", data)) // makes the data
	var ours, theirs time.Duration
	for b.Loop() {
		ours += once(b, exec.Command(wirewake, "serve", "--data", data))
		theirs += once(b, exec.Command(bare))
	}
	n := float64(b.N) * float64(time.Millisecond)
	report(b, "ms", float64(ours)/n, float64(theirs)/n)
}

// Resident memory once every file of the app was sent and nothing more is asked for.
func BenchmarkIdleMemory(b *testing.B) {
	wirewake, bare := pair(b)
	app, err := embed.App()
	if err != nil {
		b.Fatal(err)
	}
	paths := []string{"", "api/way-in", "qr.svg"}
	for _, file := range app.All() {
		paths = append(paths, file.Path)
	}
	var ours, theirs float64
	for b.Loop() {
		ours += resident(b, exec.Command(wirewake, "serve", "--data", b.TempDir()), paths)
		theirs += resident(b, exec.Command(bare), []string{""})
	}
	report(b, "MB", ours/float64(b.N), theirs/float64(b.N))
}

func report(b *testing.B, unit string, ours, theirs float64) {
	b.ReportMetric(ours, unit)
	b.ReportMetric(theirs, "bare-"+unit)
	b.ReportMetric(ours/theirs, "ratio")
	b.ReportMetric(0, "ns/op")
}

// once starts a server on a free port, waits for its first answer, ends it, and says how long it took.
func once(b *testing.B, server *exec.Cmd) time.Duration {
	b.Helper()
	_, took := begin(b, server)
	end(server)
	return took
}

func begin(b *testing.B, server *exec.Cmd) (url string, took time.Duration) {
	b.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		b.Fatal(err)
	}
	address := listener.Addr().String()
	listener.Close()
	if len(server.Args) > 1 {
		server.Args = append(server.Args, "--listen")
	}
	server.Args = append(server.Args, address)
	began := time.Now()
	if err := server.Start(); err != nil {
		b.Fatal(err)
	}
	for {
		if err := fetch("http://" + address + "/"); err == nil {
			return "http://" + address + "/", time.Since(began)
		}
		if time.Since(began) > time.Minute {
			end(server)
			b.Fatalf("%v never answered", server.Args)
		}
		time.Sleep(200 * time.Microsecond)
	}
}

func end(server *exec.Cmd) {
	server.Process.Kill()
	server.Wait()
}

func fetch(url string) error {
	r, err := http.Get(url)
	if err != nil {
		return err
	}
	defer r.Body.Close()
	_, err = io.Copy(io.Discard, r.Body)
	return err
}

// resident is the memory of a server in MB after it answered paths and was left alone for a second.
func resident(b *testing.B, server *exec.Cmd, paths []string) float64 {
	b.Helper()
	url, _ := begin(b, server)
	defer end(server)
	for _, path := range paths {
		if err := fetch(url + path); err != nil {
			b.Fatal(err)
		}
	}
	time.Sleep(time.Second)
	return memory(b, server, "VmRSS:")
}

// memory is a line of what the system says of the memory of a process, in MB.
func memory(b *testing.B, server *exec.Cmd, name string) float64 {
	b.Helper()
	status, err := os.Open(fmt.Sprintf("/proc/%d/status", server.Process.Pid))
	if err != nil {
		b.Skipf("this system does not say how much memory a process has: %v", err)
	}
	defer status.Close()
	for lines := bufio.NewScanner(status); lines.Scan(); {
		if value, ok := strings.CutPrefix(lines.Text(), name); ok {
			kB, err := strconv.Atoi(strings.TrimSuffix(strings.TrimSpace(value), " kB"))
			if err != nil {
				b.Fatal(err)
			}
			return float64(kB) * 1024 / 1e6
		}
	}
	b.Fatalf("no %s in the status of the process", name)
	return 0
}
