// Package migrations holds the steps by which the tables came to be what they are.
package migrations

import "embed"

// Files are the steps, each a file, in the order of their names.
//
//go:embed *.sql
var Files embed.FS
