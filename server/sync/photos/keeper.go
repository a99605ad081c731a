package photos

import (
	"errors"
	"io/fs"
	"log/slog"
	"os"
	"time"

	"wirewake/server/store"
	"wirewake/server/store/fault"
	"wirewake/server/sync/entry"
)

// Keeper looks after the shelf: what did not come to an end goes, and what the disk has spoilt is asked for
// again.
type Keeper struct {
	Shelf *Shelf
	Store *store.Store
	Log   *slog.Logger

	// looked is the photo that was looked at last.
	looked entry.Photo
}

// Begin lets a photo that comes from a device count, if there is room for it.
func (k *Keeper) Begin(photo entry.Photo, d store.Device, now time.Time) (store.Place, error) {
	place, given, err := k.Store.BeginPhoto(photo, d, now)
	if err != nil || place != store.Roomy {
		return place, err
	}
	for _, part := range given {
		if err := k.Shelf.Drop(part); err != nil {
			return place, err
		}
	}
	return place, fault.At(fault.PhotoBegun)
}

// Came notes that a photo is there whole, as a device has shown it.
func (k *Keeper) Came(photo entry.Photo, d store.Device) error {
	if err := k.Store.PhotoCame(photo, d); err != nil {
		return err
	}
	return fault.At(fault.PhotoNoted)
}

// Tidy throws away photos on their way of which nothing came for a day.
func (k *Keeper) Tidy(now time.Time) error {
	// First the files, then what may be there: one that is begun meanwhile is in no danger.
	files, err := os.ReadDir(k.Shelf.parts())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	since := now.Add(-store.PartLife)
	alive, err := k.Store.Parts(since)
	if err != nil {
		return err
	}
	names := map[string]bool{}
	for part := range alive {
		names[partName(part)] = true
	}
	for _, file := range files {
		if !names[file.Name()] {
			err = errors.Join(err, os.RemoveAll(k.Shelf.parts()+string(os.PathSeparator)+file.Name()))
		}
	}
	return errors.Join(err, k.Store.ForgetParts(since))
}

// Miss asks the phones for photos that somebody took away.
func (k *Keeper) Miss() error {
	all, err := k.Store.WholePhotos()
	if err != nil {
		return err
	}
	for _, photo := range k.Shelf.Missing(all) {
		if err := k.LookAt(photo, fs.ErrNotExist); err != nil {
			return err
		}
	}
	return nil
}

// Look looks at the next so many photos, and begins anew after the last. Those that are not what their names
// say are set aside, and asked for again like those that are gone.
func (k *Keeper) Look(most int) error {
	next, err := k.Store.WholePhotosAfter(k.looked, most)
	if err != nil {
		return err
	}
	for _, photo := range next {
		if err := k.LookAt(photo, Verify(k.Shelf.File(photo), photo)); err != nil {
			return err
		}
		k.looked = photo
	}
	if len(next) < most {
		k.looked = entry.Photo{}
	}
	return nil
}

// LookAt does what is to be done about a photo that could be opened or not. The error is what the disk says
// besides.
func (k *Keeper) LookAt(photo entry.Photo, found error) error {
	says := "a photo is gone; phones are asked for it"
	switch {
	case errors.Is(found, ErrHash):
		says = "a photo is not as it was sent; it is set aside, and phones are asked for it"
		if err := k.Shelf.SetAside(photo); err != nil {
			return err
		}
	case !errors.Is(found, fs.ErrNotExist):
		return found
	}
	if err := k.Store.SetWhole(photo, false); err != nil {
		return err
	}
	k.Log.Error(says, "photo", photo)
	return nil
}
