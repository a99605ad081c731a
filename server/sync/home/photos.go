package home

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"strconv"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/photos"
)

// mostPhotos is how many photos are asked for in one run: with those that home lacks, too, the next run goes on.
const mostPhotos = 200

// partSize is how much of a photo one request carries: what is lost with the connection is little.
const partSize = 256 << 10

// photos sends those that home wants and gets those that are lacking here. One that fails keeps no other waiting; once home is full
// only what is there is got.
func (h *Home) photos(ctx context.Context, token string, wanted []entry.Photo) error {
	var failed error
	for _, photo := range wanted {
		if err := h.send(ctx, token, photo); errors.Is(err, errFull) {
			failed = errors.Join(failed, err)
			break
		} else if over(err) {
			return err
		} else if err != nil {
			failed = errors.Join(failed, fmt.Errorf("photo %v did not get home: %w", photo, err))
		}
	}
	lacking, err := h.Store.Lacking(mostPhotos)
	if err != nil {
		return err
	}
	for _, photo := range lacking {
		if err := h.fetch(ctx, token, photo); over(err) {
			return err
		} else if err != nil {
			failed = errors.Join(failed, fmt.Errorf("photo %v did not come from home: %w", photo, err))
		}
	}
	return failed
}

// over says that there is no use in going on with the next photo: home is out of reach, or a person has to do
// something first.
func over(err error) bool {
	return errors.As(err, new(*url.Error)) || errors.As(err, new(*refusal)) || errors.Is(err, photos.ErrRoom)
}

// send sends a photo from where home has it. One that is not here, either, is for the phones to bring.
func (h *Home) send(ctx context.Context, token string, photo entry.Photo) error {
	file, kind, err := h.Shelf.Open(photo)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil
	case errors.Is(err, photos.ErrHash):
		return h.keeper().LookAt(photo, err)
	case err != nil:
		return err
	}
	defer file.Close()
	content, err := io.ReadAll(file)
	if err != nil {
		return err
	}
	total := int64(len(content))
	have, done, err := h.put(ctx, token, photo, kind, fmt.Sprintf("bytes */%d", total), nil)
	for err == nil && !done {
		if have < 0 || have >= total {
			return fmt.Errorf("home has %d bytes of a photo of %d", have, total)
		}
		part := content[have:min(have+partSize, total)]
		before := have
		have, done, err = h.put(ctx, token, photo, kind, fmt.Sprintf("bytes %d-%d/%d", have, have+int64(len(part))-1, total), part)
		if err == nil && !done && have <= before {
			return fmt.Errorf("home does not get on with photo %v", photo)
		}
	}
	return err
}

// put sends a part of a photo; done says that there is nothing more to do about it.
func (h *Home) put(ctx context.Context, token string, photo entry.Photo, kind, part string, content []byte) (have int64, done bool, err error) {
	r, err := h.request(ctx, token, http.MethodPut, "/api/photos/"+photo.String(), bytes.NewReader(content))
	if err != nil {
		return 0, false, err
	}
	r.Header.Set("Content-Type", kind)
	r.Header.Set("Content-Range", part)
	response, err := h.do(r)
	if err != nil {
		return 0, false, err
	}
	defer response.Body.Close()
	text, err := io.ReadAll(io.LimitReader(response.Body, mostAnswer))
	if err != nil {
		return 0, false, err
	}
	var said struct {
		Have *int64
		Code string
		Text string
	}
	if err := json.Unmarshal(text, &said); err != nil {
		return 0, false, problemOf(response, text)
	}
	switch {
	case response.StatusCode == http.StatusOK || response.StatusCode == http.StatusCreated:
		return 0, true, nil
	case said.Have != nil:
		return *said.Have, false, nil
	case response.StatusCode == http.StatusUnauthorized || response.StatusCode >= 500:
		return 0, false, problemOf(response, text)
	}
	// Home has enough photos of this trip, say: that is for a person to know, and no reason to stop.
	h.tellOnce(photo, "home does not take a photo; it stays here", said.Text)
	return 0, true, nil
}

// tellOnce says what a person is to know of a photo, once.
func (h *Home) tellOnce(photo entry.Photo, what, why string) {
	if h.told[photo.String()] {
		return
	}
	if h.told == nil {
		h.told = map[string]bool{}
	}
	h.told[photo.String()] = true
	h.Log.Warn(what, "photo", photo, "why", why)
}

// fetch gets a photo, from where it is here already.
func (h *Home) fetch(ctx context.Context, token string, photo entry.Photo) error {
	home, keeper := store.Device{}, h.keeper()
	if _, whole := h.Shelf.Whole(photo); whole {
		return keeper.Came(photo, home)
	}
	on := store.PartOf(photo, home)
	have, err := h.Shelf.Have(on)
	if err != nil {
		return err
	}
	response, err := h.get(ctx, token, photo, have)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	switch response.StatusCode {
	case http.StatusOK:
		have = 0
	case http.StatusPartialContent:
	case http.StatusRequestedRangeNotSatisfiable: // all of it is here, and only its end was cut off
		response.ContentLength = 0
	case http.StatusNotFound:
		return nil // it is not there yet, either
	default:
		text, _ := io.ReadAll(io.LimitReader(response.Body, mostAnswer))
		return problemOf(response, text)
	}
	total := have + response.ContentLength
	if response.ContentLength < 0 || total > photos.MaxSize {
		return fmt.Errorf("home sends a photo of %d bytes", total)
	}
	if place, err := keeper.Begin(photo, home, h.Now()); err != nil || place != store.Roomy {
		return err
	}
	whole := false
	if response.ContentLength == 0 {
		_, whole, err = keeper.Finish(on, total)
	} else {
		_, whole, err = keeper.Add(on, have, total, response.Body)
	}
	switch {
	case errors.Is(err, photos.ErrSides):
		h.tellOnce(photo, "a photo of home's has too many pixels for phones; it stays there", "")
		return nil
	case errors.Is(err, photos.ErrHash), errors.Is(err, photos.ErrKind):
		h.Log.Error("a photo came from home that is not what its name says; it was thrown away", "photo", photo)
		return nil
	case err != nil:
		return err
	case !whole:
		return errors.New("the connection was lost in the middle of a photo")
	}
	return keeper.Came(photo, home)
}

func (h *Home) keeper() *photos.Keeper {
	return &photos.Keeper{Shelf: h.Shelf, Store: h.Store, Log: h.Log}
}

// get asks for a photo, from where it is here already.
func (h *Home) get(ctx context.Context, token string, photo entry.Photo, have int64) (*http.Response, error) {
	r, err := h.request(ctx, token, http.MethodGet, "/api/photos/"+photo.String(), nil)
	if err != nil {
		return nil, err
	}
	if have > 0 {
		r.Header.Set("Range", "bytes="+strconv.FormatInt(have, 10)+"-")
	}
	return h.do(r)
}
