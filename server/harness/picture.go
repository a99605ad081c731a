package harness

// HeadOfJPEG is how a photo of so many pixels begins, as far as the server looks: the start of the image and the header of
// its frame (ITU-T T.81, B.2.1 and B.2.2), grey. What follows it no phone can draw.
func HeadOfJPEG(width, height int) []byte {
	return []byte{0xff, 0xd8, 0xff, 0xc0, 0, 11, 8, byte(height >> 8), byte(height), byte(width >> 8), byte(width), 1, 1, 0x11, 0}
}
