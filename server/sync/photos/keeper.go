package photos

import (
	"errors"
	"io"
	"io/fs"
	"log/slog"
	"time"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/fault"
	"wirewake/server/store/tables"
)

// Keeper looks after the shelf: what did not come to an end goes, and what the disk has spoilt is asked for
// again.
type Keeper struct {
	Shelf Shelf
	Store *tables.Store
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

// Add adds what comes of a photo that was begun, and ends it if that is all. What is no photo of that name, or of which
// nothing came, is given up at once, with the room that it took.
func (k *Keeper) Add(on store.Part, from, total int64, content io.Reader) (have int64, whole bool, err error) {
	have, whole, err = k.Shelf.Add(on, from, total, content, func() (bool, error) { return k.Store.Begun(on) })
	if whole || bad(err) {
		return have, whole, k.orDrop(on, err)
	}
	if there, failed := k.Shelf.Have(on); failed == nil && there == 0 {
		err = errors.Join(err, k.Drop(on))
	}
	return have, whole, err
}

// Finish ends a photo of which all has come. It can be asked whenever a stop may have cut that off.
func (k *Keeper) Finish(on store.Part, total int64) (have int64, whole bool, err error) {
	have, whole, err = k.Shelf.Finish(on, total)
	return have, whole, k.orDrop(on, err)
}

// bad says that what came is no photo of that name, or none that is kept.
func bad(err error) bool {
	return errors.Is(err, ErrHash) || errors.Is(err, ErrKind) || errors.Is(err, ErrSides)
}

func (k *Keeper) orDrop(on store.Part, err error) error {
	if bad(err) {
		err = errors.Join(err, k.Drop(on))
	}
	return err
}

// Drop gives up a photo on its way: first it counts no more, so that nothing more is written of it.
func (k *Keeper) Drop(on store.Part) error {
	if err := k.Store.DropPart(on); err != nil {
		return err
	}
	return k.Shelf.Drop(on)
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
	since := now.Add(-store.PartLife)
	err := k.Shelf.Tidy(func() (map[store.Part]bool, error) { return k.Store.Parts(since) })
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
		if err := k.LookAt(photo, k.Shelf.Verify(photo)); err != nil {
			return err
		}
		k.looked = photo
	}
	if len(next) < most {
		k.looked = entry.Photo{}
	}
	return nil
}

// LookFrom says which photo was looked at last: where many look beside each other, each begins somewhere.
func (k *Keeper) LookFrom(photo entry.Photo) { k.looked = photo }

// LookAt does what is to be done about a photo that could be opened or not. The error is what the disk says
// besides.
func (k *Keeper) LookAt(photo entry.Photo, found error) error {
	says := "a photo is gone; phones are asked for it"
	switch {
	case errors.Is(found, ErrHash):
		says = "a photo is not as it was sent; it is set aside, and phones are asked for it"
	case !errors.Is(found, fs.ErrNotExist):
		return found
	}
	// Who asks for it at the same time does the same.
	if lost, err := k.Shelf.SetAside(photo); err != nil || !lost {
		return err
	}
	if err := k.Store.SetWhole(photo, false); err != nil {
		return err
	}
	k.Log.Error(says, "photo", photo)
	return nil
}
