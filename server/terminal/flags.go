package terminal

import (
	"fmt"
	"regexp"
	"strings"
)

var valueForm = regexp.MustCompile(`^invalid (boolean )?value ("(?:[^"\\]|\\.)*") for (?:flag )?-([^:]+): `)

// Fault is what package flag finds wrong, in the words of these programs; a value that is none should have been of a form.
func Fault(err error, form string) string {
	fault := err.Error()
	if name, ok := strings.CutPrefix(fault, "flag provided but not defined: -"); ok {
		return "there is no flag --" + strings.TrimPrefix(name, "-")
	}
	if name, ok := strings.CutPrefix(fault, "flag needs an argument: -"); ok {
		return fmt.Sprintf("--%s lacks its value: type it after the flag", name)
	}
	if typed, ok := strings.CutPrefix(fault, "bad flag syntax: "); ok {
		return fmt.Sprintf("%q is no flag", typed)
	}
	if found := valueForm.FindStringSubmatch(fault); found != nil && found[1] != "" {
		return fmt.Sprintf("--%s takes no value, such as %s: leave it out for no", found[3], found[2])
	} else if found != nil {
		return fmt.Sprintf("--%s must be %s, not %s", found[3], form, found[2])
	}
	return fault
}
