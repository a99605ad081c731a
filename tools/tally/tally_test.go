package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const ofGo = `{"Action":"run","Package":"wirewake/calc/beat","Test":"TestA"}
{"Action":"pass","Package":"wirewake/calc/beat","Test":"TestA/part","Elapsed":9}
{"Action":"pass","Package":"wirewake/calc/beat","Test":"TestA","Elapsed":9.5}
{"Action":"skip","Package":"wirewake/calc/beat","Test":"TestB","Elapsed":0}
{"Action":"pass","Package":"wirewake/calc/beat","Elapsed":9.7}
`

const ofVitest = `{"numTotalTests":2,"testResults":[{"assertionResults":[
	{"fullName":"units add","status":"passed","duration":1500},
	{"fullName":"units later","status":"todo"}]}]}`

const ofPlaywright = `{"config":{},"suites":[{"title":"a.spec.ts","specs":[
	{"title":"goes","file":"a.spec.ts","tests":[{"status":"expected","results":[{"duration":2000}]}]},
	{"title":"at last","file":"a.spec.ts","tests":[{"status":"flaky","results":[{"duration":500},{"duration":400}]}]}],
	"suites":[{"title":"inner","specs":[
	{"title":"fails","file":"a.spec.ts","tests":[{"status":"unexpected","results":[{"duration":3000}]}]}]}]}]}`

func TestTally(t *testing.T) {
	dir := t.TempDir()
	var files []string
	for name, content := range map[string]string{"go": ofGo, "units": ofVitest, "browser": ofPlaywright} {
		file := filepath.Join(dir, name+".json")
		if err := os.WriteFile(file, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	var out bytes.Buffer
	ok, err := tally(&out, files)
	if err != nil {
		t.Fatal(err)
	}
	if ok {
		t.Error("one failed")
	}
	for _, want := range []string{
		"The slowest of go\n     9.5 s  calc/beat TestA\n",
		"The slowest of units\n     1.5 s  units add\n",
		"The slowest of browser\n     3.0 s  a.spec.ts fails\n     2.0 s  a.spec.ts goes\n     0.9 s  a.spec.ts at last\n",
		"At a second try only: a.spec.ts at last\n",
		"\n5 passed, 1 failed, 2 skipped\n",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	if ok, _ := tally(&out, nil); ok {
		t.Error("no test is no success")
	}
}

func TestWhatNoRunnerWroteIsRefused(t *testing.T) {
	for _, content := range []string{"", "{", "{}", ofGo + "{"} {
		if _, err := read([]byte(content)); err == nil {
			t.Errorf("%q was read", content)
		}
	}
}
