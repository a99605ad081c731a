package postgres

import "github.com/prometheus/client_golang/prometheus"

// Measured registers what there is to know of the connections.
func (h *Harbour) Measured(by prometheus.Registerer) {
	for _, g := range []struct {
		name, help string
		is         func() float64
	}{
		{"wirewake_database_connections", "Connections to the database.", func() float64 { return float64(h.pool.Stat().TotalConns()) }},
		{"wirewake_database_connections_lent", "Those of them that are in use.", func() float64 { return float64(h.pool.Stat().AcquiredConns()) }},
		{"wirewake_database_connections_most", "As many as there may be.", func() float64 { return float64(h.pool.Stat().MaxConns()) }},
	} {
		by.MustRegister(prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: g.name, Help: g.help}, g.is))
	}
	n := &h.nearly
	for name, boats := range map[string]*map[any]bool{"entries": &n.entries, "bytes": &n.bytes} {
		by.MustRegister(prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "wirewake_boats_nearly_full", ConstLabels: prometheus.Labels{"of": name},
			Help: "Boats that had nine tenths or more of what they may, or were refused for that, when something was last brought here."}, func() float64 { return n.count(boats) }))
	}
	for _, c := range []struct {
		name, help string
		is         func() float64
	}{
		{"wirewake_database_waits_total", "How often somebody waited for a connection.", func() float64 { return float64(h.pool.Stat().EmptyAcquireCount()) }},
		{"wirewake_database_wait_seconds_total", "How long in all.", func() float64 { return h.pool.Stat().EmptyAcquireWaitTime().Seconds() }},
	} {
		by.MustRegister(prometheus.NewCounterFunc(prometheus.CounterOpts{Name: c.name, Help: c.help}, c.is))
	}
}
