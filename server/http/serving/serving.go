// Package serving listens, serves http and https on one port, and lets answers under way finish before it ends.
package serving

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"syscall"
	"time"

	"wirewake/server/http/oneport"
)

// Proof is what the server shows to prove who it is; one that has Protocols speaks these too.
type Proof interface {
	GetCertificate(*tls.ClientHelloInfo) (*tls.Certificate, error)
}

// Limits are how long the server waits for others.
type Limits struct {
	header, read, write, idle, stop time.Duration
}

// Patience suits phones at the far end of a marina's wireless: at 2 KB/s five minutes bring the whole app
// down, and a part of a photo up.
var Patience = Limits{
	header: 10 * time.Second,
	read:   5 * time.Minute,
	write:  5 * time.Minute,
	idle:   2 * time.Minute,
	stop:   10 * time.Second,
}

// Listen opens a port. The error says in plain words what to do.
func Listen(address string) (net.Listener, error) {
	listener, err := net.Listen("tcp", address)
	switch {
	case err == nil:
		return listener, nil
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("%s is in use, perhaps by another wirewake, as a service for instance; stop that one. Another port with --listen is "+
			"for another server with a --data of its own: to phones another port is another address", address)
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("this user may not listen on %s; choose a port from 1024 up with --listen", address)
	case errors.Is(err, syscall.EADDRNOTAVAIL):
		return nil, fmt.Errorf("this computer does not have the address in %s; start with --listen :PORT to listen on all it has", address)
	}
	if wrong := (*net.AddrError)(nil); errors.As(err, &wrong) {
		return nil, fmt.Errorf("cannot listen on %s: a port is a number from 1 to 65535, such as 8610", address)
	}
	return nil, fmt.Errorf("cannot listen on %s: %w", address, err)
}

// Until serves until ctx is done, then lets answers under way finish.
func Until(ctx context.Context, listener net.Listener, proof Proof, handler http.Handler, log *slog.Logger, wait Limits) error {
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: wait.header,
		ReadTimeout:       wait.read,
		WriteTimeout:      wait.write,
		IdleTimeout:       wait.idle,
		MaxHeaderBytes:    8 << 10,
		ErrorLog:          slog.NewLogLogger(handshakes{log.Handler()}, slog.LevelWarn),
	}
	stopped := make(chan error, 1)
	go func() {
		<-ctx.Done()
		log.Info("stopping")
		limit, cancel := context.WithTimeout(context.Background(), wait.stop)
		defer cancel()
		err := server.Shutdown(limit)
		if errors.Is(err, context.DeadlineExceeded) {
			log.Warn("stopped before every answer was sent", "waited", wait.stop)
			err = server.Close()
		}
		stopped <- err
	}()
	err := serveBoth(server, listener, proof, wait.header)
	if !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-stopped
}

// serveBoth serves http, and https besides where there is a proof to show.
func serveBoth(server *http.Server, listener net.Listener, proof Proof, patience time.Duration) error {
	if proof == nil {
		return server.Serve(listener)
	}
	server.TLSConfig = &tls.Config{GetCertificate: proof.GetCertificate, MinVersion: tls.VersionTLS12, NextProtos: []string{"h2", "http/1.1"}}
	if more, ok := proof.(interface{ Protocols() []string }); ok {
		server.TLSConfig.NextProtos = append(server.TLSConfig.NextProtos, more.Protocols()...)
	}
	plain, secure := oneport.Split(listener, patience)
	ended := make(chan error, 2)
	go func() { ended <- server.Serve(plain) }()
	go func() { ended <- server.ServeTLS(secure, "", "") }()
	return <-ended
}

// handshakes lowers what net/http warns of when a phone does not trust the certificate, yet: that is every
// phone's first look, and it is told on the phone.
type handshakes struct{ slog.Handler }

func (h handshakes) Handle(ctx context.Context, r slog.Record) error {
	if strings.HasPrefix(r.Message, "http: TLS handshake error") {
		r.Level = slog.LevelDebug
		if !h.Enabled(ctx, r.Level) {
			return nil
		}
	}
	return h.Handler.Handle(ctx, r)
}
