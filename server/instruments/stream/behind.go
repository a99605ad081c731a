package stream

import "wirewake/server/instruments/heard"

// mostBehind is how many rows wait for a disk that is slow, one a second.
const mostBehind = 120

// Behind notes rows one after the other beside whoever gives them, who never waits for the disk. What comes while as many
// wait as may is passed over, and full is called, once until there is room again. End waits until all is noted; no row is
// given after it.
func Behind(note func(heard.Row), full func()) (give func(heard.Row), end func()) {
	rows, over := make(chan heard.Row, mostBehind), make(chan struct{})
	go func() {
		defer close(over)
		for r := range rows {
			note(r)
		}
	}()
	told := false
	give = func(r heard.Row) {
		select {
		case rows <- r:
			told = false
		default:
			if !told {
				told = true
				full()
			}
		}
	}
	return give, func() { close(rows); <-over }
}
