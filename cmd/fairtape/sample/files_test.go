package sample

import (
	"archive/zip"
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"fairtape/parse"
)

// inches writes a length in half inches: 35 1/2.
func inches(l parse.Length) string {
	whole, half := math.Modf(l.In(parse.Inch))
	if half == 0 {
		return fmt.Sprintf("%g", whole)
	}
	return fmt.Sprintf("%g 1/2", whole)
}

// feet writes a length in feet and inches: 15 ft 9 1/2 in.
func feet(l parse.Length) string {
	f, rest := math.Modf(l.In(parse.Inch) / 12)
	return fmt.Sprintf("%g ft %s in", f, inches(parse.Inches(math.Round(rest*24)/2)))
}

// measures are the whole-boat lines of a survey.
func measures(s parse.Survey) [][2]parse.Reading {
	return [][2]parse.Reading{{s.LengthOverall}, {s.BowHeight}, {s.SternHeight}, {s.CarryPoint}}
}

var english = []string{"length overall", "bow height", "stern height", "carry point"}

// table is a survey as comma-separated values, as far as it goes.
func table(s parse.Survey, unit string) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "unit,%s\n", unit)
	for i, m := range measures(s) {
		if !m[0].Absent() {
			value := inches(m[0].Value)
			if i == 0 {
				value = feet(m[0].Value)
			}
			fmt.Fprintf(&b, "%s,%s\n", english[i], value)
		}
	}
	if g := s.Greatest; !g.At.Absent() {
		fmt.Fprintf(&b, "greatest girth at,%s,%s,%s\n", feet(g.At.Value), inches(g.HullGirth.Value), inches(g.FullGirth.Value))
		if !g.Opening.Absent() {
			fmt.Fprintf(&b, "opening there,%s\n", inches(g.Opening.Value))
		}
	}
	if len(s.Stations) > 0 {
		fmt.Fprintln(&b, "station,hull girth,full girth")
	}
	for _, st := range s.Stations {
		fmt.Fprintf(&b, "%g ft,%s,%s\n", st.At.In(parse.Inch)/12, inches(st.HullGirth.Value), inches(st.FullGirth.Value))
	}
	return []byte(b.String())
}

// tableau is a survey in French, with semicolons and decimal commas.
func tableau(s parse.Survey) []byte {
	cm := func(l parse.Length) string {
		return strings.ReplaceAll(strconv.FormatFloat(l.In(parse.Centimetre), 'f', 1, 64), ".", ",")
	}
	var b strings.Builder
	fmt.Fprint(&b, "unité;cm\n")
	for i, name := range []string{"longueur hors tout", "hauteur de la proue", "hauteur de la poupe", "point de portage"} {
		fmt.Fprintf(&b, "%s;%s\n", name, cm(measures(s)[i][0].Value))
	}
	g := s.Greatest
	fmt.Fprintf(&b, "plus grand tour à;%s;%s;%s\n", cm(g.At.Value), cm(g.HullGirth.Value), cm(g.FullGirth.Value))
	fmt.Fprint(&b, "station;tour de coque;tour complet\n")
	for _, st := range s.Stations {
		fmt.Fprintf(&b, "%s;%s;%s\n", cm(st.At), cm(st.HullGirth.Value), cm(st.FullGirth.Value))
	}
	return []byte(b.String())
}

// typed is a survey as people type it into a mail.
func typed(s parse.Survey) string {
	var b strings.Builder
	for i, m := range measures(s) {
		value := inches(m[0].Value)
		if i == 0 {
			value = feet(m[0].Value)
		}
		fmt.Fprintf(&b, "%s: %s\n", english[i], value)
	}
	fmt.Fprintln(&b)
	for _, st := range s.Stations {
		fmt.Fprintf(&b, "%g ft: hull %s, full %s\n", st.At.In(parse.Inch)/12, inches(st.HullGirth.Value), inches(st.FullGirth.Value))
	}
	g := s.Greatest
	fmt.Fprintf(&b, "\ngreatest girth at %s: hull %s, full %s\n", feet(g.At.Value), inches(g.HullGirth.Value), inches(g.FullGirth.Value))
	return b.String()
}

// spreadsheet is a survey as a workbook with a title, a heading and numbers.
func spreadsheet(t *testing.T, s parse.Survey, boat string) []byte {
	t.Helper()
	book := excelize.NewFile()
	const sheet = "Sheet1"
	row := 0
	add := func(cells ...any) {
		row++
		if err := book.SetSheetRow(sheet, fmt.Sprintf("A%d", row), &cells); err != nil {
			t.Fatal(err)
		}
	}
	add("Boat survey")
	add("Boat", boat)
	add("All lengths in inches")
	row++
	for i, m := range measures(s) {
		add(english[i], m[0].Value.In(parse.Inch))
	}
	g := s.Greatest
	add("greatest girth at", g.At.Value.In(parse.Inch), g.HullGirth.Value.In(parse.Inch), g.FullGirth.Value.In(parse.Inch))
	row++
	add("station (ft)", "hull girth (in)", "full girth (in)")
	for _, st := range s.Stations {
		add(st.At.In(parse.Inch)/12, st.HullGirth.Value.In(parse.Inch), st.FullGirth.Value.In(parse.Inch))
	}
	made := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC).Format(time.RFC3339)
	if err := book.SetDocProps(&excelize.DocProperties{Creator: "A customer", Created: made, Modified: made}); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := book.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// document is a survey as a table in a word processor's file (ECMA-376 part 1,
// section 17.4).
func document(t *testing.T, s parse.Survey) []byte {
	t.Helper()
	var body strings.Builder
	paragraph := func(text string) { fmt.Fprintf(&body, "<w:p><w:r><w:t>%s</w:t></w:r></w:p>", text) }
	row := func(cells ...string) {
		body.WriteString("<w:tr>")
		for _, c := range cells {
			body.WriteString("<w:tc>")
			paragraph(c)
			body.WriteString("</w:tc>")
		}
		body.WriteString("</w:tr>")
	}
	paragraph("Survey of my boat, in inches")
	body.WriteString("<w:tbl>")
	for i, m := range measures(s) {
		row(english[i], inches(m[0].Value), "", "")
	}
	g := s.Greatest
	row("greatest girth at", inches(g.At.Value), inches(g.HullGirth.Value), inches(g.FullGirth.Value))
	body.WriteString("</w:tbl>")
	paragraph("")
	body.WriteString("<w:tbl>")
	row("station", "hull girth", "full girth")
	for _, st := range s.Stations {
		row(fmt.Sprintf("%g ft", st.At.In(parse.Inch)/12), inches(st.HullGirth.Value), inches(st.FullGirth.Value))
	}
	body.WriteString("</w:tbl>")

	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, part := range []struct{ name, text string }{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/word/document.xml" ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="word/document.xml"/></Relationships>`},
		{"word/document.xml", `<w:document xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"><w:body>` + body.String() + `<w:sectPr/></w:body></w:document>`},
	} {
		w, err := z.Create(part.name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(part.text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// form is a filled form of our own: a page with a label and a text field for
// every number (ISO 32000-1, section 12.7.4.3).
func form(s parse.Survey, customer, boat string) []byte {
	type field struct{ label, name, value string }
	fields := []field{
		{"Name", "customer", customer}, {"Boat", "boat", boat}, {"Unit", "unit", "in"},
		{"Length overall", "length_overall", feet(s.LengthOverall.Value)},
		{"Bow height", "bow_height", inches(s.BowHeight.Value)},
		{"Stern height", "stern_height", inches(s.SternHeight.Value)},
		{"Carry point", "carry_point", inches(s.CarryPoint.Value)},
		{"Greatest girth at", "greatest.at", feet(s.Greatest.At.Value)},
		{"Hull girth there", "greatest.hull_girth", inches(s.Greatest.HullGirth.Value)},
		{"Full girth there", "greatest.full_girth", inches(s.Greatest.FullGirth.Value)},
	}
	for i, st := range s.Stations {
		at := strconv.FormatFloat(st.At.In(parse.Inch)/12, 'f', -1, 64) + " ft"
		fields = append(fields,
			field{"Station", fmt.Sprintf("stations[%d].at", i), at},
			field{at + " hull girth", fmt.Sprintf("stations[%d].hull_girth", i), inches(st.HullGirth.Value)},
			field{at + " full girth", fmt.Sprintf("stations[%d].full_girth", i), inches(st.FullGirth.Value)})
	}
	p := pdfWriter{}
	p.reserve(3) // catalogue, pages, page
	font := p.add("<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>")
	var page, refs strings.Builder
	fmt.Fprintf(&page, "BT /F %d Tf 40 805 Td (Boat survey) Tj ET\n", 14)
	for i, f := range fields {
		x, y := 40+180*(i%3), 775-20*(i/3)
		fmt.Fprintf(&page, "BT /F 8 Tf %d %d Td (%s) Tj ET\n", x, y+4, f.label)
		look := p.stream(fmt.Sprintf("/Type/XObject/Subtype/Form/BBox[0 0 90 14]/Resources<</Font<</F %d 0 R>>>>", font),
			fmt.Sprintf("/Tx BMC BT /F 10 Tf 2 3 Td (%s) Tj ET EMC", f.value))
		id := p.add(fmt.Sprintf("<</Type/Annot/Subtype/Widget/FT/Tx/F 4/P 3 0 R/T(%s)/V(%s)/DA(/F 10 Tf 0 g)/Rect[%d %d %d %d]/AP<</N %d 0 R>>>>",
			f.name, f.value, x+75, y, x+165, y+14, look))
		fmt.Fprintf(&refs, "%d 0 R ", id)
	}
	content := p.stream("", page.String())
	resources := fmt.Sprintf("<</Font<</F %d 0 R>>>>", font)
	p.set(1, fmt.Sprintf("<</Type/Catalog/Pages 2 0 R/AcroForm<</Fields[%s]/DA(/F 10 Tf 0 g)/DR%s>>>>", refs.String(), resources))
	p.set(2, "<</Type/Pages/Kids[3 0 R]/Count 1>>")
	p.set(3, fmt.Sprintf("<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources%s/Contents %d 0 R/Annots[%s]>>", resources, content, refs.String()))
	return p.bytes()
}

// pdfWriter numbers and writes the objects of a PDF.
type pdfWriter struct{ objects []string }

func (p *pdfWriter) reserve(n int)           { p.objects = append(p.objects, make([]string, n)...) }
func (p *pdfWriter) set(id int, text string) { p.objects[id-1] = text }

func (p *pdfWriter) add(text string) int {
	p.objects = append(p.objects, text)
	return len(p.objects)
}

func (p *pdfWriter) stream(entries, data string) int {
	return p.add(fmt.Sprintf("<<%s/Length %d>>\nstream\n%s\nendstream", entries, len(data), data))
}

func (p *pdfWriter) bytes() []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n")
	offsets := make([]int, len(p.objects))
	for i, o := range p.objects {
		offsets[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	start := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(offsets)+1)
	for _, o := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", o)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(offsets)+1, start)
	return b.Bytes()
}
