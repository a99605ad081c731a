package enrol_test

import (
	"bytes"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/memory"
	"wirewake/server/store"
)

// Whatever strangers send, and whatever is sent with a skipper's credential, is answered in the server's own words and
// never as its fault; no stranger comes aboard by it.
func FuzzAsk(f *testing.F) {
	key := harness.NewKey()
	f.Add("/api/asks", []byte(`{"name":"Gus","key":"`+key.Public()+`","proof":"`+key.Sign("wirewake ask\nGus")+`"}`))
	f.Add("/api/asks", []byte(`{"name":"Gus","key":"AAAA","proof":"AAAA"}`))
	f.Add("/api/enrol", []byte(`{"ask":"AAAAAAAAAAAAAAAAAAAAAA","name":"Gus","key":"`+key.Public()+`","proof":"AAAA"}`))
	f.Add("/api/asks/"+uuid.NewString()+"/welcome", []byte(`{"word":"limoda","role":"guest","trip":"`+uuid.NewString()+`"}`))
	f.Add("/api/asks/"+uuid.NewString()+"/decline", []byte(`{"word":"limoda","block":true}`))
	f.Add("/api/asks/unblock", []byte(`[]`))
	b := harness.NewBoat(f, memory.Dir(f))
	f.Cleanup(b.Close)
	skipper := b.Aboard(f, "S", store.Skipper, nil)
	f.Fuzz(func(t *testing.T, path string, body []byte) {
		switch path {
		case "/api/asks", "/api/enrol", "/api/asks/unblock":
		default:
			path = "/api/asks/" + uuid.NewString() + "/welcome"
		}
		for who, asker := range map[string]*harness.Asker{"a stranger": b.Stranger(), "the skipper": skipper} {
			r := asker.Ask("POST", path, bytes.NewReader(body), "Content-Type", "application/json")
			if r.Status >= 500 {
				t.Errorf("%s, %s: %d %s", who, path, r.Status, r.Body)
			}
			if who == "a stranger" && len(r.Header.Values("Set-Cookie")) > 0 {
				t.Errorf("%s, %s: aboard", who, path)
			}
		}
	})
}
