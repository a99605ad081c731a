package main

import (
	"fmt"
	"slices"
	"strings"
)

// draw writes the arrows as Mermaid does, which the pages of a forge draw, from the leftmost room to the right. That the
// rooms lead round in a circle is an error.
func (g graph) draw() (string, error) {
	var text strings.Builder
	text.WriteString("\n```mermaid\nflowchart LR\n")
	order, err := g.order()
	if err != nil {
		return "", err
	}
	for _, from := range order {
		if to := g.direct(from); len(to) > 0 {
			fmt.Fprintf(&text, "  %s --> %s\n", from, strings.Join(to, " & "))
		}
	}
	text.WriteString("```\n")
	return text.String(), nil
}

// order has each room before all that it imports, those of the same depth by name.
func (g graph) order() ([]string, error) {
	deep := map[string]int{}
	var visit func(room string, way []string) error
	visit = func(room string, way []string) error {
		if slices.Contains(way, room) {
			return fmt.Errorf("these import each other round in a circle: %s", strings.Join(append(way, room), " → "))
		}
		if _, known := deep[room]; known {
			return nil
		}
		depth := 0
		for _, to := range g[room] {
			if err := visit(to, append(way, room)); err != nil {
				return err
			}
			depth = max(depth, deep[to]+1)
		}
		deep[room] = depth
		return nil
	}
	var all []string
	for room := range g {
		all = append(all, room)
	}
	slices.Sort(all)
	for _, room := range all {
		if err := visit(room, nil); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(all, func(a, b string) int { return deep[b] - deep[a] })
	return all, nil
}

// direct are the rooms that one imports and does not reach by another.
func (g graph) direct(from string) []string {
	further := map[string]bool{}
	var reach func(room string)
	reach = func(room string) {
		for _, to := range g[room] {
			if !further[to] {
				further[to] = true
				reach(to)
			}
		}
	}
	for _, to := range g[from] {
		reach(to)
	}
	to := slices.DeleteFunc(slices.Clone(g[from]), func(room string) bool { return further[room] })
	slices.Sort(to)
	return to
}
