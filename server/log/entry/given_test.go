package entry

import (
	"encoding/json"
	"reflect"
	"testing"

	"github.com/google/uuid"
)

// What is given out is what encoding/json makes of the entry, whatever it holds.
func TestWhatIsGivenOutIsWhatJSONMakesOfIt(t *testing.T) {
	via, mark := uuid.New(), Mark{1, 2, 0xff}
	plain := Entry{ID: uuid.New(), Record: uuid.New(), Kind: "note", Trip: uuid.New(), Prev: []uuid.UUID{}, Set: json.RawMessage(`{"text":"x"}`), At: 5, N: 7}
	amended, struck := plain, plain
	amended.Prev = []uuid.UUID{uuid.New(), uuid.New()}
	struck.Set, struck.Strike = nil, true
	for name, n := range map[string]Numbered{
		"own":     {No: 1, Author: Author{uuid.New(), "Ann's phone"}, Entry: plain},
		"signed":  {No: 1<<53 - 1, Author: Author{uuid.New(), "\u00e9 \"quoted\" <&> \\ \u2028"}, Mark: &mark, Entry: amended},
		"brought": {No: 3, Author: Author{uuid.New(), "Ann"}, Via: &via, ViaName: "Ben", Entry: struck},
	} {
		want, err := json.Marshal(n)
		if err != nil {
			t.Fatal(err)
		}
		got := n.JSON(n.Content())
		var ours, theirs map[string]any
		if json.Unmarshal(got, &ours) != nil || json.Unmarshal(want, &theirs) != nil || !reflect.DeepEqual(ours, theirs) {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
}
