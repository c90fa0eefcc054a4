package sheet_test

import (
	"archive/zip"
	"bytes"
	"testing"

	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/parse/sheet"
)

// written makes a document of paragraphs.
func written(t *testing.T, lines ...string) []byte {
	t.Helper()
	body := ""
	for _, l := range lines {
		body += "<w:p><w:r><w:t>" + l + "</w:t></w:r></w:p>"
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	part, err := z.Create("word/document.xml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := part.Write([]byte("<w:document><w:body>" + body + "</w:body></w:document>")); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func inProse(file, text string) parse.Document { return prose.Read(file, text, "").Document }

// TestDOCXSpoken reads lengths as people say them: half of a number is never
// taken for all of it, whether or not somebody reads the sentences.
func TestDOCXSpoken(t *testing.T) {
	data := written(t,
		"It is 12 feet 3 inches overall. Bow height, 20 inches. Stern height, 17 and a half inches. Carry point, 22 and a half inches from the bow.",
		"One foot: hull girth 40 and a half inches, full girth 50 inches.",
		"Two feet: hull girth 42 inches, full girth 57 and a half inches.",
		"Three feet: hull girth 43 inches, full girth 62 inches.",
		"Four feet: hull girth 44 inches, full girth 66 inches.")
	doc, err := sheet.DOCX("x.docx", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range doc.Surveys {
		if s.SternHeight.Certain() && s.SternHeight.Value.In(parse.Inch) != 17.5 {
			t.Errorf("without the sentences the stern is %+v", s.SternHeight)
		}
	}
	doc, err = sheet.DOCX("x.docx", data, inProse)
	if err != nil || len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) != 4 {
		t.Fatalf("%+v, %v", doc, err)
	}
	s := doc.Surveys[0]
	for i, r := range []struct {
		got  parse.Reading
		want float64
	}{
		{s.LengthOverall, 147}, {s.BowHeight, 20}, {s.SternHeight, 17.5}, {s.CarryPoint, 22.5},
		{s.Stations[0].HullGirth, 40.5}, {s.Stations[0].FullGirth, 50}, {s.Stations[1].FullGirth, 57.5}, {s.Stations[3].FullGirth, 66},
	} {
		if !r.got.Certain() || r.got.Value.In(parse.Inch) != r.want {
			t.Errorf("%d: got %+v, want %g in", i, r.got, r.want)
		}
	}
}
