package pdf

import (
	"fmt"
	"strings"
	"testing"
)

// lying is a page whose font draws 5 and calls it 3, which both readers of the
// text believe.
func lying() *made {
	m := typed()
	m.font = "/ToUnicode 6 0 R"
	var chars strings.Builder
	for c := 0x20; c <= 0x7e; c++ {
		says := c
		if c == '5' {
			says = '3'
		}
		fmt.Fprintf(&chars, "<%02X> <%04X>\n", c, says)
	}
	m.objects = []string{stream("", "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CMapType 2 def\n"+
		"1 begincodespacerange\n<00> <FF>\nendcodespacerange\n95 beginbfchar\n"+chars.String()+"endbfchar\nendcmap\nend\nend")}
	return m
}

func TestDrawnOtherwise(t *testing.T) {
	doc := read(t, lying().bytes())
	if !has(doc, CodeDrawn) || len(doc.Surveys) != 1 {
		t.Fatalf("problems are %v", doc.Problems)
	}
	s := doc.Surveys[0]
	if r := s.LengthOverall; r.Certain() {
		t.Errorf("%+v is drawn as 15 ft 9 in", r)
	}
	if r := s.Stations[0].HullGirth; r.Certain() {
		t.Errorf("%+v is drawn as 35 1/2", r)
	}
	for _, p := range doc.Problems {
		if p.Code == CodeDrawn && p.Source.Raw == "38" {
			t.Error("38 is drawn as it is written")
		}
	}
	if honest := read(t, typed().bytes()); has(honest, CodeDrawn) {
		t.Errorf("problems of an honest page are %v", honest.Problems)
	}
}
