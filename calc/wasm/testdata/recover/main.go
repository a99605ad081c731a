//go:build js

// Command recover fails in every way that a calculation might, and recovers.
package main

import (
	"runtime"
	"syscall/js"
)

func main() {
	js.Global().Set("fail", js.FuncOf(func(_ js.Value, args []js.Value) any { return recovered(args[0].Int()) }))
	select {}
}

func recovered(way int) (said string) {
	kept := &list{"kept", nil}
	defer func() {
		// The stack is moved and looked through while what failed is still on it.
		if dig(2_000, kept) != kept {
			said = "the stack was moved wrongly"
			return
		}
		runtime.GC()
		if kept.text != "kept" {
			said = "what was in use is gone"
			return
		}
		switch fault := recover().(type) {
		case error:
			said = fault.Error()
		case string:
			said = fault
		}
	}()
	var (
		pointer *int
		numbers []int
		table   map[int]int
		zero    int
	)
	switch way {
	case 0:
		return string(rune(*pointer))
	case 1:
		return string(rune(numbers[way]))
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

type list struct {
	text string
	rest *list
}

func dig(n int, bottom *list) *list {
	link := list{"", bottom}
	if n == 0 {
		return link.rest
	}
	return dig(n-1, link.rest)
}
