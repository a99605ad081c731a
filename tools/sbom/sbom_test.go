package main

import (
	"encoding/json"
	"strings"
	"testing"
)

const modules = `{"bomFormat":"CycloneDX","specVersion":"1.5","version":1,
	"metadata":{"tools":[{"name":"a","hashes":[{"content":"of this machine"}]}],"component":{"name":"wirewake"}},
	"components":[{"bom-ref":"m","name":"echo"}],"dependencies":[{"ref":"m"}]}`

const packages = `{"specVersion":"1.5","serialNumber":"urn:uuid:1","metadata":{"timestamp":"today"},"components":[
	{"bom-ref":"p","name":"preact"},
	{"bom-ref":"v","name":"vite","properties":[{"name":"cdx:npm:package:development","value":"true"}]},
	{"bom-ref":"t","name":"@neaps/tide-database","properties":[{"name":"cdx:npm:package:development","value":"true"}]}],
	"dependencies":[{"ref":"p","dependsOn":["v"]},{"ref":"t","dependsOn":["v","p"]},{"ref":"v","dependsOn":[]}]}`

func TestWhatIsInside(t *testing.T) {
	out, err := join([]byte(modules), []byte(packages))
	if err != nil {
		t.Fatal(err)
	}
	var got bom
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, c := range got.Components {
		names = append(names, c["name"].(string))
	}
	if strings.Join(names, " ") != "echo preact @neaps/tide-database" {
		t.Errorf("components %v", names)
	}
	if len(got.Dependencies) != 3 {
		t.Errorf("dependencies %v", got.Dependencies)
	}
	for _, left := range []string{"of this machine", "today", "urn:uuid", `"v"`} {
		if strings.Contains(string(out), left) {
			t.Errorf("%s is left in it", left)
		}
	}
}

func TestListsThatDoNotGoTogetherAreRefused(t *testing.T) {
	for packages, want := range map[string]string{
		strings.Replace(packages, "1.5", "1.7", 1): "one list is of CycloneDX 1.5, the other of 1.7",
		strings.Replace(packages, "neaps", "x", 1): "no package @neaps/tide-database",
		"{": "the list of packages",
	} {
		if _, err := join([]byte(modules), []byte(packages)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}
