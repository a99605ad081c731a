package embed

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"io/fs"
	"path"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/andybalholm/brotli"
)

// Files is a built webapp. The zero value has no files. A file may be there only as its .br: nearly
// every client takes that, so the build leaves the plain one out of the binary.
type Files struct {
	root   fs.FS
	byPath map[string]File
}

// File is one file of the app in each form it can be sent in.
type File struct {
	// Path from the root of the app, without a leading slash: "assets/index-D3x.js".
	Path string
	// Type is the media type.
	Type string
	// Forms are the file as it is and those precompressed forms that are smaller, smallest first.
	Forms []Form
}

// Form is the content of a file under one content coding.
type Form struct {
	// Coding is the content coding as HTTP names it: "br", "gzip", or "identity" for the file as it is.
	Coding string
	// Size in bytes, 0 for a form that is made only when it is asked for.
	Size int64
	// ETag is a strong entity tag, quotes included: a hash of these very bytes, or of those they are made from.
	ETag string

	// name is the file with these bytes; packed says that they are made from it, which has them under brotli.
	name   string
	packed bool
}

const identity = "identity"

// codings are the endings of the precompressed files, by the content coding each holds.
var codings = map[string]string{"br": ".br", "gzip": ".gz"}

// Read indexes a built webapp. It fails if a file cannot be read or has no known media type: a
// browser told to believe the type (nosniff) would refuse it.
func Read(root fs.FS) (Files, error) {
	files := Files{root: root, byPath: map[string]File{}}
	err := fs.WalkDir(root, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || hidden(name) || coded(root, name) {
			return err
		}
		plain := Form{Coding: identity, name: name}
		if base, ok := strings.CutSuffix(name, codings["br"]); ok {
			name, plain.packed = base, true
		}
		file, err := read(root, name, plain)
		files.byPath[name] = file
		return err
	})
	if err != nil {
		return Files{}, err
	}
	return files, nil
}

// Find returns the file at a path without leading slash.
func (f Files) Find(name string) (File, bool) {
	file, ok := f.byPath[name]
	return file, ok
}

// All returns every file, in order of path.
func (f Files) All() []File {
	all := make([]File, 0, len(f.byPath))
	for _, file := range f.byPath {
		all = append(all, file)
	}
	slices.SortFunc(all, func(a, b File) int { return cmp.Compare(a.Path, b.Path) })
	return all
}

// Open opens one form of a file. The caller closes it.
func (f Files) Open(form Form) (io.ReadSeekCloser, error) {
	file, err := form.stream(f.root)
	if err != nil {
		return nil, err
	}
	if seeker, ok := file.(io.ReadSeekCloser); ok {
		return seeker, nil
	}
	// What is unpacked can be sought only as a whole.
	defer file.Close()
	content, err := io.ReadAll(file)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", form.name, err)
	}
	return &whole{bytes.NewReader(content)}, nil
}

// ReadAll is the content of a file as it is.
func (f Files) ReadAll(file File) ([]byte, error) {
	for _, form := range file.Forms {
		if form.Coding != identity {
			continue
		}
		content, err := form.stream(f.root)
		if err != nil {
			return nil, err
		}
		defer content.Close()
		return io.ReadAll(content)
	}
	return nil, fs.ErrNotExist
}

// whole is an unpacked file. It is large beside all else that a small server holds, and seldom asked for: once it was sent,
// its memory goes back to the system at once.
type whole struct{ *bytes.Reader }

func (w *whole) Close() error {
	w.Reader = bytes.NewReader(nil)
	debug.FreeOSMemory()
	return nil
}

// stream reads a form from its beginning.
func (f Form) stream(root fs.FS) (io.ReadCloser, error) {
	file, err := root.Open(f.name)
	if err != nil || !f.packed {
		return file, err
	}
	return unpacking{brotli.NewReader(file), file}, nil
}

// unpacking reads what a file holds under brotli.
type unpacking struct {
	io.Reader
	io.Closer
}

func read(root fs.FS, name string, plain Form) (File, error) {
	mediaType, ok := mediaTypes[path.Ext(name)]
	if !ok {
		return File{}, fmt.Errorf("%s: no media type known for this ending", name)
	}
	if err := plain.measure(root); err != nil {
		return File{}, err
	}
	forms := []Form{plain}
	for coding, ending := range codings {
		if !exists(root, name+ending) {
			continue
		}
		form := Form{Coding: coding, name: name + ending}
		if err := form.measure(root); err != nil {
			return File{}, err
		}
		if plain.packed || form.Size < plain.Size {
			forms = append(forms, form)
		}
	}
	slices.SortFunc(forms, func(a, b Form) int {
		switch {
		case a.packed:
			return 1
		case b.packed:
			return -1
		}
		return cmp.Or(cmp.Compare(a.Size, b.Size), cmp.Compare(a.Coding, b.Coding))
	})
	return File{Path: name, Type: mediaType, Forms: forms}, nil
}

// measure finds the size and the tag of a form. What is made from another is not made for this: a window of
// brotli costs a small server more memory than all else it does at its start.
func (f *Form) measure(root fs.FS) error {
	content, err := root.Open(f.name)
	if err != nil {
		return fmt.Errorf("%s: %w", f.name, err)
	}
	defer content.Close()
	hash := sha256.New()
	size, err := io.Copy(hash, content)
	if err != nil {
		return fmt.Errorf("%s: %w", f.name, err)
	}
	if f.packed {
		io.WriteString(hash, f.Coding) // Another tag than that of the bytes it is made from.
	} else {
		f.Size = size
	}
	// 96 bits of a SHA-256 tell apart all the files there will ever be.
	f.ETag = `"` + base64.RawURLEncoding.EncodeToString(hash.Sum(nil)[:12]) + `"`
	return nil
}

// coded says whether name is a coded form of a file found by another name.
func coded(root fs.FS, name string) bool {
	if base, ok := strings.CutSuffix(name, codings["br"]); ok {
		return exists(root, base)
	}
	base, ok := strings.CutSuffix(name, codings["gzip"])
	return ok && (exists(root, base) || exists(root, base+codings["br"]))
}

func exists(root fs.FS, name string) bool {
	info, err := fs.Stat(root, name)
	return err == nil && info.Mode().IsRegular()
}

func hidden(name string) bool {
	return strings.HasPrefix(path.Base(name), ".")
}
