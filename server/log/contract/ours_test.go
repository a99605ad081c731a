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
		"The skipper", "Your skipper", "The sk1pper", "El patrón", "Su patron", "the-skipper", "the_skipper",
		"Not this phone", "Your sk|pper", "The skip\u200dper", "The skip-per", "the s k i p p e r",
	} {
		if !contract.Ours(name) {
			t.Errorf("%q could be anybody's name", name)
		}
	}
	for _, name := range []string{
		"Ann", "Ann's phone", "Skipper Ann", "Skipper's phone", "Mate 2", "Guest 1", "The Ann", "Mateo", "Matthew", "Guestin", "Crewe", "Skippy", "Ann Patronella", "Ann (blue phone)", "Ben, 2", "This Ann's phone", "|", "(", "Ann ()",
	} {
		if contract.Ours(name) {
			t.Errorf("%q could be nobody's name", name)
		}
	}
}
