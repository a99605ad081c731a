package quay

import (
	"net/http"
	"strconv"
	"time"

	"github.com/prometheus/client_golang/prometheus"
)

// measures are what there is to count of the answers.
type measures struct {
	answers *prometheus.CounterVec
	took    prometheus.Histogram
	under   prometheus.Gauge
}

// Measured registers what the quay counts. Nothing of it names a boat: of many thousands there would be as many series.
func (q *Quay) Measured(by prometheus.Registerer) {
	q.measures = &measures{
		answers: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "wirewake_answers_total", Help: "Answers by method and status."}, []string{"method", "status"}),
		took: prometheus.NewHistogram(prometheus.HistogramOpts{Name: "wirewake_answer_seconds", Help: "How long answers took, without those that go on, such as news.",
			Buckets: prometheus.DefBuckets}),
		under: prometheus.NewGauge(prometheus.GaugeOpts{Name: "wirewake_answers_under_way", Help: "What is being answered, news among it."}),
	}
	boats := prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "wirewake_boats_open", Help: "Boats of which something was asked here within ten minutes."},
		func() float64 { return float64(len(q.Open())) })
	by.MustRegister(q.measures.answers, q.measures.took, q.measures.under, boats)
}

// method is that of a request, if it is one that is answered: others are strangers' own words.
func method(r *http.Request) string {
	switch r.Method {
	case http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut:
		return r.Method
	}
	return "other"
}

// serve has a request answered, counts it, and says with what status.
func (q *Quay) serve(handler http.Handler, w http.ResponseWriter, r *http.Request) (status int) {
	seen := &watched{ResponseWriter: w, status: http.StatusOK}
	m := q.measures
	if m == nil {
		handler.ServeHTTP(seen, r)
		return seen.status
	}
	m.under.Inc()
	defer m.under.Dec()
	began := time.Now()
	handler.ServeHTTP(seen, r)
	q.count(r, seen.status)
	if !seen.lasts {
		m.took.Observe(time.Since(began).Seconds())
	}
	return seen.status
}

// count counts an answer.
func (q *Quay) count(r *http.Request, status int) {
	if q.measures != nil {
		q.measures.answers.WithLabelValues(method(r), strconv.Itoa(status)).Inc()
	}
}

// watched is an answer of which the status is known after.
type watched struct {
	http.ResponseWriter
	status int
	lasts  bool
}

func (w *watched) WriteHeader(status int) {
	w.status, w.lasts = status, w.Header().Get("Content-Type") == "text/event-stream"
	w.ResponseWriter.WriteHeader(status)
}

// Unwrap is for [http.ResponseController].
func (w *watched) Unwrap() http.ResponseWriter { return w.ResponseWriter }
