//go:build js

// Command recover fails in every way that a calculation might, and recovers.
package main

import "syscall/js"

func main() {
	js.Global().Set("fail", js.FuncOf(func(_ js.Value, args []js.Value) any { return recovered(args[0].Int()) }))
	select {}
}

func recovered(way int) (said string) {
	defer func() {
		switch fault := recover().(type) {
		case error:
			said = fault.Error()
		case string:
			said = fault
		}
	}()
	var (
		pointer *int
		list    []int
		table   map[int]int
		zero    int
	)
	switch way {
	case 0:
		return string(rune(*pointer))
	case 1:
		return string(rune(list[way]))
	case 2:
		table[0] = 1
	case 3:
		return string(rune(way / zero))
	case 4:
		return deep(20_000)
	}
	return ""
}

func deep(n int) string {
	if n == 0 {
		panic("far down")
	}
	return deep(n-1) + "."
}
