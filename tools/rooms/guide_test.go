package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"
)

// named is a path that the guide names, and under are the folders that it is written below.
var (
	named = regexp.MustCompile("`([\\w*.-]+(?:/[\\w*.-]+)+)/?`")
	under = []string{"", "webapp", "webapp/src", "webapp/src/base", "webapp/src/base/desk", "webapp/src/state", "calc"}
)

// made is what there is only once it was made.
var made = []string{"webapp/screens"}

func TestWhatTheGuideNamesIsThere(t *testing.T) {
	text, err := os.ReadFile(top + "/" + guide)
	if err != nil {
		t.Fatal(err)
	}
	paths := named.FindAllStringSubmatch(string(text), -1)
	if len(paths) < 60 {
		t.Fatalf("%d paths are found in %s", len(paths), guide)
	}
	for _, path := range paths {
		if !isThere(path[1]) {
			t.Errorf("%s names %s, which is nowhere", guide, path[1])
		}
	}
	for _, none := range []string{"calc/nowhere", "text/*/nowhere.ts"} {
		if isThere(none) {
			t.Errorf("%s is found", none)
		}
	}
}

// isThere says whether a file or folder has this path, with or without its ending.
func isThere(path string) bool {
	for _, ending := range []string{"", ".ts", ".tsx"} {
		for _, folder := range under {
			if found, _ := filepath.Glob(filepath.Join(top, folder, path+ending)); len(found) > 0 {
				return true
			}
		}
	}
	return slices.Contains(made, path)
}
