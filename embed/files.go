package embed

import (
	"cmp"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// Files is a built webapp. The zero value has no files.
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
	// Size in bytes.
	Size int64
	// ETag is a strong entity tag, quotes included: a hash of these very bytes.
	ETag string

	name string
}

// codings are the endings of the precompressed files, by the content coding each holds.
var codings = map[string]string{"br": ".br", "gzip": ".gz"}

// Read indexes a built webapp. It fails if a file cannot be read or has no known media type: a
// browser told to believe the type (nosniff) would refuse it.
func Read(root fs.FS) (Files, error) {
	files := Files{root: root, byPath: map[string]File{}}
	err := fs.WalkDir(root, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || hidden(name) || sibling(root, name) {
			return err
		}
		file, err := read(root, name)
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
	opened, err := f.root.Open(form.name)
	if err != nil {
		return nil, err
	}
	seeker, ok := opened.(io.ReadSeekCloser)
	if !ok {
		opened.Close()
		return nil, fmt.Errorf("%s: cannot seek", form.name)
	}
	return seeker, nil
}

func read(root fs.FS, name string) (File, error) {
	mediaType, ok := mediaTypes[path.Ext(name)]
	if !ok {
		return File{}, fmt.Errorf("%s: no media type known for this ending", name)
	}
	plain, err := readForm(root, "identity", name)
	if err != nil {
		return File{}, err
	}
	forms := []Form{plain}
	for coding, ending := range codings {
		if !exists(root, name+ending) {
			continue
		}
		form, err := readForm(root, coding, name+ending)
		if err != nil {
			return File{}, err
		}
		if form.Size < plain.Size {
			forms = append(forms, form)
		}
	}
	slices.SortFunc(forms, func(a, b Form) int {
		return cmp.Or(cmp.Compare(a.Size, b.Size), cmp.Compare(a.Coding, b.Coding))
	})
	return File{Path: name, Type: mediaType, Forms: forms}, nil
}

func readForm(root fs.FS, coding, name string) (Form, error) {
	file, err := root.Open(name)
	if err != nil {
		return Form{}, err
	}
	defer file.Close()
	hash := sha256.New()
	size, err := io.Copy(hash, file)
	if err != nil {
		return Form{}, fmt.Errorf("%s: %w", name, err)
	}
	// 96 bits of a SHA-256 tell apart all the files there will ever be.
	tag := base64.RawURLEncoding.EncodeToString(hash.Sum(nil)[:12])
	return Form{Coding: coding, Size: size, ETag: `"` + tag + `"`, name: name}, nil
}

// sibling says whether name is the precompressed form of another file.
func sibling(root fs.FS, name string) bool {
	for _, ending := range codings {
		if base, ok := strings.CutSuffix(name, ending); ok && exists(root, base) {
			return true
		}
	}
	return false
}

func exists(root fs.FS, name string) bool {
	info, err := fs.Stat(root, name)
	return err == nil && info.Mode().IsRegular()
}

func hidden(name string) bool {
	return strings.HasPrefix(path.Base(name), ".")
}
