package photos

import (
	"errors"
	"net/http"
	"regexp"
	"strconv"
	"syscall"
	"time"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/trust/enrol"
)

// Handler answers under /api/photos. Its fields are set before use.
type Handler struct {
	Keeper
	Enrolment *enrol.Enrolment
	Now       func() time.Time
}

// Routes adds what is answered under /api.
func (h *Handler) Routes(add func(method, path string, handler echo.HandlerFunc)) {
	add(http.MethodPut, "/photos/:sha256", h.put)
	add(http.MethodGet, "/photos/:sha256", h.get)
	add(http.MethodHead, "/photos/:sha256", h.get)
}

var (
	notAPhoto = &problem.Problem{Status: http.StatusUnsupportedMediaType, Code: "type", Text: "A photo must be JPEG or WebP."}
	tooLarge  = &problem.Problem{Status: http.StatusRequestEntityTooLarge, Code: "size", Text: "A photo may have 2 MB at most."}
	tooWide   = &problem.Problem{Status: http.StatusRequestEntityTooLarge, Code: "pixels",
		Text: "A photo may have " + strconv.Itoa(MaxSide) + " pixels a side at most; this one stays on the phone."}
	wrongHash = &problem.Problem{Status: http.StatusUnprocessableEntity, Code: "hash",
		Text: "What came is not the photo that the entry names; it was thrown away. Send it again from the beginning."}
	enough = &problem.Problem{Status: http.StatusConflict, Code: "enough",
		Text: "This trip has its " + strconv.Itoa(store.PhotosPerTrip) + " photos; this one stays on the phone."}
	enoughOfGuest = &problem.Problem{Status: http.StatusConflict, Code: "enough",
		Text: "The server keeps " + strconv.Itoa(store.GuestPhotos) + " photos of a guest's phone, and has them; this one stays on the phone."}
	enoughOfGuests = &problem.Problem{Status: http.StatusConflict, Code: "enough",
		Text: "The server keeps " + strconv.Itoa(store.GuestsPhotos) + " photos of all guests of a trip, and has them; this one stays on the phone."}
)

// asked finds the photo that is asked for, if the device may see an entry that names it.
func (h *Handler) asked(c echo.Context) (photo entry.Photo, d store.Device, named store.Named, err error) {
	if d, err = h.Enrolment.Aboard(c); err != nil {
		return photo, d, named, err
	}
	photo, ok := entry.ParsePhoto(c.Param("sha256"))
	if !ok {
		return photo, d, named, problem.Nothing
	}
	named, ok, err = h.Store.Photo(photo, d)
	if err == nil && !ok {
		err = problem.Nothing
	}
	return photo, d, named, err
}

func (h *Handler) put(c echo.Context) error {
	photo, d, named, err := h.asked(c)
	if err != nil {
		return err
	}
	if kind := c.Request().Header.Get(echo.HeaderContentType); kind != "image/jpeg" && kind != "image/webp" {
		return notAPhoto
	}
	part, err := readRange(c.Request())
	if err != nil {
		return err
	}
	// A guest has to show a photo that is there for other trips: to know its hash is not to have it.
	if have, whole := h.Shelf.Whole(photo); whole && (named.Whole || d.Trip == nil) {
		if named.Whole {
			return say(c, http.StatusOK, have)
		}
		return h.kept(c, http.StatusOK, photo, d, have)
	}
	on := store.PartOf(photo, d)
	if part.length == 0 {
		have, whole, err := h.Finish(on, part.total)
		if err == nil && !whole && !named.Room {
			return enough
		}
		return h.came(c, on, d, have, whole, err)
	}
	switch place, err := h.Begin(photo, d, h.Now()); {
	case err != nil:
		return trouble(err)
	case place == store.TripFull:
		return enough
	case place == store.GuestFull:
		return enoughOfGuest
	case place == store.GuestsFull:
		return enoughOfGuests
	}
	have, whole, err := h.Add(on, part.first, part.total, c.Request().Body)
	return h.came(c, on, d, have, whole, err)
}

// came answers what became of what came.
func (h *Handler) came(c echo.Context, on store.Part, d store.Device, have int64, whole bool, err error) error {
	switch {
	case errors.Is(err, ErrOffset), errors.Is(err, ErrGiven):
		return &problem.Problem{Status: http.StatusConflict, Code: "offset", Have: &have, Text: "This part of the photo does not begin where it ends so far."}
	case errors.Is(err, ErrKind):
		return notAPhoto
	case errors.Is(err, ErrSides):
		return tooWide
	case errors.Is(err, ErrHash):
		return wrongHash
	case err != nil:
		return trouble(err)
	case whole:
		return h.kept(c, http.StatusCreated, on.Photo, d, have)
	}
	return say(c, http.StatusAccepted, have)
}

// kept notes and answers that a photo is there whole.
func (h *Handler) kept(c echo.Context, status int, photo entry.Photo, d store.Device, have int64) error {
	if err := h.Came(photo, d); err != nil {
		return trouble(err)
	}
	return say(c, status, have)
}

func say(c echo.Context, status int, have int64) error {
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(status, map[string]int64{"have": have})
}

// trouble is what the disk or the store said.
func trouble(err error) error {
	switch {
	case errors.As(err, new(*store.Error)):
		return err
	case errors.Is(err, ErrRoom), errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return problem.Full.Because(err)
	}
	return problem.NoStore.Because(err)
}

// part is what a request carries of a photo.
type part struct{ first, length, total int64 }

var rangeForm = regexp.MustCompile(`^bytes (?:(\d{1,9})-(\d{1,9})|\*)/(\d{1,9})$`)

func readRange(r *http.Request) (part, error) {
	var p part
	field := r.Header.Get("Content-Range")
	if field == "" {
		if r.ContentLength < 1 {
			return p, problem.Form("Without Content-Range the request must carry the whole photo, and say its length.")
		}
		p = part{0, r.ContentLength, r.ContentLength}
	} else {
		found := rangeForm.FindStringSubmatch(field)
		if found == nil {
			return p, problem.Form("Content-Range must be bytes FIRST-LAST/TOTAL or bytes */TOTAL.")
		}
		last := int64(-1)
		if found[1] != "" {
			p.first, _ = strconv.ParseInt(found[1], 10, 64)
			last, _ = strconv.ParseInt(found[2], 10, 64)
		}
		p.total, _ = strconv.ParseInt(found[3], 10, 64)
		p.length = last - p.first + 1
		if found[1] != "" && p.length < 1 || last >= p.total || p.total < 1 {
			return p, problem.Form("Content-Range does not fit: FIRST must not be after LAST, nor LAST reach TOTAL.")
		}
	}
	if p.total > MaxSize || p.length > content.Limit {
		return p, tooLarge
	}
	return p, nil
}

func (h *Handler) get(c echo.Context) error {
	photo, _, named, err := h.asked(c)
	if err != nil {
		return err
	}
	if !named.Whole {
		return problem.Nothing
	}
	file, kind, err := h.Shelf.Open(photo)
	if err != nil {
		if err := h.LookAt(photo, err); err != nil {
			return trouble(err)
		}
		return problem.Nothing
	}
	defer file.Close()
	header := c.Response().Header()
	header.Set(echo.HeaderContentType, kind)
	header.Set(echo.HeaderCacheControl, "private, max-age=31536000, immutable")
	header.Set("ETag", `"`+photo.String()+`"`)
	http.ServeContent(c.Response(), c.Request(), "", time.Time{}, file)
	return nil
}
