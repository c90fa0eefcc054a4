package sheet

import (
	"strings"
	"testing"

	"fairtape/parse"
)

// textDocument zips a document of the given parts.
func textDocument(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var list []string
	for name, content := range parts {
		list = append(list, name, content)
	}
	return zipped(t, list...)
}

func paragraphs(lines ...string) string {
	var b strings.Builder
	for _, l := range lines {
		b.WriteString("<w:p><w:r><w:t>" + l + "</w:t></w:r></w:p>")
	}
	return b.String()
}

func TestDOCXBesideTheText(t *testing.T) {
	box := `<w:p><w:r><w:t>Length overall: 88 in</w:t></w:r><w:r><mc:AlternateContent><mc:Choice><wps:txbx><w:txbxContent>` + paragraphs("Bow height: 17 in") +
		`</w:txbxContent></wps:txbx></mc:Choice><mc:Fallback><w:txbxContent>` + paragraphs("Bow height: 19 in") + `</w:txbxContent></mc:Fallback></mc:AlternateContent></w:r></w:p>`
	doc, err := DOCX("x.docx", textDocument(t, map[string]string{
		"word/document.xml": "<w:document><w:body>" + box + "</w:body></w:document>",
		"word/header1.xml":  "<w:hdr>" + paragraphs("Stern height: 15.5 in") + "</w:hdr>",
		"word/footer2.xml":  "<w:ftr>" + paragraphs("Carry point: 14 in") + "</w:ftr>",
	}), nil)
	if err != nil || len(doc.Surveys) != 1 || len(doc.Problems) != 0 {
		t.Fatalf("%+v, %v", doc, err)
	}
	s := doc.Surveys[0]
	for _, r := range []struct {
		got   parse.Reading
		want  float64
		place string
	}{
		{s.LengthOverall, 88, "paragraph 1"}, {s.BowHeight, 17, "paragraph 2"},
		{s.SternHeight, 15.5, "header 1, "}, {s.CarryPoint, 14, "footer 2, "},
	} {
		if !r.got.Certain() || r.got.Value.In(parse.Inch) != r.want || !strings.HasPrefix(r.got.Source.Place, r.place) {
			t.Errorf("got %+v, want %g in %s", r.got, r.want, r.place)
		}
	}
}

// TestDOCXNumbers shows the numbers of a list that Word counts by itself.
func TestDOCXNumbers(t *testing.T) {
	item := func(text string) string {
		return `<w:p><w:pPr><w:numPr><w:ilvl w:val="0"/><w:numId w:val="3"/></w:numPr></w:pPr><w:r><w:t>` + text + `</w:t></w:r></w:p>`
	}
	seen := ""
	words := func(file, text string) parse.Document {
		seen = text
		return parse.Document{File: file}
	}
	_, err := DOCX("x.docx", textDocument(t, map[string]string{
		"word/document.xml":  "<w:document><w:body>" + item("hull 30, full 40.5") + item("hull 36, full 52") + "</w:body></w:document>",
		"word/numbering.xml": `<w:numbering><w:abstractNum w:abstractNumId="7"><w:lvl w:ilvl="0"><w:numFmt w:val="decimal"/></w:lvl></w:abstractNum><w:num w:numId="3"><w:abstractNumId w:val="7"/></w:num></w:numbering>`,
	}), words)
	if err != nil || !strings.Contains(seen, "1. hull 30") || !strings.Contains(seen, "2. hull 36") {
		t.Errorf("the lines are %q, %v", seen, err)
	}
}

// TestDOCXStruck reads what counts of corrected text: what is struck out in
// place of nothing is asked about.
func TestDOCXStruck(t *testing.T) {
	struck := func(text string) string { return `<w:r><w:rPr><w:strike/></w:rPr><w:t>` + text + `</w:t></w:r>` }
	plain := func(text string) string {
		return `<w:r><w:rPr><w:strike w:val="0"/></w:rPr><w:t>` + text + `</w:t></w:r>`
	}
	row := func(cells ...string) string {
		return "<w:tr><w:tc>" + strings.Join(cells, "</w:tc><w:tc>") + "</w:tc></w:tr>"
	}
	p := func(runs ...string) string { return "<w:p>" + strings.Join(runs, "") + "</w:p>" }
	doc, err := DOCX("x.docx", textDocument(t, map[string]string{"word/document.xml": "<w:document><w:body><w:tbl>" +
		row(p(plain("Station")), p(plain("Hull girth (in)")), p(plain("Full girth (in)"))) +
		row(p(plain("1 ft")), p(struck("53 "), plain("35 1/2")), p(struck("24"))+p(plain("42"))) +
		row(p(plain("2 ft")), p(struck("40")), p(plain("55"))) +
		"</w:tbl></w:body></w:document>"}), nil)
	if err != nil || len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) != 2 {
		t.Fatalf("%+v, %v", doc, err)
	}
	one, two := doc.Surveys[0].Stations[0], doc.Surveys[0].Stations[1]
	if one.HullGirth.Value.In(parse.Inch) != 35.5 || one.FullGirth.Value.In(parse.Inch) != 42 || two.HullGirth.Certain() {
		t.Errorf("got %+v, %+v", one, two)
	}
	if len(doc.Problems) != 1 || doc.Problems[0].Code != parse.CodeStruck {
		t.Errorf("problems %+v", doc.Problems)
	}
}

// What Word does not show is not read, nor what stands in notes; both are said.
func TestDOCXNotShown(t *testing.T) {
	cell := func(inner string) string { return "<w:tc>" + inner + "</w:tc>" }
	run := func(properties, text string) string {
		return "<w:p><w:r><w:rPr>" + properties + "</w:rPr><w:t>" + text + "</w:t></w:r></w:p>"
	}
	control := func(properties, text string) string {
		return "<w:p><w:sdt><w:sdtPr>" + properties + "</w:sdtPr><w:sdtContent><w:r><w:t>" + text + "</w:t></w:r></w:sdtContent></w:sdt></w:p>"
	}
	row := func(cells ...string) string { return "<w:tr>" + strings.Join(cells, "") + "</w:tr>" }
	doc, err := DOCX("x.docx", textDocument(t, map[string]string{
		"word/document.xml": "<w:document><w:body><w:tbl>" +
			row(cell(run("", "Length overall")), cell(control("<w:text/>", "88 in"))) +
			row(cell(run("", "Bow height")), cell(control("<w:showingPlcHdr/>", "like 16 1/2 in"))) +
			row(cell(run("", "Stern height")), cell(run("<w:vanish/>", "15 in"))) +
			"<w:tr><w:trPr><w:gridBefore w:val=\"1\"/></w:trPr>" + cell(run("", "Carry point")) + cell(run("", "14 in")) + "</w:tr>" +
			"</w:tbl></w:body></w:document>",
		"word/comments.xml":  "<w:comments><w:comment>" + paragraphs("or 89 in?") + "</w:comment><w:comment>" + paragraphs("thank you") + "</w:comment></w:comments>",
		"word/footnotes.xml": "<w:footnotes><w:footnote>" + paragraphs("with the deck 20 in") + "</w:footnote></w:footnotes>",
	}), nil)
	if err != nil || len(doc.Surveys) != 1 {
		t.Fatalf("%+v, %v", doc, err)
	}
	s := doc.Surveys[0]
	for _, r := range []struct {
		name string
		got  parse.Reading
		want float64
	}{{"length", s.LengthOverall, 88}, {"carry", s.CarryPoint, 14}} {
		if !r.got.Certain() || r.got.Value.In(parse.Inch) != r.want {
			t.Errorf("%s: got %+v, want %g", r.name, r.got, r.want)
		}
	}
	if !s.BowHeight.Absent() || !s.SternHeight.Absent() {
		t.Errorf("what is not shown is read: %+v, %+v", s.BowHeight, s.SternHeight)
	}
	said := map[parse.Code]int{}
	for _, p := range doc.Problems {
		said[p.Code]++
	}
	if said[CodeNote] != 2 || said[parse.CodeHidden] != 1 || len(doc.Problems) != 3 {
		t.Errorf("problems %v", doc.Problems)
	}
}
