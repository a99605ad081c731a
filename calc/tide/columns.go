package tide

// columns reads numbers and texts one after the other. Once something is not there it is broken, and reads nothing.
type columns struct {
	left   []byte
	broken bool
}

func (c *columns) begins(with string) bool {
	if len(c.left) < len(with) || string(c.left[:len(with)]) != with {
		return false
	}
	c.left = c.left[len(with):]
	return true
}

// count is a number from 0, as LEB128. It is kept from being inlined, as others here: the phone's module gets smaller.
//
//go:noinline
func (c *columns) count() int {
	n := 0
	for shift := 0; shift < 28; shift += 7 {
		if len(c.left) == 0 {
			break
		}
		b := c.left[0]
		c.left = c.left[1:]
		n |= int(b&127) << shift
		if b < 128 {
			return n
		}
	}
	c.broken = true
	c.left = nil
	return 0
}

// size is a count of things that have a byte each at the least.
func (c *columns) size() int {
	n := c.count()
	if n > len(c.left) {
		c.broken = true
		return 0
	}
	return n
}

// number is a signed one, folded.
//
//go:noinline
func (c *columns) number() float64 {
	n := c.count()
	if n&1 == 1 {
		return float64(-(n + 1) / 2)
	}
	return float64(n / 2)
}

// text has its length before it.
func (c *columns) text() string {
	n := c.size()
	text := string(c.left[:n])
	c.left = c.left[n:]
	return text
}

// texts are one with line feeds between.
func (c *columns) texts() (all []string) {
	text := c.text()
	from := 0
	for i := 0; i <= len(text); i++ {
		if i == len(text) || text[i] == '\n' {
			all = append(all, text[from:i])
			from = i + 1
		}
	}
	return all
}
