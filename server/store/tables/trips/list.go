package trips

import (
	"encoding/hex"
	"encoding/json"

	"github.com/google/uuid"
)

// List is what a statement takes for the trips that a device is bound to: null for all, else a list of hex digits.
func List(trips []uuid.UUID) any {
	if trips == nil {
		return nil
	}
	all := make([]string, len(trips))
	for i, trip := range trips {
		all[i] = hex.EncodeToString(trip[:])
	}
	text, err := json.Marshal(all)
	if err != nil {
		panic(err) // strings are JSON
	}
	return string(text)
}

// Listed are the trips of a list, for a statement.
func Listed(list string) string { return "SELECT unhex(value) FROM json_each(" + list + ")" }
