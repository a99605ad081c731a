//go:build unix

// Package cluster runs PostgreSQL for tests, on a socket in a folder of its own.
package cluster

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wirewake/server/harness/memory"
)

// Cluster is a PostgreSQL of a test's own. It flushes what it says is kept, as in use; where that is memory it takes no time.
type Cluster struct {
	dir string
	bin string
	as  *syscall.Credential
	// settings are such as go with -c, from the next start on.
	settings []string
	process  *os.Process
	over     chan error
}

// errNone says that PostgreSQL is not here.
var errNone = errors.New("PostgreSQL is not here: install Debian's package postgresql")

// programs finds the folder of PostgreSQL's programs, where Debian has it or on the way of commands.
func programs() (string, error) {
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
	if path, err := exec.LookPath("initdb"); err == nil {
		found = append(found, path)
	}
	if len(found) == 0 {
		return "", errNone
	}
	// What is on the way of commands may be a link to one of them.
	program, err := filepath.EvalSymlinks(found[len(found)-1])
	return filepath.Dir(program), err
}

// nobody is as whom it runs: PostgreSQL does not run as root.
func nobody() (*syscall.Credential, error) {
	if os.Geteuid() != 0 {
		return nil, nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		if u, err := user.Lookup(name); err == nil {
			uid, _ := strconv.ParseUint(u.Uid, 10, 32)
			gid, _ := strconv.ParseUint(u.Gid, 10, 32)
			return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, nil
		}
	}
	return nil, errors.New("there is neither a user postgres nor nobody to run PostgreSQL as")
}

// New makes one in memory, where the machine has such a directory, and starts it.
func New() (*Cluster, error) { return in(memory.Make) }

// OnDisk makes one on the disk for a benchmark whose figures hang on what a flush takes, with a database of wirewake's own, and gives
// its URL.
func OnDisk(b *testing.B) (c *Cluster, url string) {
	b.Helper()
	Shared(b) // else it says why not
	c, err := in(func(name string) (string, error) { return os.MkdirTemp("", name) })
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(c.Remove)
	if url, err = c.Database("wirewake"); err != nil {
		b.Fatal(err)
	}
	return c, url
}

func in(place func(name string) (dir string, err error)) (*Cluster, error) {
	bin, err := programs()
	if err != nil {
		return nil, err
	}
	as, err := nobody()
	if err != nil {
		return nil, err
	}
	dir, err := place("wwpg")
	if err != nil {
		return nil, err
	}
	c := &Cluster{dir: dir, bin: bin, as: as}
	if err = c.own(dir); err == nil {
		var said []byte
		said, err = c.command("initdb", "--pgdata", c.data(), "--auth", "trust", "--username", "postgres", "--encoding", "UTF8", "--no-locale", "--no-sync", "--data-checksums").CombinedOutput()
		if err != nil {
			err = fmt.Errorf("initdb: %w\n%s", err, said)
		}
	}
	if err == nil {
		err = c.Start()
	}
	if err == nil {
		err = c.Do("postgres", "postgres", `CREATE ROLE wirewake LOGIN`)
	}
	if err != nil {
		c.Remove()
		return nil, err
	}
	return c, nil
}

// own makes a file that of whom it runs as.
func (c *Cluster) own(path string) error {
	if c.as == nil {
		return nil
	}
	return os.Chown(path, int(c.as.Uid), int(c.as.Gid))
}

func (c *Cluster) data() string { return filepath.Join(c.dir, "data") }

func (c *Cluster) command(name string, args ...string) *exec.Cmd {
	cmd := exec.Command(filepath.Join(c.bin, name), args...)
	cmd.Dir = c.dir
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: c.as}
	endWithTest(cmd.SysProcAttr)
	return cmd
}

// Start starts it, and waits until it answers.
func (c *Cluster) Start() error {
	log, err := os.OpenFile(filepath.Join(c.dir, "log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	defer log.Close()
	cmd := c.command("postgres", "-D", c.data(), "-c", "listen_addresses=", "-c", "unix_socket_directories="+c.dir, "-c", "fsync=on",
		"-c", "max_connections=150", "-c", "shared_buffers=64MB", "-c", "wal_level=replica", "-c", "restore_command=false",
		"-c", "jit=off") // what a test asks is sooner answered than compiled: a fifth of the processor
	for _, setting := range c.settings {
		cmd.Args = append(cmd.Args, "-c", setting)
	}
	cmd.Stdout, cmd.Stderr = log, log
	begun := make(chan error, 1)
	over := make(chan error, 1)
	c.over = over
	go func() {
		// The signal at the end is that of the thread's end.
		runtime.LockOSThread()
		begun <- cmd.Start()
		over <- cmd.Wait()
	}()
	if err := <-begun; err != nil {
		return err
	}
	c.process = cmd.Process
	for {
		err := c.Do("postgres", "postgres", `SELECT 1`)
		if err == nil {
			return nil
		}
		select {
		case ended := <-over:
			said, _ := os.ReadFile(filepath.Join(c.dir, "log"))
			return fmt.Errorf("%w, %w\n%s", ended, err, said)
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// Stop stops it well, and waits until it is over.
func (c *Cluster) Stop() { c.end(syscall.SIGINT) }

// Kill stops it as a crash does: what is in memory is lost.
func (c *Cluster) Kill() { c.end(syscall.SIGQUIT) }

func (c *Cluster) end(how os.Signal) {
	if c.process == nil {
		return
	}
	_ = c.process.Signal(how)
	<-c.over
	c.process = nil
}

// Remove stops it, and takes all of it away.
func (c *Cluster) Remove() {
	c.Kill()
	os.RemoveAll(c.dir)
}

// URL is where a database is for a user.
func (c *Cluster) URL(user, database string) string {
	return fmt.Sprintf("postgres://%s@/%s?host=%s", user, database, c.dir)
}

// Do does what statements say, as a user.
func (c *Cluster) Do(user, database string, statements ...string) error {
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, c.URL(user, database))
	if err != nil {
		return err
	}
	defer conn.Close(ctx)
	for _, statement := range statements {
		if _, err := conn.Exec(ctx, statement); err != nil {
			return err
		}
	}
	return nil
}

// Database makes a database of wirewake's own, and gives its URL.
func (c *Cluster) Database(name string) (url string, err error) {
	return c.URL("wirewake", name), c.Do("postgres", "postgres", `CREATE DATABASE `+name+` OWNER wirewake`)
}

var (
	asked  atomic.Bool
	shared = sync.OnceValues(New)
)

// Shared is one that all tests of a package have together, until [Main] is over. Where there is no PostgreSQL the test is passed over,
// saying so; in CI it fails.
func Shared(t testing.TB) *Cluster {
	t.Helper()
	asked.Store(true)
	c, err := shared()
	switch {
	case err == nil:
		return c
	case errors.Is(err, errNone) && os.Getenv("CI") == "":
		t.Skip("NOT TESTED on PostgreSQL:", err)
	default:
		t.Fatal("PostgreSQL does not start:", err)
	}
	return nil
}

// Main runs the tests of a package, and takes the shared one away after them.
func Main(m *testing.M) int {
	code := m.Run()
	if asked.Load() {
		if c, err := shared(); err == nil {
			c.Remove()
		}
	}
	return code
}

// Fresh is the URL of a database of a test's own, in the shared one.
func Fresh(t testing.TB) string {
	t.Helper()
	name := "w" + strings.ToLower(fmt.Sprintf("%x", time.Now().UnixNano()))
	url, err := Shared(t).Database(name)
	if err != nil {
		t.Fatal(err)
	}
	return url
}
