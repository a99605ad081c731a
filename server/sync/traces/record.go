// Package traces keeps what the boat's instruments said on each trip, once a second: a compact file for each stretch, on the
// box while it is written, and named by the SHA-256 of its content once it is whole, so that it can go home like a photo.
//
// A file is a head, "wirewake trace 1\n" and the 16 bytes of the trip's id, and after it records: a byte for how long what
// follows is, that, and two bytes of its CRC-32 (IEEE; the lower, the lowest first). What follows is the seconds since the
// record before, of the first since 1970, as an unsigned varint; a byte whose bits say which values there are; and of each the
// difference from the last one of its kind, as a signed varint (as encoding/binary has both). The values are, bit 0
// first: depth in cm, speed through the water in cm/s as the wheel reads it, heading in tenths of a degree, water in
// tenths of a °C, speed over ground in cm/s, course over ground in tenths of a degree, latitude and longitude in
// millionths of a degree. A kill in the midst of a record loses that record: the rest is read as far as it is whole.
package traces

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io"
	"math"
	"os"
	"time"

	"github.com/google/uuid"
)

// MaxSize is the most bytes a file may have: more than ten hours come to.
const MaxSize = 1_000_000

const head = "wirewake trace 1\n"

const kinds = 8

// Row is what was known at one second, in SI, of angles radians, of the water °C; NaN is what was not.
type Row struct {
	At time.Time
	// Values are depth, speed through the water, heading, water, speed and course over ground, latitude and longitude.
	Values [kinds]float64
}

// sizes are the steps in which values are kept.
var sizes = [kinds]float64{0.01, 0.01, 0.1 * math.Pi / 180, 0.1, 0.01, 0.1 * math.Pi / 180, 1e-6 * math.Pi / 180, 1e-6 * math.Pi / 180}

// coder knows what came before.
type coder struct {
	at   int64
	last [kinds]int64
}

// append writes a record after b; it is b where the row is no later than the one before.
func (c *coder) append(b []byte, r Row) []byte {
	at := r.At.Unix()
	if at <= c.at {
		return b
	}
	from := len(b)
	b = binary.AppendUvarint(append(b, 0), uint64(at-c.at))
	mask := len(b)
	b = append(b, 0)
	for i, v := range r.Values {
		steps := math.Round(v / sizes[i])
		if !(math.Abs(steps) < 1<<40) {
			continue // not known, or no number
		}
		b[mask] |= 1 << i
		b = binary.AppendVarint(b, int64(steps)-c.last[i])
		c.last[i] = int64(steps)
	}
	c.at = at
	content := b[from+1:]
	b[from] = byte(len(content))
	return binary.LittleEndian.AppendUint16(b, uint16(crc32.ChecksumIEEE(content)))
}

// errBroken is where a file is not whole any more.
var errBroken = errors.New("a record is broken")

// next reads the record at the beginning of b, and says how long it is.
func (c *coder) next(b []byte) (r Row, n int, err error) {
	if len(b) < 1 || len(b) < 3+int(b[0]) {
		return r, 0, errBroken
	}
	n = 3 + int(b[0])
	content := b[1 : n-2]
	if binary.LittleEndian.Uint16(b[n-2:]) != uint16(crc32.ChecksumIEEE(content)) {
		return r, 0, errBroken
	}
	passed, used := binary.Uvarint(content)
	if used <= 0 || used >= len(content) || passed > 1<<40 {
		return r, 0, errBroken
	}
	mask := content[used]
	content = content[used+1:]
	now := *c
	now.at += int64(passed)
	for i := range r.Values {
		r.Values[i] = math.NaN()
		if mask>>i&1 == 0 {
			continue
		}
		by, used := binary.Varint(content)
		if used <= 0 {
			return r, 0, errBroken
		}
		content = content[used:]
		now.last[i] += by
		r.Values[i] = float64(now.last[i]) * sizes[i]
	}
	if len(content) > 0 {
		return r, 0, errBroken
	}
	*c = now
	r.At = time.Unix(c.at, 0).UTC()
	return r, n, nil
}

// Read reads a file as far as it is whole; whole is how many bytes that is.
func Read(content []byte) (trip uuid.UUID, rows []Row, whole int, err error) {
	trip, _, rows, whole, err = read(content)
	return trip, rows, whole, err
}

func read(content []byte) (trip uuid.UUID, c coder, rows []Row, whole int, err error) {
	if len(content) < len(head)+len(trip) || string(content[:len(head)]) != head {
		return trip, c, nil, 0, errors.New("this is no trace")
	}
	copy(trip[:], content[len(head):])
	whole = len(head) + len(trip)
	for whole < len(content) {
		r, n, err := c.next(content[whole:])
		if err != nil {
			break
		}
		rows = append(rows, r)
		whole += n
	}
	return trip, c, rows, whole, nil
}

// Writer writes one file, record by record. What was written is there after a kill of the server; after a loss of power, all
// but the last minute.
type Writer struct {
	file  *os.File
	coder coder
	size  int
	since int
	trip  uuid.UUID
}

// flushed is after how many records the disk is waited for.
const flushed = 60

// Open goes on with a file, or begins it. What is not whole at its end is cut off.
func Open(path string, trip uuid.UUID) (*Writer, error) {
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	w := &Writer{file: file, trip: trip}
	if err := w.begin(); err != nil {
		return nil, errors.Join(err, file.Close())
	}
	return w, nil
}

func (w *Writer) begin() error {
	content, err := io.ReadAll(io.LimitReader(w.file, MaxSize+1))
	if err != nil {
		return err
	}
	trip, c, _, whole, err := read(content)
	if err != nil || trip != w.trip {
		// A head that was not written whole has no records after it.
		content = append([]byte(head), w.trip[:]...)
		if _, err := w.file.WriteAt(content, 0); err != nil {
			return err
		}
		c, whole = coder{}, len(content)
	}
	w.coder, w.size = c, whole
	return w.file.Truncate(int64(whole))
}

// setBack is how far the clock may go back for rows to be left out until it has caught up, s: further, and what follows is
// of another file.
const setBack = 5

// Note writes a row; full says that the file takes no more, or none so early.
func (w *Writer) Note(r Row) (full bool, err error) {
	if w.coder.at > 0 && r.At.Unix() < w.coder.at-setBack {
		return true, nil
	}
	before := w.coder
	record := w.coder.append(nil, r)
	if w.size+len(record) > MaxSize {
		w.coder = before
		return true, nil
	}
	if _, err := w.file.WriteAt(record, int64(w.size)); err != nil {
		w.coder = before
		return false, err
	}
	w.size += len(record)
	if w.since++; w.since >= flushed {
		w.since = 0
		return false, w.file.Sync()
	}
	return false, nil
}

// Close closes it for good or for a while.
func (w *Writer) Close() error { return errors.Join(w.file.Sync(), w.file.Close()) }
