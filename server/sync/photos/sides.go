package photos

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
)

// MaxSide is the most pixels a side of a photo may have: a phone that shows it holds all of them at once, whatever few
// bytes they came in.
const MaxSide = 4096

// ErrSides says that a photo has more pixels than a phone should draw.
var ErrSides = errors.New("the photo has too many pixels")

// Judge says whether a whole file is a photo that phones can show, by what its header says. The error is ErrKind where it
// says nothing of its size.
func Judge(file io.ReaderAt) error {
	head := make([]byte, 30)
	n, err := file.ReadAt(head, 0)
	if err != nil && err != io.EOF {
		return err
	}
	var width, height int
	switch Kind(head[:n]) {
	case "image/jpeg":
		width, height, err = sidesOfJPEG(file)
	case "image/webp":
		width, height = sidesOfWebP(head[:n])
	}
	switch {
	case err != nil && err != io.EOF:
		return err
	case width < 1 || height < 1:
		return ErrKind
	case width > MaxSide || height > MaxSide:
		return ErrSides
	}
	return nil
}

// sidesOfJPEG goes from segment to segment up to the frame's header (ITU-T T.81, B.1 and B.2.2); 0 where there is none.
func sidesOfJPEG(file io.ReaderAt) (width, height int, err error) {
	const (
		endOfImage, startOfScan = 0xd9, 0xda
		firstFrame, lastFrame   = 0xc0, 0xcf
		huffman, later, coding  = 0xc4, 0xc8, 0xcc // among the frames, and none
	)
	// However small its steps are, no more is read than a photo may have.
	rest := bufio.NewReaderSize(io.NewSectionReader(file, 2, MaxSize), 32<<10)
	for {
		// The last segments of a short file have fewer bytes behind them.
		segment, err := rest.Peek(9)
		n := len(segment)
		if err != nil && err != io.EOF {
			return 0, 0, err
		}
		if n < 4 || segment[0] != 0xff {
			return 0, 0, nil
		}
		step := 1
		switch marker := segment[1]; {
		case marker == 0xff: // a byte of filling
		case marker == endOfImage, marker == startOfScan:
			return 0, 0, nil
		case marker >= firstFrame && marker <= lastFrame && marker != huffman && marker != later && marker != coding:
			if n < 9 {
				return 0, 0, nil
			}
			return int(binary.BigEndian.Uint16(segment[7:])), int(binary.BigEndian.Uint16(segment[5:])), nil
		default:
			step = 2 + int(max(2, binary.BigEndian.Uint16(segment[2:])))
		}
		if _, err := rest.Discard(step); err != nil && err != io.EOF {
			return 0, 0, err
		}
	}
}

// sidesOfWebP reads the first chunk (RFC 9649, 2.5 to 2.7; the frame's header: RFC 6386, 9.1); 0 where it is none of those.
func sidesOfWebP(head []byte) (width, height int) {
	if len(head) < 30 {
		return 0, 0
	}
	little := binary.LittleEndian
	switch data := head[20:]; string(head[12:16]) {
	case "VP8 ":
		return int(little.Uint16(data[6:]) & 0x3fff), int(little.Uint16(data[8:]) & 0x3fff)
	case "VP8L":
		sides := little.Uint32(data[1:])
		return int(sides&0x3fff) + 1, int(sides>>14&0x3fff) + 1
	case "VP8X":
		return int(little.Uint32(data[3:])>>8) + 1, int(little.Uint32(data[6:])>>8) + 1
	}
	return 0, 0
}
