// Package embed carries the built webapp inside the binary: its files, what each is, and a hash of
// each to know it by. The webapp's build writes them into dist: a file that compression makes smaller
// as its .br and, unless it is large, its .gz, any other as it is. A fresh clone has only dist/.keep,
// which makes an app with no files.
package embed

import (
	"embed"
	"io/fs"
)

//go:embed all:dist
var dist embed.FS

// App is the webapp in this binary.
func App() (Files, error) {
	root, err := fs.Sub(dist, "dist")
	if err != nil {
		return Files{}, err
	}
	return Read(root)
}
