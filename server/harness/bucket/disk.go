package bucket

import (
	"bytes"
	"io"
	"sync"

	"github.com/johannesboyne/gofakes3"
	"github.com/johannesboyne/gofakes3/backend/s3bolt"
)

// disk is a file of objects. What s3bolt gives of one lies in a page of the file, which another object may get as soon as that one is
// replaced or removed: so it is copied before either can be.
type disk struct {
	*s3bolt.Backend
	turns sync.RWMutex
}

func (d *disk) GetObject(bucket, name string, part *gofakes3.ObjectRangeRequest) (*gofakes3.Object, error) {
	d.turns.RLock()
	defer d.turns.RUnlock()
	object, err := d.Backend.GetObject(bucket, name, part)
	if err != nil {
		return nil, err
	}
	content, err := io.ReadAll(object.Contents)
	object.Contents, object.Hash = io.NopCloser(bytes.NewReader(content)), bytes.Clone(object.Hash)
	return object, err
}

func (d *disk) PutObject(bucket, name string, meta map[string]string, from io.Reader, size int64, conditions *gofakes3.PutConditions) (result gofakes3.PutObjectResult, err error) {
	// Nobody waits for what is still on its way.
	content, err := gofakes3.ReadAll(from, size)
	if err != nil {
		return result, err
	}
	d.turns.Lock()
	defer d.turns.Unlock()
	return d.Backend.PutObject(bucket, name, meta, bytes.NewReader(content), size, conditions)
}

func (d *disk) DeleteObject(bucket, name string) (gofakes3.ObjectDeleteResult, error) {
	d.turns.Lock()
	defer d.turns.Unlock()
	return d.Backend.DeleteObject(bucket, name)
}
