package bucket

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"sync"
	"testing"

	"github.com/johannesboyne/gofakes3/backend/s3bolt"
)

// What is given of an object is its own also where objects are replaced and removed meanwhile.
func TestWhatIsGivenIsTheObjects(t *testing.T) {
	file, err := s3bolt.NewFile(filepath.Join(t.TempDir(), "objects"))
	if err != nil {
		t.Fatal(err)
	}
	d := &disk{Backend: file}
	if err := d.CreateBucket(name); err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for n := range 4 {
		all.Go(func() {
			key, content := fmt.Sprint("object ", n), bytes.Repeat([]byte{byte('a' + n)}, 3000)
			for range 50 {
				if _, err := d.PutObject(name, key, nil, bytes.NewReader(content), int64(len(content)), nil); err != nil {
					t.Error(err)
					return
				}
				object, err := d.GetObject(name, key, nil)
				if err != nil {
					t.Error(err)
					return
				}
				if _, err := d.DeleteObject(name, key); err != nil {
					t.Error(err)
				}
				// Another object may get its page now.
				other := bytes.Repeat([]byte{'.'}, len(content))
				if _, err := d.PutObject(name, key+" again", nil, bytes.NewReader(other), int64(len(other)), nil); err != nil {
					t.Error(err)
				}
				if given, err := io.ReadAll(object.Contents); err != nil || !bytes.Equal(given, content) {
					t.Errorf("%s: something else was given, %v", key, err)
					return
				}
			}
		})
	}
	all.Wait()
}
