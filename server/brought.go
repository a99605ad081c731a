package main

import (
	"archive/zip"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"strings"

	"wirewake/server/log/entry"
	"wirewake/server/sync/traces"
)

// The most that is read of a file of notes, more than a season of them, and of one note of it, more than any server took.
const importLimit, noteLimit = 256 << 20, 256 << 10

// brought is what a file holds. It is open until it is closed.
type brought struct {
	notes   func() (io.ReadCloser, error) // opens the file of notes, each time anew
	photos  []packed
	traces  []packedTrace
	archive *zip.ReadCloser // nil of a file of notes
}

// packed is a photo in a ZIP, by the name that it has there.
type packed struct {
	entry.Photo
	file *zip.File
}

// packedTrace is a trace in a ZIP.
type packedTrace struct {
	traces.Trace
	file *zip.File
}

func (b brought) close() {
	if b.archive != nil {
		b.archive.Close()
	}
}

// readBrought reads a ZIP of everything or a file of notes, and looks whether its notes can be read to their end.
func readBrought(ctx context.Context, name string) (b brought, err error) {
	archive, err := zip.OpenReader(name)
	if errors.Is(err, zip.ErrFormat) {
		b.notes = func() (io.ReadCloser, error) { return os.Open(name) }
		if err = b.eachNote(ctx, func(json.RawMessage) error { return nil }); err != nil {
			err = fmt.Errorf("it takes a ZIP of everything, or a file of notes (….wirewake.json), as a phone saved it: %w", err)
		}
		return b, err
	}
	if err != nil {
		return b, err
	}
	defer func() {
		if err != nil {
			archive.Close()
		}
	}()
	b.archive = archive
	for _, f := range archive.File {
		if path.Dir(f.Name) == "photos" {
			if photo, ok := entry.ParsePhoto(strings.TrimSuffix(path.Base(f.Name), path.Ext(f.Name))); ok {
				b.photos = append(b.photos, packed{photo, f})
			}
		}
		if trace, ok := traces.ParsePath(f.Name); ok {
			b.traces = append(b.traces, packedTrace{trace, f})
		}
		if f.Name != "notes.wirewake.json" {
			continue
		}
		if b.notes != nil {
			return b, errors.New("this ZIP has two files of notes; it is none that the app saved")
		}
		b.notes = f.Open
	}
	if b.notes == nil {
		return b, errors.New("there are no notes in this ZIP; it is none that the app saved")
	}
	return b, b.eachNote(ctx, func(json.RawMessage) error { return nil })
}

// eachNote hands on one note after the other. None is held: the file may come from anybody, and be far larger than it looks.
// What take fails with ends it.
func (b brought) eachNote(ctx context.Context, take func(json.RawMessage) error) error {
	file, err := b.notes()
	if err != nil {
		return err
	}
	defer file.Close()
	measured := &measured{from: file, file: importLimit, note: noteLimit}
	text := json.NewDecoder(measured)
	opens := func(with json.Delim) error {
		switch is, err := text.Token(); {
		case err != nil:
			return unreadable(err)
		case is != with:
			return errOther
		}
		return nil
	}
	if err := opens('{'); err != nil {
		return err
	}
	format, version := "", 0
	for text.More() {
		name, err := text.Token()
		if err != nil {
			return unreadable(err)
		}
		switch name {
		case "format":
			err = text.Decode(&format)
		case "version":
			err = text.Decode(&version)
		case "entries":
			if err := opens('['); err != nil {
				return err
			}
			for text.More() {
				var one json.RawMessage
				if err := errors.Join(ctx.Err(), text.Decode(&one)); err != nil {
					return unreadable(err)
				}
				measured.note = noteLimit
				if err := take(one); err != nil {
					return err
				}
			}
			_, err = text.Token()
		default:
			var other json.RawMessage
			err = text.Decode(&other)
		}
		if err != nil {
			return unreadable(err)
		}
	}
	if _, err := text.Token(); err != nil {
		return unreadable(err)
	}
	switch _, err := text.Token(); {
	case err != io.EOF:
		return unreadable(errors.New("there is more behind its end"))
	case format != "wirewake-notes":
		return errOther
	case version > 1:
		return errors.New("it was saved by a newer version: install that first")
	}
	return nil
}

var (
	errOther = errors.New("it is not a file of notes saved by the app")
	errLarge = errors.New("it is far larger than notes are")
)

func unreadable(err error) error {
	if errors.Is(err, errLarge) || errors.Is(err, context.Canceled) {
		return err
	}
	return fmt.Errorf("it cannot be read, and may be cut off: %w", err)
}

// measured fails where a file, or one note of it, is larger than any is, whatever the file says of its size.
type measured struct {
	from       io.Reader
	file, note int64 // how many bytes of each may still come
}

func (m *measured) Read(p []byte) (int, error) {
	n, err := m.from.Read(p)
	m.file, m.note = m.file-int64(n), m.note-int64(n)
	if m.file < 0 || m.note < 0 {
		return 0, errLarge
	}
	return n, err
}

// limited reads a file whole; it fails with tooLarge beyond most bytes, whatever the file says of its size.
func limited(open func() (io.ReadCloser, error), most int64, tooLarge string) ([]byte, error) {
	r, err := open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	content, err := io.ReadAll(io.LimitReader(r, most+1))
	if err == nil && int64(len(content)) > most {
		err = errors.New(tooLarge)
	}
	return content, err
}
