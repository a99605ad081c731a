package photos

import (
	"io"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// Shelf is where photos lie: a folder of the boat's computer ([Folder]), or what many servers share. Several may have the same
// one open. A photo is whole only when it can be read back.
type Shelf interface {
	// Whole says whether a photo is there, and its bytes.
	Whole(photo entry.Photo) (bytes int64, ok bool)
	// Have says how much of a photo on its way is there.
	Have(p store.Part) (bytes int64, err error)
	// Add keeps what comes of a photo of total bytes, which begins at from, as far as it comes, and does what Finish does. begun
	// says whether it still counts: what does not is not kept. The errors are those of this package, or of where it lies.
	Add(p store.Part, from, total int64, content io.Reader, begun func() (bool, error)) (have int64, whole bool, err error)
	// Finish puts a photo in its place of which all has come, if its hash is right; else all of it is thrown away. Wherever it
	// stops, it can be done again.
	Finish(p store.Part, total int64) (have int64, whole bool, err error)
	// Drop takes away what is there of a photo on its way.
	Drop(p store.Part) error
	// Tidy throws away what is there of those on their way that are not alive, which is asked after it was looked what is there.
	Tidy(alive func() (map[store.Part]bool, error)) error
	// Open opens a whole photo and says of which media type it is: [ErrHash] if it is spoilt, [io/fs.ErrNotExist] if it is gone.
	Open(photo entry.Photo) (opened io.ReadSeekCloser, kind string, err error)
	// Verify says as much without giving it.
	Verify(photo entry.Photo) error
	// Missing are those of some photos that are gone.
	Missing(all []entry.Photo) []entry.Photo
	// SetAside takes a photo that is spoilt or gone out of its place; lost is false if it is sound after all.
	SetAside(photo entry.Photo) (lost bool, err error)
	// MayGrow is [ErrRoom] if what room is left is for the log.
	MayGrow() error
}
