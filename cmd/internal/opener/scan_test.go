package opener

import (
	"bytes"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"fairtape/parse/pdf"
)

// TestScanBehindLetter has a form scanned behind a typed page: the scan is read,
// and what the typed page says is not lost.
func TestScanBehindLetter(t *testing.T) {
	file := fpdf.New("P", "mm", "A4", "")
	file.SetFont("Helvetica", "", 11)
	file.AddPage()
	file.Text(20, 30, "Please find the survey of our canoe on the next page.")
	file.Text(20, 40, "The tape read 61 in somewhere, we do not know where.")
	file.AddPage()
	file.Image("../../../testdata/photo/flat-inches.jpg", 0, 0, 210, 0, false, "", 0, "")
	var b bytes.Buffer
	if err := file.Output(&b); err != nil {
		t.Fatal(err)
	}
	doc, err := newOpener(t).Open(t.Context(), "letter.pdf", b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) == 0 {
		t.Fatalf("%d surveys, problems %s", len(doc.Surveys), codes(doc))
	}
	told := false
	for _, p := range doc.Problems {
		told = told || strings.Contains(p.Source.Raw, "61") && strings.HasPrefix(p.Source.Place, "page 1")
		if p.Code == pdf.CodeNoText {
			t.Errorf("the page that was read is also said to be a picture: %+v", p)
		}
	}
	if !told {
		t.Errorf("the number of the typed page is lost: %+v", doc.Problems)
	}
}
