package quay

import (
	"context"
	"encoding/json"
	"fmt"
	"html"
	"net/http"
	"strconv"
	"strings"
	"time"

	"wirewake/server/answer/problem"
)

// refusal is why a boat is not served. Spanish is what a page says besides; on the phone the app says it by the code.
type refusal struct {
	*problem.Problem
	spanish string
	cause   error
}

var (
	unknown = &refusal{Problem: &problem.Problem{Status: http.StatusNotFound, Code: "nothing", Text: "There is no boat of this name here."},
		spanish: "Aquí no hay ninguna embarcación con este nombre."}
	suspended = &refusal{Problem: &problem.Problem{Status: http.StatusServiceUnavailable, Code: "suspended",
		Text: "This boat is not served for now; who keeps the harbour says why. All that is on this phone stays here and is sent later."},
		spanish: "Por ahora no se atiende a esta embarcación; quien cuida el puerto dice por qué. Todo lo que hay en este teléfono se queda aquí y se envía más tarde."}
	often = &refusal{Problem: &problem.Problem{Status: http.StatusTooManyRequests, Code: "often", RetryAfter: time.Second,
		Text: "The phones of this boat ask more than the harbour answers in a second. All that is on this phone stays here and is sent a little later."}}
)

// away is a database that cannot be asked.
func away(err error) *refusal {
	return &refusal{Problem: problem.NoStore, cause: err,
		spanish: "El servidor no puede usar ahora su almacén; su registro dice por qué. Todo lo que hay en este teléfono se queda aquí y se envía más tarde."}
}

func (q *Quay) refuse(w http.ResponseWriter, r *http.Request, name string, why *refusal) {
	if why.cause != nil {
		q.Log.Error("a boat cannot be opened", "boat", name, "error", why.cause, "request", w.Header().Get("X-Request-Id"))
	}
	q.count(r, why.Status)
	switch {
	case why.RetryAfter > 0:
		w.Header().Set("Retry-After", strconv.Itoa(int(why.RetryAfter/time.Second)))
	case why.Status == http.StatusServiceUnavailable:
		w.Header().Set("Retry-After", "5")
	}
	if !strings.HasPrefix(r.URL.Path, "/api/") {
		page(w, why)
		return
	}
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(why.Status)
	_ = json.NewEncoder(w).Encode(map[string]string{"code": why.Code, "text": why.Text}) // the phone may have gone
}

// page is what a browser shows of a boat that is not served, in both languages; of one that may be served later it asks again by itself.
func page(w http.ResponseWriter, why *refusal) {
	again := ""
	if why.Status == http.StatusServiceUnavailable {
		again = `<meta http-equiv="refresh" content="30">`
	}
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Security-Policy", "default-src 'none'")
	w.WriteHeader(why.Status)
	_, _ = fmt.Fprintf(w, `<!doctype html><html lang="en"><meta name="viewport" content="width=device-width">%s<title>Wirewake</title><p>%s<p lang="es">%s`+"\n",
		again, html.EscapeString(why.Text), html.EscapeString(why.spanish))
}

func say(w http.ResponseWriter, status int, text string) {
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write([]byte(text + "\n"))
}

// mostAsked is how long the database has to say that it answers.
const mostAsked = 2 * time.Second

// ready tells a balancer whether to send phones here.
func (q *Quay) ready(w http.ResponseWriter, r *http.Request) {
	ctx, cancel := context.WithTimeout(r.Context(), mostAsked)
	defer cancel()
	switch err := q.Boats.Ready(ctx); {
	case q.leaving.Load():
		say(w, http.StatusServiceUnavailable, "this server stops")
	case err != nil:
		say(w, http.StatusServiceUnavailable, "the database cannot be used; the log says why")
		q.Log.Warn("not ready", "error", err)
	default:
		say(w, http.StatusOK, "ok")
	}
}
