package contract_test

import (
	"testing"

	"wirewake/server/log/contract"
)

// The words are those of the app's own texts (webapp/src/state/entry/ours.test.ts holds the list to them).
func TestNamesThatAreTheAppsOwnWords(t *testing.T) {
	for _, name := range []string{
		"this phone", "This Phone", "this  phone.", "thisphone", "este teléfono", "este telefono", "ESTE TELÉFONO", "another phone", "otro teléfono",
		"Skipper", "skipper", "sk1pper", "Ѕkipper", "patrón", "Patron", "mate", "Invitado",
		"Ann, brought by Ben", "Ann brought by Ben", "Ann, traído por Ben", "Ann, traido por Ben",
		"Ann (skipper)", "Ann [Mate]", "Ann（skipper）", "Ann (patrón)", "(skipper) Ann", "Ann, skipper", "Skipper: Ann",
	} {
		if !contract.Ours(name) {
			t.Errorf("%q could be anybody's name", name)
		}
	}
	for _, name := range []string{
		"Ann", "Ann's phone", "Skipper Ann", "Skipper's phone", "Mate 2", "Mateo", "Ann (blue phone)", "Ben, 2", "Patronella", "Guest 1", "|", "(", "Ann ()",
	} {
		if contract.Ours(name) {
			t.Errorf("%q could be nobody's name", name)
		}
	}
}
