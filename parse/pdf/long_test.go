package pdf

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// chapters are pages of print that say nothing of a survey.
func chapters(n int) (pages []string) {
	for i := range n {
		m := &made{}
		for line := range 40 {
			m.text(60, 740-16*line, "This chapter tells of weather, and of what was seen from the shore.")
		}
		m.text(300, 40, fmt.Sprint(1900+i))
		pages = append(pages, m.content)
	}
	return pages
}

// grey is a picture of one colour over a whole page.
const grey = "q 612 0 0 792 0 0 cm BI /W 1 /H 1 /CS /G /BPC 8 ID \xc0 EI Q\n"

// TestLong holds that a survey deep in a long file is looked at like one alone.
func TestLong(t *testing.T) {
	alone, among := typed(), typed()
	among.before = chapters(surveyPages + 2)
	for _, m := range []*made{alone, among} {
		m.restyle("38", "1 g")
		doc := read(t, m.bytes())
		if got := hull(t, doc, 12); !got.Certain() {
			t.Errorf("after %d pages the hull girth at 1 ft is %+v", len(m.before), got)
		}
		if got := hull(t, doc, 24); got.Certain() || !has(doc, CodeNotShown) {
			t.Errorf("after %d pages the hidden hull girth at 2 ft is %+v", len(m.before), got)
		}
	}
}

// TestScanWithText holds that a picture of a page is told from a page of print,
// however a program laid text over or under it, and however long the file is.
func TestScanWithText(t *testing.T) {
	text := chapters(1)[0]
	for _, test := range []struct {
		name, content string
		scan          bool
	}{
		{"print on a background", grey + text, false},
		{"text laid over it with no ink", grey + strings.ReplaceAll(text, "BT ", "BT 3 Tr "), true},
		{"text under it", text + grey, true},
		{"in a drawing over text", text + "q 0.5 0 0 0.5 0 0 cm " + strings.ReplaceAll(grey, "612 0 0 792", "1224 0 0 1584") + " Q\n", true},
		{"a small one under print", "q 0.1 0 0 0.1 0 0 cm " + grey + " Q\n" + text, false},
	} {
		for _, before := range []int{0, surveyPages + 1} {
			m := &made{content: test.content, before: chapters(before)}
			if got := slices.Contains(Scans(read(t, m.bytes())), before+1); got != test.scan {
				t.Errorf("%s, after %d pages: a scan is %v", test.name, before, got)
			}
		}
	}
}

func BenchmarkLong(b *testing.B) {
	m := typed()
	m.content, m.before = "", chapters(pagesMost)
	data, r := m.bytes(), reader(b)
	for b.Loop() {
		if _, err := r.Read(context.Background(), "x.pdf", data); err != nil {
			b.Fatal(err)
		}
	}
}
