package bucket

import (
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"net/http/httputil"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/johannesboyne/gofakes3"
	"github.com/johannesboyne/gofakes3/backend/s3bolt"
)

// What tells the program of the tests that it is an object store this time, where that listens and in which file it keeps what it has.
const (
	listens = "WIREWAKE_BUCKET_LISTENS"
	keeps   = "WIREWAKE_BUCKET_KEEPS"
)

// Process is an object store that can be killed: the program of the tests once more, which keeps what it has in a file.
type Process struct {
	// Store stands before it, and may lose what is asked.
	*Store
	listen  string
	file    string
	running *exec.Cmd
}

// NewProcess starts one for the time of a test. The tests' TestMain calls [Main] first.
func NewProcess(t testing.TB) *Process {
	t.Helper()
	mayEnter(t)
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	p := &Process{listen: free.Addr().String(), file: filepath.Join(t.TempDir(), "objects")}
	free.Close()
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Kill)
	at := &url.URL{Scheme: "http", Host: p.listen}
	p.Store = before(t, &httputil.ReverseProxy{
		Rewrite:      func(r *httputil.ProxyRequest) { r.SetURL(at) },
		ErrorHandler: func(http.ResponseWriter, *http.Request, error) { panic(http.ErrAbortHandler) },
		ErrorLog:     log.New(io.Discard, "", 0),
	})
	return p
}

// Start starts it with what its file holds, and waits until it answers.
func (p *Process) Start() error {
	program, err := os.Executable()
	if err != nil {
		return err
	}
	p.running = exec.Command(program)
	p.running.Env = append(os.Environ(), listens+"="+p.listen, keeps+"="+p.file)
	said := &strings.Builder{}
	p.running.Stderr = said
	// It ends when nobody holds the other end any more: with the tests, however these do.
	if _, err := p.running.StdinPipe(); err != nil {
		return err
	}
	if err := p.running.Start(); err != nil {
		return err
	}
	for range 600 {
		if r, err := http.Get("http://" + p.listen); err == nil {
			r.Body.Close()
			return nil
		}
		time.Sleep(50 * time.Millisecond)
	}
	p.Kill()
	return fmt.Errorf("the object store does not begin: %s", said)
}

// Kill ends it at once, whatever it is doing.
func (p *Process) Kill() {
	if p.running != nil {
		_ = p.running.Process.Kill()
		_ = p.running.Wait()
		p.running = nil
	}
}

// Main is the object store where the program was started as one, and does not come back then.
func Main() {
	listen := os.Getenv(listens)
	if listen == "" {
		return
	}
	if err := serve(listen, os.Getenv(keeps)); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(0)
}

func serve(listen, file string) error {
	opened, err := s3bolt.NewFile(file)
	if err != nil {
		return err
	}
	kept := &disk{Backend: opened}
	if there, err := kept.BucketExists(name); err != nil {
		return err
	} else if !there {
		if err := kept.CreateBucket(name); err != nil {
			return err
		}
	}
	go func() {
		_, _ = io.Copy(io.Discard, os.Stdin)
		os.Exit(0)
	}()
	return http.ListenAndServe(listen, gofakes3.New(kept).Server())
}
