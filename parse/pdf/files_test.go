package pdf

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"fairtape/parse"
)

var update = flag.Bool("update", false, "write the goldens anew")

// TestFiles reads what programs in use write.
func TestFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/pdf/*.pdf")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files: %v", err)
	}
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			r := reader(t)
			doc, err := r.Read(t.Context(), filepath.Base(f), data)
			if err != nil {
				t.Fatal(err)
			}
			got, err := json.MarshalIndent(doc, "", " ")
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, '\n')
			golden := f + ".want.json"
			if *update {
				if err := os.WriteFile(golden, got, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, want) {
				t.Errorf("%s says\n%s\nwant\n%s", f, got, want)
			}
		})
	}
}

// FuzzRead changes sound files. A reader may fail, and must not panic or
// return an impossible number; loops of the second reader are cut off.
func FuzzRead(f *testing.F) {
	f.Add(typed().bytes())
	f.Add(ownForm().bytes())
	r := reader(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := r.Read(t.Context(), "x.pdf", data)
		if err != nil {
			return
		}
		for i := range doc.Surveys {
			doc.Surveys[i].Each(func(r *parse.Reading) {
				if !(r.Value >= 0 && r.Confidence >= 0 && r.Confidence <= 1) {
					t.Errorf("an impossible reading: %+v", *r)
				}
			})
		}
	})
}

func BenchmarkRead(b *testing.B) {
	data := typed().bytes()
	r := reader(b)
	for b.Loop() {
		if _, err := r.Read(b.Context(), "x.pdf", data); err != nil {
			b.Fatal(err)
		}
	}
}

// TestPages draws a page for whoever looks at pictures.
func TestPages(t *testing.T) {
	r := reader(t)
	pages, err := r.Pages(t.Context(), typed().bytes(), 72, []int{1, 2})
	if err != nil {
		t.Fatal(err)
	}
	if len(pages) != 2 || pages[0].Bounds().Dx() != 612 || pages[0].Bounds().Dy() != 792 {
		t.Errorf("drawn: %d pages", len(pages))
	}
	if pages[1] != nil {
		t.Error("a page that is not there was drawn")
	}
}
