package entry

import (
	"encoding/json"
	"maps"
	"os"
	"testing"

	"wirewake/server/log/contract"
)

// The cases of the contract, which the webapp judges alike.
func TestTheContractHolds(t *testing.T) {
	text, err := os.ReadFile("../contract/entries.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Base  map[string]json.RawMessage
		Cases []struct {
			Name, Code string
			With       map[string]json.RawMessage
			Without    []string
		}
		Names []struct {
			Name string
			Good bool
		}
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	for _, c := range file.Cases {
		fields := maps.Clone(file.Base)
		maps.Copy(fields, c.With)
		for _, name := range c.Without {
			delete(fields, name)
		}
		// Written field by field: encoding/json would mend what is wrong with a value.
		var entry []byte
		for name, value := range fields {
			entry = append(append(append(append(entry, ',', '"'), name...), '"', ':'), value...)
		}
		entry[0] = '{'
		code := ""
		if _, refusal := Read(append(entry, '}')); refusal != nil {
			code = refusal.Code
		}
		if code != c.Code {
			t.Errorf("%s: %q, want %q", c.Name, code, c.Code)
		}
	}
	for _, n := range file.Names {
		if contract.Name(n.Name) != n.Good {
			t.Errorf("the name %q is good: %t", n.Name, !n.Good)
		}
	}
	if len(file.Cases) < 900 {
		t.Errorf("only %d cases", len(file.Cases))
	}
}
