package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strings"
)

// read tells by its form which runner wrote the file.
func read(content []byte) ([]test, error) {
	var form struct {
		Action      string
		TestResults json.RawMessage `json:"testResults"`
		Suites      json.RawMessage `json:"suites"`
	}
	err := json.NewDecoder(bytes.NewReader(content)).Decode(&form)
	switch {
	case err != nil:
		return nil, err
	case form.Action != "":
		return readGo(content)
	case form.TestResults != nil:
		return readVitest(form.TestResults)
	case form.Suites != nil:
		return readPlaywright(form.Suites)
	}
	return nil, errors.New("neither of go test, nor of vitest, nor of Playwright")
}

// readGo reads the events of go test -json: https://pkg.go.dev/cmd/test2json. The parts of a test are counted, its time
// is told of the whole.
func readGo(content []byte) ([]test, error) {
	var tests []test
	for events := json.NewDecoder(bytes.NewReader(content)); ; {
		var event struct {
			Action, Package, Test string
			Elapsed               float64
		}
		err := events.Decode(&event)
		if err == io.EOF {
			return tests, nil
		}
		if err != nil {
			return nil, err
		}
		outcome, over := map[string]outcome{"pass": passed, "fail": failed, "skip": skipped}[event.Action]
		if !over || event.Test == "" {
			continue
		}
		if strings.Contains(event.Test, "/") {
			event.Elapsed = 0
		}
		tests = append(tests, test{strings.TrimPrefix(event.Package, "wirewake/") + " " + event.Test, event.Elapsed, outcome})
	}
}

// readVitest reads vitest's JSON report, whose times are in ms.
func readVitest(content json.RawMessage) ([]test, error) {
	var files []struct {
		AssertionResults []struct {
			FullName, Status string
			Duration         float64
		}
	}
	if err := json.Unmarshal(content, &files); err != nil {
		return nil, err
	}
	var tests []test
	for _, file := range files {
		for _, one := range file.AssertionResults {
			result := outcome(one.Status)
			if result != passed && result != failed {
				result = skipped
			}
			tests = append(tests, test{one.FullName, one.Duration / 1000, result})
		}
	}
	return tests, nil
}

// suite is a file or a group of tests in Playwright's JSON report, whose times are in ms.
type suite struct {
	Suites []suite
	Specs  []struct {
		Title, File string
		Tests       []struct {
			Status  string
			Results []struct{ Duration float64 }
		}
	}
}

func readPlaywright(content json.RawMessage) ([]test, error) {
	var suites []suite
	if err := json.Unmarshal(content, &suites); err != nil {
		return nil, err
	}
	var tests []test
	for _, s := range suites {
		tests = append(tests, s.tests()...)
	}
	return tests, nil
}

func (s suite) tests() []test {
	var tests []test
	for _, inner := range s.Suites {
		tests = append(tests, inner.tests()...)
	}
	for _, spec := range s.Specs {
		for _, one := range spec.Tests {
			result, known := map[string]outcome{"expected": passed, "skipped": skipped, "flaky": flaky}[one.Status]
			if !known {
				result = failed
			}
			var seconds float64
			for _, run := range one.Results {
				seconds += run.Duration / 1000
			}
			tests = append(tests, test{spec.File + " " + spec.Title, seconds, result})
		}
	}
	return tests
}
