// Command sbom writes down what a wirewake is made of, as CycloneDX: the Go modules that are in the binary, and of the
// webapp's packages those that are in it. Two runs on the same source write the same.
//
//	go run ./tools/sbom VERSION BINARY
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"slices"
)

const generator = "github.com/CycloneDX/cyclonedx-gomod/cmd/cyclonedx-gomod@v1.10.0"

// Packages that are no part of the app but make data that is.
var madeInto = []string{"@neaps/tide-database"}

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "usage: sbom VERSION BINARY")
		os.Exit(2)
	}
	if err := write(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "sbom:", err)
		os.Exit(1)
	}
}

func write(version, binary string) error {
	modules, err := run(".", "go", "run", generator, "bin", "-json", "-output-version", "1.5",
		"-noserial", "-notimestamp", "-std", "-licenses", "-assert-licenses", "-version", version, binary)
	if err != nil {
		return err
	}
	packages, err := run("webapp", "npm", "sbom", "--sbom-format", "cyclonedx")
	if err != nil {
		return err
	}
	bill, err := join(modules, packages)
	if err != nil {
		return err
	}
	_, err = os.Stdout.Write(bill)
	return err
}

// run gives what a program prints. What it complains of is shown when it fails.
func run(dir, name string, args ...string) ([]byte, error) {
	var said bytes.Buffer
	command := exec.Command(name, args...)
	command.Dir = dir
	command.Stderr = &said
	out, err := command.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %w\n%s", name, err, said.String())
	}
	return out, nil
}

type bom struct {
	Schema       string           `json:"$schema"`
	Format       string           `json:"bomFormat"`
	Spec         string           `json:"specVersion"`
	Version      int              `json:"version"`
	Metadata     map[string]any   `json:"metadata"`
	Components   []map[string]any `json:"components"`
	Dependencies []map[string]any `json:"dependencies"`
}

// join puts the webapp's packages beside the modules, and leaves out what tells of the machine or the hour.
func join(modules, packages []byte) ([]byte, error) {
	var all, app bom
	if err := json.Unmarshal(modules, &all); err != nil {
		return nil, fmt.Errorf("the list of modules: %w", err)
	}
	if err := json.Unmarshal(packages, &app); err != nil {
		return nil, fmt.Errorf("the list of packages: %w", err)
	}
	if all.Spec != app.Spec {
		return nil, fmt.Errorf("one list is of CycloneDX %s, the other of %s", all.Spec, app.Spec)
	}
	delete(all.Metadata, "tools")
	listed := map[any]bool{}
	for _, component := range app.Components {
		name, _ := component["name"].(string)
		if developsOnly(component) && !slices.Contains(madeInto, name) {
			continue
		}
		listed[component["bom-ref"]] = true
		all.Components = append(all.Components, component)
	}
	for _, dependency := range app.Dependencies {
		if !listed[dependency["ref"]] {
			continue
		}
		on, _ := dependency["dependsOn"].([]any)
		dependency["dependsOn"] = slices.DeleteFunc(on, func(ref any) bool { return !listed[ref] })
		all.Dependencies = append(all.Dependencies, dependency)
	}
	for _, name := range madeInto {
		if !slices.ContainsFunc(all.Components, func(c map[string]any) bool { return c["name"] == name }) {
			return nil, fmt.Errorf("no package %s", name)
		}
	}
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	err := encoder.Encode(all)
	return out.Bytes(), err
}

// developsOnly says whether npm has marked a package as one that nothing of the app needs.
func developsOnly(component map[string]any) bool {
	properties, _ := component["properties"].([]any)
	return slices.ContainsFunc(properties, func(p any) bool {
		property, _ := p.(map[string]any)
		return property["name"] == "cdx:npm:package:development" && property["value"] == "true"
	})
}
