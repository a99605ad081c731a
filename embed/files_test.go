package embed

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/andybalholm/brotli"
)

func TestTheAppInTheBinaryIsReadable(t *testing.T) {
	app, err := App()
	if err != nil {
		t.Fatalf("the webapp's build left something that cannot be served: %v", err)
	}
	for _, file := range app.All() {
		if strings.HasPrefix(file.Path, ".") {
			t.Errorf("%s is served", file.Path)
		}
		if _, err := app.ReadAll(file); err != nil {
			t.Errorf("%s cannot be read: %v", file.Path, err)
		}
	}
}

func TestAnEmptyDistIsAnAppWithoutFiles(t *testing.T) {
	files, err := Read(fstest.MapFS{".keep": {}})
	if err != nil {
		t.Fatal(err)
	}
	if all := files.All(); len(all) != 0 {
		t.Errorf("files = %v, want none", all)
	}
}

func TestReadPairsEachFileWithItsForms(t *testing.T) {
	files, err := Read(fstest.MapFS{
		"index.html":       {Data: []byte(strings.Repeat("wire ", 100))},
		"index.html.br":    {Data: []byte("br")},
		"index.html.gz":    {Data: []byte("gzip")},
		"icon.png":         {Data: []byte("png")},
		"icon.png.br":      {Data: []byte("larger than the file itself")},
		"lone.txt":         {Data: []byte("lone")},
		"assets/a-1.js":    {Data: []byte(strings.Repeat("x", 50))},
		"assets/a-1.js.br": {Data: []byte("y")},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"index.html":    "br gzip identity",
		"icon.png":      "identity",
		"lone.txt":      "identity",
		"assets/a-1.js": "br identity",
	}
	if got := len(files.All()); got != len(want) {
		t.Errorf("%d files, want %d: a precompressed form is no file of its own", got, len(want))
	}
	for name, codings := range want {
		file, ok := files.Find(name)
		if !ok {
			t.Errorf("%s not found", name)
			continue
		}
		var got []string
		for _, form := range file.Forms {
			got = append(got, form.Coding)
		}
		if strings.Join(got, " ") != codings {
			t.Errorf("%s: forms %v, want %s", name, got, codings)
		}
	}
	index, _ := files.Find("index.html")
	body, err := files.Open(index.Forms[0])
	if err != nil {
		t.Fatal(err)
	}
	defer body.Close()
	if content, _ := io.ReadAll(body); string(content) != "br" {
		t.Errorf("the br form of index.html reads %q", content)
	}
}

// A file that is there only as its .br is the same file: same path, type, codings and content.
func TestAPlainFormLeftOutIsMadeFromTheBrotli(t *testing.T) {
	page := strings.Repeat("wire ", 100)
	var packed bytes.Buffer
	w := brotli.NewWriter(&packed)
	w.Write([]byte(page))
	w.Close()
	whole := fstest.MapFS{
		"index.html":    {Data: []byte(page)},
		"index.html.br": {Data: packed.Bytes()},
		"index.html.gz": {Data: []byte("gzip of the page, larger")},
	}
	want, err := Read(whole)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Read(fstest.MapFS{"index.html.br": whole["index.html.br"], "index.html.gz": whole["index.html.gz"]})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.All()) != 1 {
		t.Fatalf("files = %v, want index.html alone", got.All())
	}
	a, _ := want.Find("index.html")
	b, _ := got.Find("index.html")
	tags := map[string]bool{}
	for i, form := range a.Forms {
		other := b.Forms[i]
		if form.Coding != other.Coding || form.Coding != identity && form != other {
			t.Errorf("form %+v, want %+v", other, form)
		}
		if tags[other.ETag] {
			t.Errorf("two forms share the tag %s", other.ETag)
		}
		tags[other.ETag] = true
	}
	plain, err := got.Open(b.Forms[len(b.Forms)-1])
	if err != nil {
		t.Fatal(err)
	}
	defer plain.Close()
	if content, _ := io.ReadAll(plain); string(content) != page {
		t.Errorf("the plain form reads %q", content)
	}
}

func TestADamagedBrotliMakesNoPlainForm(t *testing.T) {
	files, err := Read(fstest.MapFS{"index.html.br": {Data: []byte("no brotli")}})
	if err != nil {
		t.Fatal(err)
	}
	file, _ := files.Find("index.html")
	_, err = files.Open(file.Forms[len(file.Forms)-1])
	if err == nil || !strings.Contains(err.Error(), "index.html.br") {
		t.Errorf("error = %v, want one naming index.html.br", err)
	}
	if content, err := files.ReadAll(file); err == nil {
		t.Errorf("the plain form reads %q", content)
	}
}

func TestTheTagFollowsTheContent(t *testing.T) {
	tag := func(content string) string {
		files, err := Read(fstest.MapFS{"a.txt": {Data: []byte(content)}})
		if err != nil {
			t.Fatal(err)
		}
		file, _ := files.Find("a.txt")
		return file.Forms[0].ETag
	}
	one, again, two := tag("one"), tag("one"), tag("two")
	if one != again {
		t.Error("the same content has two tags")
	}
	if one == two {
		t.Error("two contents share a tag")
	}
	// SHA-256("abc") begins ba7816bf 8f01cfea 414140de: FIPS 180-2, appendix B.1.
	if got, want := tag("abc"), `"ungWv48Bz-pBQUDe"`; got != want {
		t.Errorf("tag of abc = %s, want %s", got, want)
	}
}

func TestAnUnknownEndingIsRefused(t *testing.T) {
	_, err := Read(fstest.MapFS{"a.exe": {Data: []byte("x")}})
	if err == nil || !strings.Contains(err.Error(), "a.exe") {
		t.Errorf("error = %v, want one naming a.exe", err)
	}
}
