package sheet

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fairtape/parse"
)

// workbook makes a workbook with a table of stations, changed as the test
// wants.
func workbook(t testing.TB, change func(f *excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	rows := [][]any{
		{"Length overall", "6 ft 3 in"},
		{"Station", "Hull girth (in)", "Full girth (in)"},
		{"1 ft", 35.5, 42}, {"2 ft", 40, 55}, {"3 ft", 44, 66}, {"4 ft", 45, 68}, {"5 ft", 42.5, 61}, {"6 ft", 37, 45},
	}
	for i, r := range rows {
		must(t, f.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &r))
	}
	if change != nil {
		change(f)
	}
	var b bytes.Buffer
	must(t, f.Write(&b))
	return b.Bytes()
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func formatted(t testing.TB, f *excelize.File, cell string, value any, format string) {
	t.Helper()
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
	must(t, err)
	must(t, f.SetCellStyle("Sheet1", cell, cell, style))
	must(t, f.SetCellValue("Sheet1", cell, value))
}

func TestXLSXCells(t *testing.T) {
	tests := []struct {
		name   string
		change func(f *excelize.File)
		value  float64 // of the hull girth at 1 ft in inches; 0: none
		code   parse.Code
	}{
		{"a date", func(f *excelize.File) { formatted(t, f, "B3", 46024, "d-mmm") }, 0, parse.CodeDate},
		{"a formula without result", func(f *excelize.File) {
			must(t, f.SetCellValue("Sheet1", "B3", nil))
			must(t, f.SetCellFormula("Sheet1", "B3", "C3-6.5"))
		}, 0, parse.CodeFormula},
		{"an error value", func(f *excelize.File) { must(t, f.SetCellValue("Sheet1", "B3", "#REF!")) }, 0, parse.CodeCellError},
		{"a number struck out", func(f *excelize.File) {
			style, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Strike: true}})
			must(t, err)
			must(t, f.SetCellStyle("Sheet1", "B3", "B3", style))
		}, 0, parse.CodeStruck},
		{"a number struck out for another", func(f *excelize.File) {
			must(t, f.SetCellRichText("Sheet1", "B3", []excelize.RichTextRun{{Text: "53", Font: &excelize.Font{Strike: true}}, {Text: " 35.5"}}))
		}, 35.5, ""},
		{"a hidden row", func(f *excelize.File) { must(t, f.SetRowVisible("Sheet1", 3, false)) }, 0, parse.CodeHidden},
		{"a hidden column", func(f *excelize.File) { must(t, f.SetColVisible("Sheet1", "B", false)) }, 0, parse.CodeHidden},
		{"per cent", func(f *excelize.File) { formatted(t, f, "B3", 0.5, "0%") }, 0, parse.CodeNotALength},
		{"as it is", nil, 35.5, ""},
		{"rounded by its format", func(f *excelize.File) { formatted(t, f, "B3", 35.5, "0") }, 35.5, ""},
		{"shown as a fraction", func(f *excelize.File) { formatted(t, f, "B3", 35.5, "# ?/?") }, 35.5, ""},
		{"unit in the format", func(f *excelize.File) { formatted(t, f, "B3", 88.9, `0.0" cm"`) }, 35, ""},
		{"unit in a format that rounds", func(f *excelize.File) { formatted(t, f, "B3", 88.9, `0" cm"`) }, 35, ""},
		{"unit behind backslashes", func(f *excelize.File) { formatted(t, f, "B3", 88.9, `0.0\ \c\m`) }, 35, ""},
		{"thousands in the format", func(f *excelize.File) { formatted(t, f, "B3", 1250, `#,##0`) }, 1250, ""},
	}
	for _, tt := range tests {
		doc, err := XLSX("x.xlsx", workbook(t, tt.change), nil)
		must(t, err)
		if len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) != 6 {
			t.Errorf("%s: %d surveys", tt.name, len(doc.Surveys))
			continue
		}
		r := doc.Surveys[0].Stations[0].HullGirth
		if r.Known != (tt.value != 0) || r.Known && r.Value != parse.Inches(tt.value) {
			t.Errorf("%s: read %+v, want %v", tt.name, r, tt.value)
		}
		found := tt.code == ""
		for _, p := range doc.Problems {
			found = found || p.Code == tt.code && p.Source.Place == "Sheet1!B3"
		}
		if !found {
			t.Errorf("%s: problems %v, want %s", tt.name, doc.Problems, tt.code)
		}
	}
}

func TestHiddenSheetAndNotes(t *testing.T) {
	doc, err := XLSX("x.xlsx", workbook(t, func(f *excelize.File) {
		_, err := f.NewSheet("old")
		must(t, err)
		must(t, f.SetCellValue("old", "A1", 99))
		must(t, f.SetSheetVisible("old", false))
		must(t, f.AddComment("Sheet1", excelize.Comment{Cell: "B4", Author: "x", Paragraph: []excelize.RichTextRun{{Text: "41 the second time"}}}))
	}), nil)
	must(t, err)
	got := map[parse.Code]bool{}
	for _, p := range doc.Problems {
		got[p.Code] = true
	}
	if !got[CodeHiddenSheet] || !got[CodeNote] {
		t.Errorf("problems %v, want the hidden sheet and the note", doc.Problems)
	}
}

// spoilt is a workbook whose first sheet does not have its checksum any more.
func spoilt(t *testing.T, book []byte) []byte {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	must(t, err)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, part := range r.File {
		h := part.FileHeader
		if strings.HasSuffix(h.Name, "sheet1.xml") {
			h.CRC32++
		}
		from, err := part.OpenRaw()
		must(t, err)
		to, err := w.CreateRaw(&h)
		must(t, err)
		_, err = io.Copy(to, from)
		must(t, err)
	}
	must(t, w.Close())
	return b.Bytes()
}

func TestRefused(t *testing.T) {
	encrypted := func() []byte {
		f := excelize.NewFile()
		defer f.Close()
		var b bytes.Buffer
		must(t, f.Write(&b, excelize.Options{Password: "secret"}))
		return b.Bytes()
	}()
	old := append(bytes.Clone(oleMagic), utf16Bytes("Workbook")...)
	bomb := zipped(t, "content.xml", strings.Repeat(" ", maxPart+1))
	tests := []struct {
		name string
		read Reader
		data []byte
		want error
	}{
		{"password", XLSX, encrypted, ErrEncrypted},
		{"docx with password", DOCX, encrypted, ErrEncrypted},
		{"old", XLSX, old, ErrOldFormat},
		{"empty", XLSX, nil, ErrFormat},
		{"cut", XLSX, workbook(t, nil)[:3000], ErrFormat},
		{"a digit spoilt", XLSX, spoilt(t, workbook(t, nil)), ErrFormat},
		{"another zip", ODS, workbook(t, nil), ErrFormat},
		{"another zip", DOCX, workbook(t, nil), ErrFormat},
		{"bomb", ODS, bomb, ErrLimit},
		{"deep", ODS, zipped(t, "content.xml", strings.Repeat("<a>", maxDepth+1)), ErrLimit},
		{"encrypted", ODS, zipped(t, "content.xml", "<a/>", "META-INF/manifest.xml", "<manifest:encryption-data/>"), ErrEncrypted},
		{"half an element", DOCX, zipped(t, "word/document.xml", "<w:tbl><w:tr>"), ErrFormat},
		{"binary", CSV, []byte{1, 2, 3, 0, 5, 6, 7, 8, 9, 10, 11, 12, 13}, ErrFormat},
		{"wide", CSV, []byte(strings.Repeat("1,", 500000)), ErrLimit},
		{"long", CSV, []byte(strings.Repeat("1,2\n", 5000)), ErrLimit},
	}
	for _, tt := range tests {
		if _, err := tt.read("x", tt.data, nil); !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, err, tt.want)
		}
	}
}

// zipped makes a zip of names and contents.
func zipped(t testing.TB, parts ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for i := 0; i < len(parts); i += 2 {
		w, err := z.Create(parts[i])
		must(t, err)
		_, err = w.Write([]byte(parts[i+1]))
		must(t, err)
	}
	must(t, z.Close())
	return b.Bytes()
}

// A repeat count of a million must cost nothing.
func TestODSRepeats(t *testing.T) {
	row := `<table:table-row table:number-rows-repeated="1048576"><table:table-cell table:number-columns-repeated="16384" office:value-type="string"><text:p>%s</text:p></table:table-cell></table:table-row>`
	for _, text := range []string{"", "35"} {
		data := zipped(t, "content.xml", `<office:spreadsheet><table:table table:name="s">`+strings.Repeat(fmt.Sprintf(row, text), 3)+`</table:table></office:spreadsheet>`)
		doc, err := ODS("x.ods", data, nil)
		must(t, err)
		if len(doc.Surveys) != 0 {
			t.Errorf("%q: %d surveys", text, len(doc.Surveys))
		}
	}
}

func TestSparseXLSX(t *testing.T) {
	doc, err := XLSX("x.xlsx", workbook(t, func(f *excelize.File) {
		must(t, f.SetCellValue("Sheet1", "XFD1048576", 7))
	}), nil)
	must(t, err)
	if len(doc.Surveys) != 1 || len(doc.Problems) == 0 || doc.Problems[len(doc.Problems)-1].Code != CodeTooLarge {
		t.Errorf("problems %v, want one for the far cell", doc.Problems)
	}
}

func TestCSVText(t *testing.T) {
	tests := []struct {
		name, text string
		hull, full float64 // at 1 ft in inches; 0: none
	}{
		{"split by decimal commas", "Station,Hull (in),Full (in)\n1 ft,35,5,42\n2 ft,40,55\n", 0, 0},
		{"split at the end", "Station,Hull (in),Full (in),Notes\n1 ft,35,42,5\n2 ft,40,55,\n", 0, 0},
		{"split and short", "Station,Hull (in),Full (in)\n1 ft,35,5\n2 ft,40,55\n", 0, 0},
		{"a heading's comma, and split", "Girth of hull, open\nStation,Hull, open (in),Full (in)\n1 ft,35,5,42\n2 ft,40,5,55\n", 0, 42},
		{"commas of headings", "My boat, no. 7,,\nStation,Girth of hull, open (in),Girth, closed (in)\n1 ft,35.5,42\n2 ft,40,55\n", 35.5, 42},
		{"a column of something else", "Station,Hull (in),Full (in),Depth\n1 ft,35.5,42,13\n2 ft,40,55,14\n", 35.5, 42},
		{"split before a column of something else", "Station,Hull (in),Full (in),Depth\n1 ft,35,42,5\n2 ft,40,55,14\n", 0, 0},
		{"split beside another table", "Station,Hull (in),Full (in),,Station,Hull (in),Full (in)\n1 ft,35,5,42,,9 ft,40,55\n", 0, 0},
		{"split beside a table that has ended", "Station,Hull (in),Full (in),Station,Hull (in),Full (in)\n1 ft,35,42,5,,\n", 0, 0},
		{"beside another table", "Station,Hull (in),Full (in),,Station,Hull (in),Full (in)\n1 ft,35.5,42,,9 ft,40,55\n", 35.5, 42},
		{"quoted", "Station,Hull (in),Full (in)\n1 ft,\"35,5\",42\n", 35.5, 42},
		{"inch marks", "Station,Hull,Full\n1 ft,35 1/2\",42\"\n2 ft,40\",55\"\n", 35.5, 42},
		{"inch marks in quotes", "Station,Hull,Full\n1 ft,\"35 1/2\"\"\",\"42\"\"\"\n", 35.5, 42},
		{"open quote", "Station,Hull (in),Full (in)\n1 ft,35.5,42\n2 ft,\",55\n3 ft,44,\"\n", 35.5, 42},
		{"semicolons", "Station;Hull (in);Full (in)\n1 ft;35,5;42\n", 35.5, 42},
		{"tabs", "Station\tHull (in)\tFull (in)\n1 ft\t35,5\t42\n", 35.5, 42},
		{"guarded from a spreadsheet", "Station,Hull (in),Full (in)\n1 ft,\"=\"\"35 1/2\"\"\",\"=\"\"42\"\"\"\"\"\"\"\n2 ft,40,55\n", 35.5, 42},
		{"a formula", "Station,Hull (in),Full (in)\n1 ft,=35+0.5,42\n2 ft,40,55\n", 0, 42},
		{"remarks", "# by hand\nStation,Hull (in),Full (in)\n1 ft,35.5,42   # over the keel band\n2 ft,40,55\n", 35.5, 42},
		{"a remark that is no remark", "# by hand\nStation,Hull (in),Full (in)\n1 ft,35.5,42   # not sure\n2 ft,40,55\n", 35.5, 0},
		{"bars", "Station|Hull (in)|Full (in)\n1 ft|35.5|42\n", 35.5, 42},
		{"byte order mark", "\ufeffStation,Hull (in),Full (in)\r\n1 ft,35.5,42\r\n", 35.5, 42},
		{"counted names", "Station,Hull (in),Full (in)\n#1,35.5,42\n# a remark, 7\n#2,40,55\n", 35.5, 42},
	}
	for _, tt := range tests {
		doc, err := CSV("x.csv", []byte(tt.text), nil)
		must(t, err)
		if len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) == 0 {
			t.Errorf("%s: no survey", tt.name)
			continue
		}
		p := doc.Surveys[0].Stations[0].Pair
		if p.HullGirth.Known != (tt.hull != 0) || p.FullGirth.Known != (tt.full != 0) ||
			tt.hull != 0 && (p.HullGirth.Value != parse.Inches(tt.hull) || p.FullGirth.Value != parse.Inches(tt.full)) {
			t.Errorf("%s: read %v and %v, want %v and %v", tt.name, p.HullGirth, p.FullGirth, tt.hull, tt.full)
		}
	}
}

func BenchmarkCSV(b *testing.B) {
	data, err := os.ReadFile(samples + "/contract.csv")
	must(b, err)
	for b.Loop() {
		_, err := CSV("x.csv", data, nil)
		must(b, err)
	}
}

func BenchmarkXLSX(b *testing.B) {
	data, err := os.ReadFile(samples + "/form-with-hints.xlsx")
	must(b, err)
	for b.Loop() {
		_, err := XLSX("x.xlsx", data, nil)
		must(b, err)
	}
}
