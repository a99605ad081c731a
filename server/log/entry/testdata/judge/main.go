// Command judge says of what a phone has signed whether it is good to the server: the webapp's tests ask it.
package main

import (
	"encoding/json"
	"log"
	"os"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

func main() {
	var asked struct {
		Entries          []string
		Key, Text, Proof string
	}
	if err := json.NewDecoder(os.Stdin).Decode(&asked); err != nil {
		log.Fatal(err)
	}
	var said struct {
		Proven []bool    `json:"proven"`
		Device uuid.UUID `json:"device"`
		Signed bool      `json:"signed"`
	}
	for _, text := range asked.Entries {
		sent, refusal := entry.Read([]byte(text))
		if refusal != nil {
			log.Fatal(refusal)
		}
		said.Proven = append(said.Proven, sent.Mark.Proves(*sent.Author, sent.Entry))
	}
	key, ok := entry.ReadKey(asked.Key)
	said.Device, said.Signed = key.Device(), ok && key.Signed(asked.Text, asked.Proof)
	if err := json.NewEncoder(os.Stdout).Encode(said); err != nil {
		log.Fatal(err)
	}
}
