package oneport

import (
	"bufio"
	"errors"
	"io"
	"net"
	"sync"
	"testing"
	"time"
)

// heard is a listener that tells of each connection that its first byte is waited for, and of each that has it.
type heard struct {
	net.Listener
	waiting, came chan struct{}
}

func (h *heard) Accept() (net.Conn, error) {
	conn, err := h.Listener.Accept()
	if err != nil {
		return nil, err
	}
	return &first{conn, h}, nil
}

type first struct {
	net.Conn
	of *heard
}

func (f *first) Read(into []byte) (int, error) {
	f.of.waiting <- struct{}{}
	n, err := f.Conn.Read(into)
	if err == nil {
		f.of.came <- struct{}{}
	}
	return n, err
}

func open(t *testing.T, patience time.Duration) (address string, plain, secure net.Listener) {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	plain, secure = Split(listener, patience)
	t.Cleanup(func() { plain.Close() })
	return listener.Addr().String(), plain, secure
}

func dial(t *testing.T, address, says string) net.Conn {
	t.Helper()
	c, err := net.Dial("tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	if _, err := io.WriteString(c, says); err != nil {
		t.Fatal(err)
	}
	return c
}

func TestEachComesToItsHalfWhole(t *testing.T) {
	address, plain, secure := open(t, time.Minute)
	for says, half := range map[string]net.Listener{
		"GET / HTTP/1.1\n": plain, "\x16\x03\x01\x02\x00\n": secure, "\x00\n": plain, "\n": plain,
	} {
		// One that says nothing yet holds up nobody.
		dial(t, address, "")
		dial(t, address, says)
		conn, err := half.Accept()
		if err != nil {
			t.Fatal(err)
		}
		if got, err := bufio.NewReaderSize(conn, 16).ReadString('\n'); got != says || err != nil {
			t.Errorf("%q came as %q, %v", says, got, err)
		}
		conn.Close()
	}
}

func TestSilenceIsNotWaitedForForEver(t *testing.T) {
	address, _, _ := open(t, 30*time.Millisecond)
	if _, err := dial(t, address, "").Read(make([]byte, 1)); !errors.Is(err, io.EOF) {
		t.Errorf("a connection that says nothing: %v", err)
	}
}

func TestClosingEndsBothHalvesAndWhatIsOnItsWay(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address, on := listener.Addr().String(), &heard{listener, make(chan struct{}, 2), make(chan struct{}, 2)}
	plain, secure := Split(on, time.Minute)
	silent, waiting := dial(t, address, ""), dial(t, address, "GET")
	var both sync.WaitGroup
	both.Go(func() {
		for {
			if _, err := secure.Accept(); err != nil {
				if !errors.Is(err, net.ErrClosed) {
					t.Errorf("Accept: %v", err)
				}
				return
			}
		}
	})
	<-on.waiting
	<-on.waiting
	<-on.came
	for range 2 {
		if err := plain.Close(); err != nil {
			t.Error(err)
		}
	}
	if err := secure.Close(); err != nil {
		t.Error(err)
	}
	both.Wait()
	for _, c := range []net.Conn{silent, waiting} {
		if _, err := c.Read(make([]byte, 1)); err == nil {
			t.Error("a connection on its way outlives the port")
		}
	}
	if c, err := net.Dial("tcp", address); err == nil {
		c.Close()
		t.Error("the port is still open")
	}
}
