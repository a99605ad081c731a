package main

import (
	"errors"
	"log/slog"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// tell gives out figures on a port of its own, if that is asked for, until quiet is called.
func (f *serveFlags) tell(registry *prometheus.Registry, log *slog.Logger) (quiet func(), err error) {
	if f.metrics == "" {
		return func() {}, nil
	}
	registry.MustRegister(collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	listener, err := listen("--metrics", f.metrics)
	if err != nil {
		return nil, err
	}
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", promhttp.HandlerFor(registry, promhttp.HandlerOpts{}))
	server := &http.Server{Handler: mux, ReadHeaderTimeout: 10 * time.Second}
	log.Info("figures", "listen", listener.Addr().String())
	go func() {
		if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
			log.Error("figures are given out no more", "error", err)
		}
	}()
	return func() { server.Close() }, nil
}
