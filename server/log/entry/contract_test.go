package entry

import (
	"testing"

	"wirewake/server/log/contract"
	"wirewake/server/log/contract/cases"
)

// The cases of the contract, which the webapp judges alike.
func TestTheContractHolds(t *testing.T) {
	entries, names := cases.Read(t)
	for _, c := range entries {
		code := ""
		if _, refusal := Read(c.Text); refusal != nil {
			code = refusal.Code
		}
		if code != c.Code {
			t.Errorf("%s: %q, want %q", c.Name, code, c.Code)
		}
	}
	for _, n := range names {
		if contract.Name(n.Name) != n.Good {
			t.Errorf("the name %q is good: %t", n.Name, !n.Good)
		}
	}
	if len(entries) < 900 {
		t.Errorf("only %d cases", len(entries))
	}
}
