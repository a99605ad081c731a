package embed

import (
	"io"
	"strings"
	"testing"
	"testing/fstest"
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
