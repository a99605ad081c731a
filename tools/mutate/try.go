package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
)

// try runs the tests with the change; noticed says that they fail. That it does not compile is an error.
func (c *change) try(root string) (noticed bool, err error) {
	source := filepath.Join(root, c.file)
	text, err := os.ReadFile(source)
	if err != nil {
		return false, err
	}
	changed, err := c.apply(string(text))
	if err != nil {
		return false, err
	}
	if strings.HasSuffix(c.file, ".go") {
		return c.tryGo(root, source, changed)
	}
	return c.tryInPlace(root, source, string(text), changed)
}

// tryGo gives the changed file to Go as an overlay.
func (c *change) tryGo(root, source, changed string) (noticed bool, err error) {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return false, err
	}
	defer os.RemoveAll(dir)
	source, err = filepath.Abs(source)
	if err != nil {
		return false, err
	}
	file, overlay := filepath.Join(dir, "changed.go"), filepath.Join(dir, "overlay.json")
	replace, err := json.Marshal(map[string]map[string]string{"Replace": {source: file}})
	if err != nil {
		return false, err
	}
	if err := errors.Join(os.WriteFile(file, []byte(changed), 0o600), os.WriteFile(overlay, replace, 0o600)); err != nil {
		return false, err
	}
	var packages []string
	for _, word := range c.tests {
		if !strings.HasPrefix(word, "-") {
			packages = append(packages, word)
		}
	}
	build := exec.Command("go", append([]string{"build", "-o", os.DevNull, "-overlay", overlay}, packages...)...)
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		return false, fmt.Errorf("%v does not compile: %s", c, out)
	}
	test := exec.Command("go", append([]string{"test", "-failfast", "-overlay", overlay}, c.tests...)...)
	test.Dir = root
	return failed(test.Run())
}

// tryInPlace changes a file of the webapp, runs the tests, and puts it back.
func (c *change) tryInPlace(root, source, text, changed string) (noticed bool, err error) {
	stop := make(chan os.Signal, 1)
	signal.Notify(stop, os.Interrupt)
	defer signal.Stop(stop)
	defer func() { err = errors.Join(err, os.WriteFile(source, []byte(text), 0o644)) }()
	if err := os.WriteFile(source, []byte(changed), 0o644); err != nil {
		return false, err
	}
	test := exec.Command("npx", append([]string{"vitest", "run"}, c.tests...)...)
	if strings.HasSuffix(c.tests[0], ".spec.ts") {
		build := exec.Command("make", "build")
		build.Dir = root
		if out, err := build.CombinedOutput(); err != nil {
			return false, fmt.Errorf("%v cannot be built: %s", c, out)
		}
		test = exec.Command("npx", append([]string{"playwright", "test", "-x", "--workers=1"}, c.tests...)...)
	}
	test.Dir = filepath.Join(root, "webapp")
	noticed, err = failed(test.Run())
	select {
	case <-stop:
		return false, errInterrupted
	default:
		return noticed, err
	}
}

var errInterrupted = errors.New("interrupted")

// failed says that tests ran and some failed.
func failed(err error) (bool, error) {
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		return true, nil
	}
	return false, err
}
