package codec

// Valid says whether the input can be read over from end to end.
func Valid(in []byte) bool {
	r := NewReader(in)
	r.skip()
	r.End()
	return !r.dead
}
