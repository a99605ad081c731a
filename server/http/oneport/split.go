// Package oneport serves http and https on one port: one number to print, to type, and to let through a
// firewall. A client of TLS speaks first, and begins with a byte that no method of HTTP begins with.
package oneport

import (
	"errors"
	"net"
	"sync"
	"time"
)

// handshake is the first byte of a TLS connection: a record of the handshake (RFC 8446, section 5.1).
const handshake = 0x16

// Split gives two listeners for one: that of the connections that begin TLS, and that of all others. A
// connection that says nothing for so long as patience is closed. Closing either closes the port.
func Split(listener net.Listener, patience time.Duration) (plain, secure net.Listener) {
	s := &split{Listener: listener, patience: patience, closed: make(chan struct{})}
	p, t := &half{s, make(chan net.Conn)}, &half{s, make(chan net.Conn)}
	go s.run(p.conns, t.conns)
	return p, t
}

type split struct {
	net.Listener
	patience time.Duration
	once     sync.Once
	closed   chan struct{}
	// err is why no more connections come, once closed is closed.
	err error
}

func (s *split) run(plain, secure chan net.Conn) {
	for {
		conn, err := s.Listener.Accept()
		if err != nil {
			// Out of files, say: the next may do.
			if passing, ok := err.(interface{ Temporary() bool }); ok && passing.Temporary() {
				time.Sleep(pause)
				continue
			}
			s.stop(err)
			return
		}
		go s.sort(conn, plain, secure)
	}
}

// pause is how long it waits after a trouble that passes, as net/http does at most.
const pause = time.Second

// sort hands a connection to its half by its first byte.
func (s *split) sort(conn net.Conn, plain, secure chan net.Conn) {
	first := make([]byte, 1)
	if err := conn.SetReadDeadline(time.Now().Add(s.patience)); err != nil {
		conn.Close()
		return
	}
	read := make(chan error, 1)
	go func() {
		_, err := conn.Read(first)
		read <- err
	}()
	select {
	case err := <-read:
		if err != nil || conn.SetReadDeadline(time.Time{}) != nil {
			conn.Close()
			return
		}
	case <-s.closed:
		conn.Close()
		return
	}
	to := plain
	if first[0] == handshake {
		to = secure
	}
	select {
	case to <- &begun{Conn: conn, first: first}:
	case <-s.closed:
		conn.Close()
	}
}

func (s *split) stop(err error) {
	s.once.Do(func() {
		s.err = err
		close(s.closed)
	})
}

// half is the listener of one kind of connections.
type half struct {
	*split
	conns chan net.Conn
}

func (h *half) Accept() (net.Conn, error) {
	select {
	case conn := <-h.conns:
		return conn, nil
	case <-h.closed:
		return nil, h.err
	}
}

func (h *half) Close() error {
	err := h.Listener.Close()
	h.stop(net.ErrClosed)
	if errors.Is(err, net.ErrClosed) {
		return nil // the other half was first
	}
	return err
}

// begun is a connection whose first byte was read already.
type begun struct {
	net.Conn
	first []byte
}

func (b *begun) Read(into []byte) (int, error) {
	if len(b.first) == 0 || len(into) == 0 {
		return b.Conn.Read(into)
	}
	n := copy(into, b.first)
	b.first = b.first[n:]
	return n, nil
}
