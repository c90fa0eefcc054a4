package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fairtape/parse"
)

// doubtful lists the girths of a survey that are not sure: "hull 2" for that at
// 2 ft.
func doubtful(s parse.Survey) string {
	var found []string
	for _, st := range s.Stations {
		for _, g := range []struct {
			name string
			parse.Reading
		}{{"hull", st.HullGirth}, {"full", st.FullGirth}} {
			if !g.Certain() {
				found = append(found, fmt.Sprintf("%s %g", g.name, st.At.In(parse.Inch)/12))
			}
		}
	}
	return strings.Join(found, ", ")
}

// What the comments of a text say of the letters and marks beside its numbers
// reaches them.
func TestCSVComments(t *testing.T) {
	for _, c := range []struct{ name, comments, second, third, doubtful string }{
		{"a letter", "# U = uncertain, A = read twice", "2 ft,40,55,U", "3 ft,44,66,A", "hull 2, full 2"},
		{"with more said before the doubt", "# A = sure, B = read once, not sure", "2 ft,40,55,B", "3 ft,44,66,A", "hull 2, full 2"},
		{"two letters", "# w: windy; e: estimated", "2 ft,40,55,\"w, e\"", "3 ft,44,66,w", "hull 2, full 2"},
		{"a mark in its column", "# * means to be checked again: not sure", "2 ft,40,55,*", "3 ft,44,66,", "hull 2, full 2"},
		{"a mark behind a number", "# * = not sure of it", "2 ft,40,55*,", "3 ft,44,66,", "full 2"},
		{"a mark that harms nothing", "# * = over the thwart", "2 ft,40,55*,", "3 ft,44,66,", ""},
		{"French", "# d = douteux, s = sûr", "2 ft,40,55,d", "3 ft,44,66,s", "hull 2, full 2"},
		{"the line above", "", "2 ft,40,55,\n# the line above is a guess", "3 ft,44,66,", "hull 2, full 2"},
		{"the next line", "", "2 ft,40,55,\n# next line: rope in the way, approx.", "3 ft,44,66,", "hull 3, full 3"},
		{"nothing of the kind", "# U = under the deck, measured on 12 June", "2 ft,40,55,U", "3 ft,44,66,", ""},
	} {
		data := c.comments + "\nStation,Hull girth (in),Full girth (in),flag\n1 ft,35.5,42,\n" + c.second + "\n" + c.third + "\n4 ft,45,68,\n5 ft,42.5,61,\n6 ft,37,45,\n"
		doc, err := CSV("x.csv", []byte(data), nil)
		if err != nil || len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) != 6 {
			t.Errorf("%s: %+v, %v", c.name, doc, err)
			continue
		}
		if got := doubtful(doc.Surveys[0]); got != c.doubtful {
			t.Errorf("%s: doubtful are %q, want %q", c.name, got, c.doubtful)
		}
	}
}

// A comment in the survey's own form speaks of no reading, whatever it says.
func TestCSVOwnFormPassesOverComments(t *testing.T) {
	const survey = "length overall,9 ft 3 in\nstation,hull girth,full girth\n1 ft,35.5,42\n2 ft,40,55\n3 ft,44,66\n4 ft,45,68\n5 ft,42.5,61\n6 ft,37,45\n"
	for _, c := range []struct{ name, data, doubtful string }{
		{"another form", survey + "# the line above is a guess\n", "hull 6, full 6"},
		{"own form", "# At 2 ft the full girth is a guess\nUnit,IN\n" + survey, ""},
		{"own form, behind", "unit,in\n" + survey + "# the line above is a guess\n", ""},
	} {
		doc, err := CSV("survey.csv", []byte(c.data), nil)
		if err != nil || len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) != 6 {
			t.Errorf("%s: %+v, %v", c.name, doc, err)
			continue
		}
		if got := doubtful(doc.Surveys[0]); got != c.doubtful {
			t.Errorf("%s: doubtful are %q, want %q", c.name, got, c.doubtful)
		}
	}
}

// A note on a cell reaches the number on which it hangs, or those of its row.
func TestCellNotes(t *testing.T) {
	for _, c := range []struct {
		cell, note, doubtful string
		problem              bool
	}{
		{"B4", "not sure about this one", "hull 2", true},
		{"B4", "is that right?", "hull 2", true},
		{"C4", "second time it was 54 1/2", "full 2", true},
		{"A4", "Je ne suis pas sûr de cette ligne", "hull 2, full 2", true},
		{"B2", "all of these are rough, I was alone", "hull 1, hull 2, hull 3, hull 4, hull 5, hull 6", true},
		{"B4", "photo 12", "", true},
		{"B4", "just behind the thwart", "", false},
		{"H30", "thank you for your patience", "", false},
	} {
		doc, err := XLSX("x.xlsx", workbook(t, func(f *excelize.File) {
			must(t, f.AddComment("Sheet1", excelize.Comment{Cell: c.cell, Author: "Ada", Text: c.note}))
		}), nil)
		if err != nil || len(doc.Surveys) != 1 {
			t.Fatalf("%s: %+v, %v", c.note, doc, err)
		}
		if got := doubtful(doc.Surveys[0]); got != c.doubtful {
			t.Errorf("%s: doubtful are %q, want %q", c.note, got, c.doubtful)
		}
		if (len(doc.Problems) > 0) != c.problem {
			t.Errorf("%s: problems %+v", c.note, doc.Problems)
		}
	}
}

// A comment in a text document reaches the cell, or the line, that points to it.
func TestDOCXComments(t *testing.T) {
	for _, c := range []struct {
		note, doubtful string
		problems       int
	}{
		{"please check, the tape slipped", "full 2", 1},
		{"was 57 the first time", "full 2", 1},
		{"the widest rib", "", 0},
	} {
		row := func(cells ...string) string {
			return "<w:tr><w:tc>" + strings.Join(cells, "</w:tc><w:tc>") + "</w:tc></w:tr>"
		}
		p := func(text, more string) string { return "<w:p><w:r><w:t>" + text + "</w:t></w:r>" + more + "</w:p>" }
		table := row(p("Station", ""), p("Hull girth (in)", ""), p("Full girth (in)", ""))
		for i, r := range [][2]string{{"35.5", "42"}, {"40", "55"}, {"44", "66"}, {"45", "68"}} {
			point := ""
			if i == 1 {
				point = `<w:r><w:commentReference w:id="7"/></w:r>`
			}
			table += row(p(fmt.Sprintf("%d ft", i+1), ""), p(r[0], ""), p(r[1], point))
		}
		doc, err := DOCX("x.docx", textDocument(t, map[string]string{
			"word/document.xml": "<w:document><w:body><w:tbl>" + table + "</w:tbl></w:body></w:document>",
			"word/comments.xml": `<w:comments><w:comment w:id="7">` + paragraphs(c.note) + "</w:comment></w:comments>",
		}), nil)
		if err != nil || len(doc.Surveys) != 1 {
			t.Fatalf("%s: %+v, %v", c.note, doc, err)
		}
		if got := doubtful(doc.Surveys[0]); got != c.doubtful || len(doc.Problems) != c.problems {
			t.Errorf("%s: doubtful are %q, want %q; problems %+v", c.note, got, c.doubtful, doc.Problems)
		}
	}
}

// A line may say what the colour or the letters of numbers mean.
func TestLooks(t *testing.T) {
	fill := func(f *excelize.File, cell, colour string) {
		style, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}})
		must(t, err)
		must(t, f.SetCellStyle("Sheet1", cell, cell, style))
	}
	for _, c := range []struct{ line, doubtful string }{
		{"The ones in yellow are guesses", "hull 2"},
		{"Highlighted: not sure", "hull 2, full 3"},
		{"Les valeurs en vert sont à revoir", "full 3"},
		{"What is in bold is doubtful", "full 4"},
		{"yellow = not sure", "hull 2"},
		{"Yellow: measured at the thwart", ""},
		{"The ones in red are guesses", ""},
	} {
		doc, err := XLSX("x.xlsx", workbook(t, func(f *excelize.File) {
			fill(f, "B4", "FFFF00")
			fill(f, "C5", "92D050")
			bold, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
			must(t, err)
			must(t, f.SetCellStyle("Sheet1", "C6", "C6", bold))
			must(t, f.SetCellValue("Sheet1", "A11", c.line))
		}), nil)
		if err != nil || len(doc.Surveys) != 1 {
			t.Fatalf("%s: %+v, %v", c.line, doc, err)
		}
		if got := doubtful(doc.Surveys[0]); got != c.doubtful {
			t.Errorf("%s: doubtful are %q, want %q", c.line, got, c.doubtful)
		}
	}
}

func TestColourName(t *testing.T) {
	for hex, want := range map[string]string{
		"": "", "auto": "", "zz0000": "", "000000": "", "FFFFFF": "", "F2F2F2": "", "333333": "",
		"FFFF00": "yellow", "FFFFFF00": "yellow", "#fff2cc": "orange yellow", "FFC000": "orange yellow", "FF0000": "red", "C00000": "red", "F8CBAD": "orange",
		"92D050": "green", "00B0F0": "blue", "7030A0": "purple", "FF99CC": "pink", "BFBFBF": "grey", "cyan": "blue",
	} {
		if got := colourName(hex); got != want {
			t.Errorf("%q is %q, want %q", hex, got, want)
		}
	}
}
