package photos_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
)

// A photo of few bytes and many pixels is refused when all of it has come, and leaves nothing; the same as a phone's own
// goes. The drawn ones are made by Go's encoder.
func TestAPhotoOfTooManyPixelsIsRefused(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann := b.Aboard(t, "A", store.Mate, nil)
	drawn := func(width, height int) []byte {
		var file bytes.Buffer
		if err := jpeg.Encode(&file, image.NewGray(image.Rect(0, 0, width, height)), nil); err != nil {
			t.Fatal(err)
		}
		return file.Bytes()
	}
	// As a camera does: what it tells of itself goes before the frame, with a small picture in it.
	exif := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, 2 + 15}, harness.HeadOfJPEG(9000, 9000)...)
	camera := append(exif, harness.HeadOfJPEG(1600, 1200)[2:]...)
	frames := func(marker byte, width int) []byte {
		head := harness.HeadOfJPEG(width, 1)
		head[3] = marker
		return head
	}
	// The chunks as RFC 9649 has them: sizes less one for VP8L and VP8X.
	webp := func(rest string) []byte { return []byte("RIFF\x00\x00\x00\x00WEBP" + rest) }
	const chunk = "\x00\x00\x00\x00"
	for what, c := range map[string]struct {
		file   []byte
		status int
		code   string
	}{
		"22,400 wide":              {drawn(22_400, 8), 413, "pixels"},
		"22,400 high":              {drawn(8, 22_400), 413, "pixels"},
		"4,096 a side":             {harness.HeadOfJPEG(4096, 4096), 201, ""},
		"4,097 wide":               {harness.HeadOfJPEG(4097, 1), 413, "pixels"},
		"as the app draws it":      {drawn(1600, 1200), 201, ""},
		"with a camera's words":    {camera, 201, ""},
		"progressive, 5,000":       {frames(0xc2, 5000), 413, "pixels"},
		"by a rarer coding, 5,000": {frames(0xc9, 5000), 413, "pixels"},
		"tables only":              {frames(0xc4, 100), 415, "type"},
		"no height":                {harness.HeadOfJPEG(100, 0), 415, "type"},
		"cut short":                {harness.HeadOfJPEG(100, 100)[:12], 201, ""},
		"no frame":                 {append([]byte("\xff\xd8\xff\xd9"), make([]byte, 20)...), 415, "type"},
		"no marker":                {append([]byte("\xff\xd8\xff\xe0\x00\x04"), make([]byte, 20)...), 415, "type"},
		"filled":                   {append([]byte("\xff\xd8\xff\xff"), harness.HeadOfJPEG(4097, 1)[2:]...), 413, "pixels"},
		"WebP, 1,600 by 1,200":     {webp("VP8 " + chunk + "\x00\x00\x00\x9d\x01\x2a\x40\x06\xb0\x04"), 201, ""},
		"WebP, 16,383 wide":        {webp("VP8 " + chunk + "\x00\x00\x00\x9d\x01\x2a\xff\x3f\x01\x00"), 413, "pixels"},
		"lossless, 16,384 high":    {webp("VP8L" + chunk + "\x2f\x00\xc0\xff\x0f" + strings.Repeat("\x00", 5)), 413, "pixels"},
		"extended, 4,096 wide":     {webp("VP8X" + chunk + "\x00\x00\x00\x00\xff\x0f\x00\x00\x00\x00"), 201, ""},
		"extended, 4,097 high":     {webp("VP8X" + chunk + "\x00\x00\x00\x00\x00\x00\x00\x00\x10\x00"), 413, "pixels"},
		"of another chunk":         {webp("ALPH" + strings.Repeat("\x00", 20)), 415, "type"},
	} {
		hash := sha256.Sum256(c.file)
		sha := hex.EncodeToString(hash[:])
		name(t, ann, trip, sha)
		path, total := "/api/photos/"+sha, len(c.file)
		have := -1
		if c.status == 201 {
			have = total
		}
		want(t, what, ann.Ask("PUT", path, c.file), c.status, c.code, have)
		if c.status != 201 {
			want(t, what+": is gone", ann.Ask("PUT", path, []byte{}, "Content-Range", fmt.Sprint("bytes */", total)), 202, "", 0)
			if files, err := os.ReadDir(b.Dir + "/photos/parts"); err == nil && len(files) > 0 {
				t.Errorf("%s: left %v", what, files)
			}
		}
	}
}
