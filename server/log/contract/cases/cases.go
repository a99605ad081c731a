// Package cases reads the cases of the contract, which server and webapp judge alike. It is for tests.
package cases

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"testing"
)

// An Entry as a phone would send it, and the code of the refusal that it gets; with none it is taken.
type Entry struct {
	Name, Code string
	Text       []byte
}

// A Name of who writes, and whether it may be one.
type Name struct {
	Name string
	Good bool
}

// Read has all of them.
func Read(t testing.TB) ([]Entry, []Name) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root(t), "server/log/contract/entries.json"))
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
		Names []Name
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	entries := make([]Entry, len(file.Cases))
	for i, c := range file.Cases {
		fields := maps.Clone(file.Base)
		maps.Copy(fields, c.With)
		for _, name := range c.Without {
			delete(fields, name)
		}
		// Written field by field: encoding/json would mend what is wrong with a value.
		var whole []byte
		for name, value := range fields {
			whole = append(append(append(append(whole, ',', '"'), name...), '"', ':'), value...)
		}
		whole[0] = '{'
		entries[i] = Entry{Name: c.Name, Code: c.Code, Text: append(whole, '}')}
	}
	return entries, file.Names
}

// root is the folder of the module, above whatever is tested: the program knows of no folder that it was built in.
func root(t testing.TB) string {
	t.Helper()
	folder, err := os.Getwd()
	for err == nil {
		if _, err = os.Stat(filepath.Join(folder, "go.mod")); err == nil {
			return folder
		}
		if above := filepath.Dir(folder); above != folder {
			folder, err = above, nil
		}
	}
	t.Fatal(err)
	return ""
}
