package harness

import (
	_ "embed"
	"encoding/binary"
	"errors"
	"flag"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"unsafe"

	"wirewake/server/store/sqlite/folder"
)

// The disk under the database of a test, which fails as it is told: testdata/disk.c, loaded before the C library
// that SQLite writes with.

//go:embed testdata/disk.c
var diskSource []byte

const diskVariable = "WIREWAKE_DISK"

// UnderDisk says that this process is one whose disks can be told to fail. If it is not, the test is run in one that
// is, and there is nothing left to do here.
func UnderDisk(t *testing.T) bool {
	t.Helper()
	if os.Getenv(diskVariable) != "" {
		return true
	}
	gcc, err := exec.LookPath("gcc")
	if err != nil || runtime.GOOS != "linux" {
		t.Skip("disks that fail take gcc on Linux")
	}
	dir := t.TempDir()
	source, library, control := filepath.Join(dir, "disk.c"), filepath.Join(dir, "disk.so"), filepath.Join(dir, "control")
	err = errors.Join(os.WriteFile(source, diskSource, 0o600), os.WriteFile(control, make([]byte, slots*unsafe.Sizeof(slot{})), 0o600))
	if err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command(gcc, "-shared", "-fPIC", "-O1", "-o", library, source, "-ldl").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	args := []string{"-test.run=^" + t.Name() + "$", "-test.v"}
	flag.Visit(func(f *flag.Flag) {
		if !strings.HasPrefix(f.Name, "test.") || f.Name == "test.timeout" {
			args = append(args, "-"+f.Name+"="+f.Value.String())
		}
	})
	again := exec.Command(os.Args[0], args...)
	again.Env = append(os.Environ(), "LD_PRELOAD="+library, diskVariable+"="+control)
	if memory, err := os.MkdirTemp("/dev/shm", "wirewake"); err == nil {
		// What is sure is kept by the test: the machine's own disk need not be waited for.
		defer os.RemoveAll(memory)
		again.Env = append(again.Env, "TMPDIR="+memory)
	}
	said, err := again.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	t.Logf("%s", said)
	return false
}

// slot is the control block of one disk, as the other side has it.
type slot struct {
	dir                                                           [488]byte
	asleep, left, off, lies, writeIn, flushIn, readIn, full, done int64
}

const slots = 8

var control = func() []slot {
	file, err := os.OpenFile(os.Getenv(diskVariable), os.O_RDWR, 0)
	if err != nil {
		return nil
	}
	defer file.Close()
	size := int(slots * unsafe.Sizeof(slot{}))
	block, err := syscall.Mmap(int(file.Fd()), 0, size, syscall.PROT_READ|syscall.PROT_WRITE, syscall.MAP_SHARED)
	if err != nil {
		return nil
	}
	return unsafe.Slice((*slot)(unsafe.Pointer(&block[0])), slots)
}()

// Disk is the disk of one data directory.
type Disk struct {
	slot *slot
	dir  string
}

// NewDisk is the disk with a number, from 0. In a process that is not [UnderDisk] it never fails.
func NewDisk(number int) *Disk {
	if control == nil {
		return &Disk{slot: &slot{}}
	}
	return &Disk{slot: &control[number]}
}

// Hold puts a data directory on the disk, which is well. All that is in it is surely there.
func (d *Disk) Hold(dir string) error {
	real, err := filepath.EvalSymlinks(dir)
	if err != nil {
		return err
	}
	*d.slot = slot{}
	d.dir = real
	copy(d.slot.dir[:], real)
	return d.forget()
}

// forget takes what is in the directory for what is on the disk.
func (d *Disk) forget() error {
	for _, ending := range []string{".disk", ".pending"} {
		beside, err := filepath.Glob(filepath.Join(d.dir, folder.FileName+"*"+ending))
		if err != nil {
			return err
		}
		for _, file := range beside {
			if err := os.Remove(file); err != nil {
				return err
			}
		}
	}
	return nil
}

// Well ends all that was to fail; the power stays as it is.
func (d *Disk) Well() {
	for _, what := range []*int64{&d.slot.left, &d.slot.lies, &d.slot.writeIn, &d.slot.flushIn, &d.slot.readIn, &d.slot.full} {
		atomic.StoreInt64(what, 0)
	}
}

// Quietly does something while nothing fails.
func (d *Disk) Quietly(do func()) {
	atomic.StoreInt64(&d.slot.asleep, 1)
	defer atomic.StoreInt64(&d.slot.asleep, 0)
	do()
}

// CutIn lets the power go in the midst of the operation that is so many from now, CutNow at once.
func (d *Disk) CutIn(operations int64) { atomic.StoreInt64(&d.slot.left, operations) }

// CutNow lets the power go.
func (d *Disk) CutNow() { atomic.StoreInt64(&d.slot.off, 1) }

// Off says that the power is gone.
func (d *Disk) Off() bool { return atomic.LoadInt64(&d.slot.off) == 1 }

// Lie lets the disk say that it flushed what it did not.
func (d *Disk) Lie() { atomic.StoreInt64(&d.slot.lies, 1) }

// Fill leaves no room on the disk.
func (d *Disk) Fill() { atomic.StoreInt64(&d.slot.full, 1) }

// FailIn lets a write, a flush or a read fail that is so many from now.
func (d *Disk) FailIn(what string, operations int64) {
	in := map[string]*int64{"write": &d.slot.writeIn, "flush": &d.slot.flushIn, "read": &d.slot.readIn}[what]
	atomic.StoreInt64(in, operations)
}

// Image puts into the directory what a disk holds that lost its power: all that was flushed, and of the rest any
// part, down to sectors. Nobody may have the database open any more. The power is back after it.
func (d *Disk) Image(chance *rand.Rand) error {
	for _, ending := range []string{"", "-wal"} {
		path := filepath.Join(d.dir, folder.FileName+ending)
		content, err := os.ReadFile(path + ".disk")
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue // it was never open, or is deleted
		case err != nil:
			return err
		}
		pending, err := os.ReadFile(path + ".pending")
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if err := os.WriteFile(path, partly(content, pending, chance), 0o600); err != nil {
			return err
		}
	}
	if err := os.Remove(filepath.Join(d.dir, folder.FileName+"-shm")); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return d.Hold(d.dir)
}

// sector is what a disk writes whole or not at all.
const sector = 512

// partly is a content with a part of what was still to be written.
func partly(content, pending []byte, chance *rand.Rand) []byte {
	for len(pending) >= 16 {
		at, n := int64(binary.NativeEndian.Uint64(pending)), int64(binary.NativeEndian.Uint64(pending[8:]))
		pending = pending[16:]
		luck := chance.IntN(3) // not at all, whole, in part
		if n < 0 {
			if luck > 0 && at < int64(len(content)) {
				content = content[:at]
			}
			continue
		}
		what := pending[:n]
		pending = pending[n:]
		for from := int64(0); from < n; {
			to := min(n, (at+from)/sector*sector+sector-at)
			if luck == 1 || luck == 2 && chance.IntN(2) == 0 {
				if end := at + to; end > int64(len(content)) {
					content = append(content, make([]byte, end-int64(len(content)))...)
				}
				copy(content[at+from:], what[from:to])
			}
			from = to
		}
	}
	return content
}
