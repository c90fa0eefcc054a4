package sheet

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/ledongthuc/pdf"
	"github.com/xuri/excelize/v2"

	"fairtape/parse"
	"fairtape/reply/cover"
	"fairtape/validate"
	"fairtape/validate/known"
)

// nasty is a name that means something to a spreadsheet, to XML and to DXF.
const nasty = "=1+1 <b>&\"Élodie\"%%u\x1b[31m\r\n  0\r\nEOF"

// sample is the cut sheet of an ordinary boat; a draft has a slip in it.
func sample(t testing.TB, construction cover.Construction, unit parse.Unit, draft bool) *cover.CutSheet {
	t.Helper()
	s := known.Simulate(rand.New(rand.NewPCG(2, 7)), known.Ordinary).Exact(unit)
	s.Customer, s.Boat = nasty, nasty
	if draft {
		s.Stations[6].HullGirth.Value += parse.Inches(4)
	}
	report := validate.Check(s, nil, validate.Costs{Ask: 1, Miss: 30})
	made, err := cover.Make(report, cover.Order{
		Shop: nasty, Job: "14", Sheet: 2, Replaces: 1, Date: time.Date(2026, time.April, 2, 9, 0, 0, 0, time.UTC), Draft: draft,
		Cloth: cover.Cloth{
			Name: "=cmd()", Colour: "green", Construction: construction,
			RollWidth: parse.Inches(60), UsableWidth: parse.Inches(59),
			GirthReduction: 0.02, LengthReduction: 0.01, StretchAcross: 0.06,
			SeamAllowance: parse.Inches(0.5), Hem: parse.Inches(1), Slit: parse.Inches(9),
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	return &made
}

func everySample(t *testing.T, check func(t *testing.T, s *cover.CutSheet)) {
	for _, construction := range []cover.Construction{cover.Sides, cover.HullAndTop, cover.TopAndSkirt} {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			t.Run(string(construction)+" "+string(unit), func(t *testing.T) { check(t, sample(t, construction, unit, false)) })
		}
	}
}

func TestFilesAreTheSameTwice(t *testing.T) {
	for _, draft := range []bool{false, true} {
		s := sample(t, cover.HullAndTop, parse.Inch, draft)
		first, err := Files(s, Options{Paper: A4, Tiled: true, Returned: true})
		if err != nil {
			t.Fatal(err)
		}
		second, err := Files(s, Options{Paper: A4, Tiled: true, Returned: true})
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range first {
			if len(f.Data) == 0 || !bytes.Equal(f.Data, second[i].Data) {
				t.Errorf("%s differs the second time", f.Name)
			}
		}
	}
}

// pages returns the text of each page, without spaces: the reader sets none
// between words that were placed by themselves.
func pages(t *testing.T, data []byte) []string {
	t.Helper()
	r, err := pdf.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for i := range r.NumPage() {
		text, err := r.Page(i + 1).GetPlainText(nil)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, strings.Join(strings.Fields(text), ""))
	}
	return all
}

func TestPDF(t *testing.T) {
	everySample(t, func(t *testing.T, s *cover.CutSheet) {
		data, err := PDF(s, Letter)
		if err != nil {
			t.Fatal(err)
		}
		all := pages(t, data)
		for i, text := range all {
			for _, want := range []string{"Job14,sheet2", "Sheet1isvoid:destroyit", "measuremebeforecutting"} {
				if !strings.Contains(text, want) {
					t.Errorf("page %d does not say %q", i+1, want)
				}
			}
			if strings.Contains(text, "DRAFT") {
				t.Errorf("page %d of a settled sheet says DRAFT", i+1)
			}
		}
		whole := strings.Join(all, "\n")
		for _, want := range append(cover.Cautions(), "2 % SMALLER than measured", "Diagonal:", "FROM TRACING", "end from tracing", "running length", "A sketch:", "Sewn back") {
			if !strings.Contains(whole, strings.ReplaceAll(want, " ", "")) {
				t.Errorf("the sheet does not say %q", want)
			}
		}
	})
}

func TestDraft(t *testing.T) {
	s := sample(t, cover.Sides, parse.Inch, true)
	files, err := Files(s, Options{Paper: Letter, Tiled: true, Returned: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		switch {
		case strings.HasSuffix(f.Name, ".pdf"):
			for i, text := range pages(t, f.Data) {
				if !strings.Contains(text, "DRAFT") {
					t.Errorf("page %d of %s does not say DRAFT", i+1, f.Name)
				}
			}
		case strings.HasSuffix(f.Name, ".xlsx"):
			if got := open(t, f.Data)("Cut sheet", "A2"); !strings.HasPrefix(got, "DRAFT") {
				t.Errorf("%s says %q", f.Name, got)
			}
		default:
			if !bytes.Contains(f.Data, []byte("DRAFT")) {
				t.Errorf("%s does not say DRAFT", f.Name)
			}
		}
	}
}

func TestTiled(t *testing.T) {
	s := sample(t, cover.Sides, parse.Inch, false)
	data, err := Tiled(s, Letter)
	if err != nil {
		t.Fatal(err)
	}
	all := pages(t, data)
	if len(all) < 20 {
		t.Errorf("a side of 16 ft is drawn on %d pages", len(all))
	}
	for i, text := range all {
		if !strings.Contains(text, "4in:measuremebeforecutting") {
			t.Errorf("page %d has no scale bar", i+1)
		}
	}
}

// The page for a returned cover has a row for every station of the panels.
func TestReturned(t *testing.T) {
	everySample(t, func(t *testing.T, s *cover.CutSheet) {
		data, err := Returned(s, A4)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(pages(t, data), "")
		for _, r := range s.Rows[1 : len(s.Rows)-1] {
			if !strings.Contains(text, strings.ReplaceAll(s.Station(r.At), " ", "")) {
				t.Errorf("there is no blank for %s", s.Station(r.At))
			}
		}
		for _, want := range []string{"assewn", "coverlaidflat", "boatmeasuredagain", "measuremebeforecutting"} {
			if !strings.Contains(text, want) {
				t.Errorf("the page does not say %q", want)
			}
		}
	})
}

func open(t *testing.T, data []byte) func(sheet, cell string) string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() }) //nolint:errcheck // nothing is open but memory
	return func(sheet, cell string) string {
		value, err := f.GetCellValue(sheet, cell)
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

// Formulas give what the cells hold already, and follow a changed allowance;
// nothing from outside is a formula.
func TestXLSX(t *testing.T) {
	everySample(t, func(t *testing.T, s *cover.CutSheet) {
		data, err := XLSX(s)
		if err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close() //nolint:errcheck // nothing is open but memory
		number := func(text string) float64 {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatalf("%q is no number", text)
			}
			return v
		}
		formulas := 0
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet)
			if err != nil {
				t.Fatal(err)
			}
			for r, row := range rows {
				for c := range row {
					at := cell(c+1, r+1)
					formula, err := f.GetCellFormula(sheet, at)
					if err != nil {
						t.Fatal(err)
					}
					if formula == "" {
						continue
					}
					formulas++
					if !strings.Contains(formula, "'Cut sheet'!$B$") {
						t.Errorf("%s %s: the formula %q is none of ours", sheet, at, formula)
					}
					held, err := f.GetCellValue(sheet, at, excelize.Options{RawCellValue: true})
					if err != nil {
						t.Fatal(err)
					}
					now, err := f.CalcCellValue(sheet, at, excelize.Options{RawCellValue: true})
					if err != nil {
						t.Fatal(err)
					}
					if number(held) != number(now) {
						t.Errorf("%s %s holds %s, its formula gives %s", sheet, at, held, now)
					}
				}
			}
		}
		if formulas < 2*len(s.Rows) {
			t.Errorf("there are %d formulas", formulas)
		}
	})
}

// DXF is read back by a reader of pairs that knows nothing of the writer.
func TestDXF(t *testing.T) {
	everySample(t, func(t *testing.T, s *cover.CutSheet) {
		data, err := DXF(s)
		if err != nil {
			t.Fatal(err)
		}
		entities, texts := readDXF(t, data)
		drawn(t, s, entities, texts)
	})
}

// entity is a line of a drawing on its layer.
type entity struct {
	layer  string
	points []Point
}

func readDXF(t *testing.T, data []byte) (all []entity, texts []string) {
	t.Helper()
	for i, b := range data {
		if b > 0x7E {
			t.Fatalf("byte %d is %#x: release 12 is ASCII", i, b)
		}
	}
	lines := strings.Split(strings.TrimSuffix(string(data), "\r\n"), "\r\n")
	if len(lines)%2 != 0 {
		t.Fatal("a group code has no value")
	}
	kind, inEntities, ended := "", false, false
	var e entity
	var x float64
	flush := func() {
		if len(e.points) > 0 && kind != "TEXT" && kind != "VERTEX" {
			all = append(all, e)
		}
	}
	for i := 0; i < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil {
			t.Fatalf("line %d is no group code: %q", i+1, lines[i])
		}
		value := lines[i+1]
		if code == 2 && value == "ENTITIES" {
			inEntities = true
		}
		if ended {
			t.Fatal("there is more after EOF")
		}
		switch {
		case code == 0 && value == "EOF":
			ended = true
		case !inEntities:
		case code == 0 && value == "VERTEX":
			kind = "VERTEX"
		case code == 0 && value == "SEQEND":
			kind = "SEQEND"
			flush()
			e = entity{}
		case code == 0:
			if kind == "LINE" {
				flush()
			}
			kind, e = value, entity{}
		case code == 8:
			e.layer = value
		case code == 10 || code == 11:
			if x, err = strconv.ParseFloat(value, 64); err != nil {
				t.Fatal(err)
			}
		case (code == 20 || code == 21) && kind != "POLYLINE":
			y, err := strconv.ParseFloat(value, 64)
			if err != nil {
				t.Fatal(err)
			}
			e.points = append(e.points, Point{X: x, Y: y})
		case code == 1:
			texts = append(texts, value)
		}
	}
	if !ended {
		t.Fatal("there is no EOF")
	}
	return all, texts
}

// drawn checks what was read back: a check line as long as it says, and each
// panel's cutting line as large as the panel.
func drawn(t *testing.T, s *cover.CutSheet, all []entity, texts []string) {
	t.Helper()
	want, words := checkLength(s)
	longest := 0.0
	var cuts []entity
	for _, e := range all {
		least, most := bounds(e.points)
		switch e.layer {
		case layerCheck:
			longest = math.Max(longest, most.X-least.X)
		case layerCut:
			cuts = append(cuts, e)
		}
	}
	if math.Abs(longest-want) > 0.01 {
		t.Errorf("the check line is %.3f mm, want %.3f", longest, want)
	}
	if len(cuts) != len(s.Panels) {
		t.Fatalf("%d outlines are drawn of %d panels", len(cuts), len(s.Panels))
	}
	for i, p := range s.Panels {
		least, most := bounds(cuts[i].points)
		long, wide := p.Size()
		if math.Abs(most.X-least.X-long*mmPerInch) > 0.05 || math.Abs(most.Y-least.Y-wide*mmPerInch) > 0.05 {
			t.Errorf("%s is drawn %.2f by %.2f mm, want %.2f by %.2f", p.Name, most.X-least.X, most.Y-least.Y, long*mmPerInch, wide*mmPerInch)
		}
	}
	all1 := strings.Join(texts, "\n")
	for _, want := range []string{words + ": " + CheckLine, "Unit: millimetre, scale 1:1", "Sheet 1 is void: destroy it", "end from tracing"} {
		if !strings.Contains(all1, want) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
}

func TestSVG(t *testing.T) {
	everySample(t, func(t *testing.T, s *cover.CutSheet) {
		data, err := SVG(s)
		if err != nil {
			t.Fatal(err)
		}
		var all []entity
		var texts []string
		layer, inText := "", false
		for d := xml.NewDecoder(bytes.NewReader(data)); ; {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			switch e := token.(type) {
			case xml.StartElement:
				inText = e.Name.Local == "text"
				attributes := map[string]string{}
				for _, a := range e.Attr {
					attributes[a.Name.Local] = a.Value
				}
				switch e.Name.Local {
				case "svg":
					if box := strings.Fields(attributes["viewBox"]); attributes["width"] != box[2]+"mm" || attributes["height"] != box[3]+"mm" {
						t.Errorf("%v: a unit of the drawing is no millimetre", attributes)
					}
				case "g":
					layer = attributes["id"]
				case "polyline", "polygon":
					all = append(all, entity{layer, points(t, attributes["points"])})
				case "text", "title", "desc":
				default:
					t.Errorf("there is a %s in the drawing", e.Name.Local)
				}
			case xml.CharData:
				if inText {
					texts = append(texts, string(e))
				}
			}
		}
		drawn(t, s, all, texts)
	})
}

func points(t *testing.T, text string) []Point {
	t.Helper()
	var all []Point
	for _, pair := range strings.Fields(text) {
		xs, ys, _ := strings.Cut(pair, ",")
		x, errX := strconv.ParseFloat(xs, 64)
		y, errY := strconv.ParseFloat(ys, 64)
		if errX != nil || errY != nil {
			t.Fatalf("%q is no point", pair)
		}
		all = append(all, Point{X: x, Y: y})
	}
	return all
}

func TestClean(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"", ""},
		{"  a \t b\r\nc ", "a b c"},
		{"a\x00\x1b[31mb", "a[31mb"},
		{"left\u202eright", "leftright"},
		{"\xff", "?"},
		{"🛶 canoe", " canoe"},
		{strings.Repeat("x", 200), strings.Repeat("x", longestText-1) + "…"},
	} {
		if got := clean(tt.text); got != tt.want {
			t.Errorf("clean(%q) = %q, want %q", tt.text, got, tt.want)
		}
	}
}

func BenchmarkFiles(b *testing.B) {
	s := sample(b, cover.Sides, parse.Inch, false)
	for b.Loop() {
		if _, err := Files(s, Options{Paper: Letter}); err != nil {
			b.Fatal(err)
		}
	}
}
