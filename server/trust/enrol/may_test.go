package enrol_test

import (
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/contract"
	"wirewake/server/store"
)

// What takes a right is done for whoever has it, and for nobody else.
func TestWhoMayDoWhat(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	phones := map[store.Role]*harness.Asker{
		store.Skipper: b.Aboard(t, "Ann", store.Skipper, nil), store.Mate: b.Aboard(t, "Ben", store.Mate, nil),
		store.Guest: b.Aboard(t, "Gus", store.Guest, &trip),
	}
	other := uuid.NewString()
	for what, right := range map[string]contract.Right{
		"GET /api/devices": contract.Phones, "POST /api/devices/" + other + "/revoke": contract.Phones,
		"POST /api/invitations": contract.Invite, "GET /api/invitations": contract.Invite,
		"POST /api/invitations/" + other + "/end": contract.Invite, "GET /api/asks": contract.Invite, "POST /api/asks/unblock": contract.Invite,
		"POST /api/asks/" + other + "/welcome": contract.Invite, "POST /api/asks/" + other + "/decline": contract.Invite,
	} {
		method, path, _ := strings.Cut(what, " ")
		var content any
		if method == "POST" {
			content = map[string]any{}
		}
		for role, phone := range phones {
			r := phone.Ask(method, path, content)
			if refused := r.Status == 403 && r.Code() == "role"; refused == role.May(right) {
				t.Errorf("%s of a %s: %d %s", what, role, r.Status, r.Body)
			}
		}
	}
}
