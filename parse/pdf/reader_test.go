package pdf

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/parse"
)

// cache is where the compiled reader stays between the tests of one run.
func reader(t testing.TB) Reader {
	t.Helper()
	dir := filepath.Join(os.TempDir(), "fairtape-test-cache")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	return Reader{Cache: dir}
}

func read(t testing.TB, data []byte) parse.Document {
	t.Helper()
	r := reader(t)
	doc, err := r.Read(t.Context(), "x.pdf", data)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func hull(t *testing.T, doc parse.Document, at float64) parse.Reading {
	t.Helper()
	if len(doc.Surveys) != 1 {
		t.Fatalf("%d surveys, want 1; problems %v", len(doc.Surveys), doc.Problems)
	}
	for _, s := range doc.Surveys[0].Stations {
		if s.At.In(parse.Inch) == at {
			return s.HullGirth
		}
	}
	return parse.Reading{}
}

func has(doc parse.Document, code parse.Code) bool {
	for _, p := range doc.Problems {
		if p.Code == code {
			return true
		}
	}
	return false
}

// TestNoReading holds that text which is not seen is never read, however both
// readers agree on it.
func TestNoReading(t *testing.T) {
	cover := "1 g 155 666 80 14 re f\n" // over the hull girth at 2 ft
	picture := "q 80 0 0 14 155 666 cm BI /W 1 /H 1 /CS /G /BPC 8 ID \xf0 EI Q\n"
	tests := []struct {
		name   string
		change func(m *made)
	}{
		{"white on white", func(m *made) { m.restyle("38", "1 g") }},
		{"nearly white", func(m *made) { m.restyle("38", "0.95 g") }},
		{"drawn with nothing", func(m *made) { m.restyle("38", "3 Tr") }},
		{"used to clip", func(m *made) { m.restyle("38", "7 Tr") }},
		{"under a rectangle", func(m *made) { m.content += cover }},
		{"under a picture", func(m *made) { m.content += picture }},
		{"clipped away", func(m *made) {
			m.content = strings.Replace(m.content, "BT /F1 11 Tf 160 668 Td (38) Tj ET", "q 0 0 1 1 re W n BT /F1 11 Tf 160 668 Td (38) Tj ET Q", 1)
		}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			m := typed()
			test.change(m)
			doc := read(t, m.bytes())
			if got := hull(t, doc, 24); got.Certain() {
				t.Errorf("a number that is not seen was read: %v", got)
			}
			if !has(doc, CodeNotShown) {
				t.Errorf("no problem says so: %v", doc.Problems)
			}
			if got := hull(t, doc, 12); got.Value.In(parse.Inch) != 35.5 || !got.Certain() {
				t.Errorf("the number beside it is %v", got)
			}
		})
	}
}

func (m *made) restyle(text, style string) {
	at := strings.Index(m.content, fmt.Sprintf("Td (%s) Tj ET", text))
	begin := strings.LastIndex(m.content[:at], "BT ")
	end := at + strings.Index(m.content[at:], "ET")
	m.content = m.content[:begin] + "BT " + style + m.content[begin+2:end] + "0 Tr ET 0 g" + m.content[end+2:]
}

func TestTyped(t *testing.T) {
	for _, rotate := range []int{0, 90, 180, 270} {
		doc := read(t, typed().turned(rotate).bytes())
		for at, want := range map[float64]float64{12: 35.5, 24: 38, 36: 41.5, 48: 44} {
			if got := hull(t, doc, at); got.Value.In(parse.Inch) != want || !got.Certain() {
				t.Errorf("turned by %d: hull girth at %v is %v, want %v for sure", rotate, at, got, want)
			}
		}
		if got := doc.Surveys[0].LengthOverall.Value.In(parse.Inch); got != 189 {
			t.Errorf("length overall is %v, want 189", got)
		}
	}
}

// TestReadersDiffer has a font whose table says other figures than the first
// reader takes: the two do not agree, and no number is sure.
func TestReadersDiffer(t *testing.T) {
	m := typed()
	data := bytes.Replace(m.bytes(), []byte("/Kids [3 0 R]"), []byte("/Kids [9 0 R]"), 1)
	doc := read(t, data)
	for _, s := range doc.Surveys {
		for _, st := range s.Stations {
			if st.HullGirth.Certain() {
				t.Errorf("%v is sure though a page is missing", st.HullGirth)
			}
		}
	}
}

func ownForm() *made {
	m := &made{}
	m.text(60, 740, "Measured in inches")
	for i := range 4 {
		m.text(60, 664-24*i, fmt.Sprintf("%d ft", i+1))
	}
	m.fields = []madeField{
		{name: "length_overall.feet", value: "15", shown: "15", x: 200, y: 736},
		{name: "length_overall.inches", value: "9", shown: "9", x: 280, y: 736},
		{name: "bow_height.whole", value: "18", shown: "18", x: 200, y: 712},
		{name: "bow_height.half", value: "Yes", x: 280, y: 712, tick: true},
		{name: "stern_height.whole", value: "17", shown: "17", x: 200, y: 690},
		{name: "stern_height.half", x: 280, y: 690, tick: true},
		{name: "stations[0].hull_girth", value: "35 1/2", shown: "35 1/2", x: 160, y: 660},
		{name: "stations[0].full_girth", value: "42", shown: "42", x: 260, y: 660},
		{name: "stations[1].hull_girth", value: "38", shown: "38", x: 160, y: 636},
		{name: "stations[1].full_girth", value: "52", shown: "52", x: 260, y: 636},
		{name: "stations[2].hull_girth", value: "41/2", shown: "41/2", x: 160, y: 612},
		{name: "stations[2].full_girth", value: "60", shown: "60", x: 260, y: 612},
		{name: "stations[3].hull_girth", value: "44", shown: "44", x: 160, y: 588},
		{name: "stations[3].hull_girth.half", value: "Yes", x: 236, y: 590, tick: true},
	}
	return m
}

func TestOwnForm(t *testing.T) {
	doc := read(t, ownForm().bytes())
	if len(doc.Surveys) != 1 {
		t.Fatalf("%d surveys; problems %v", len(doc.Surveys), doc.Problems)
	}
	s := doc.Surveys[0]
	for name, row := range map[string]struct {
		got  parse.Reading
		want float64
	}{
		"length overall": {s.LengthOverall, 189},
		"bow height":     {s.BowHeight, 18.5},
		"stern height":   {s.SternHeight, 17},
		"hull at 1 ft":   {hull(t, doc, 12), 35.5},
		"hull at 2 ft":   {hull(t, doc, 24), 38},
		"hull at 4 ft":   {hull(t, doc, 48), 44.5},
	} {
		if row.got.Value.In(parse.Inch) != row.want || !row.got.Certain() {
			t.Errorf("%s is %+v, want %v for sure", name, row.got, row.want)
		}
	}
	if got := hull(t, doc, 36); got.Certain() {
		t.Errorf("41/2 was read as %v", got)
	}
	if !has(doc, parse.CodeFraction) {
		t.Errorf("no problem says that 41/2 is unclear: %v", doc.Problems)
	}
}

// TestFieldShown holds that what a field holds counts only when it is what is
// seen.
func TestFieldShown(t *testing.T) {
	tests := []struct {
		name   string
		shown  string
		extra  string
		sure   bool
		absent bool
	}{
		{"another number", "48", "", false, false},
		{"nothing", "", "", false, true},
		{"no appearance, which a viewer makes", "-", "/NeedAppearances true", true, false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			m := ownForm()
			m.acro = test.extra
			for i := range m.fields {
				if m.fields[i].name == "stations[1].hull_girth" {
					m.fields[i].shown = test.shown
				}
			}
			doc := read(t, m.bytes())
			got := hull(t, doc, 24)
			if got.Certain() != test.sure || got.Absent() != test.absent {
				t.Errorf("the reading is %+v; problems %v", got, doc.Problems)
			}
		})
	}
}

func TestWholeFile(t *testing.T) {
	sound := typed().bytes()
	scan := &made{content: "q 612 0 0 792 0 0 cm BI /W 2 /H 2 /CS /G /BPC 8 ID \x00\xff\xff\x00 EI Q\n"}
	ocr := &made{content: scan.content + strings.ReplaceAll(typed().content, "/F1 11 Tf", "3 Tr /F1 11 Tf")}
	tests := []struct {
		name string
		data []byte
		code parse.Code
	}{
		{"empty", nil, CodeBroken},
		{"one byte", []byte("%"), CodeBroken},
		{"cut in half", sound[:len(sound)/3], CodeBroken},
		{"a scan", scan.bytes(), CodeNoText},
		{"a scan with hidden text over it", ocr.bytes(), CodeNotShown},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			doc := read(t, test.data)
			if !has(doc, test.code) {
				t.Errorf("problems are %v, want %s", doc.Problems, test.code)
			}
			for _, s := range doc.Surveys {
				s.Each(func(r *parse.Reading) {
					if r.Certain() {
						t.Errorf("%v was read", *r)
					}
				})
			}
		})
	}
}

// A wide field over a table joins none of the table's columns, and a line with
// more numbers than columns loses none.
func TestColumnsUnderWideField(t *testing.T) {
	m := &made{}
	m.text(20, 744, "Length overall")
	m.fields = append(m.fields, madeField{name: "loa", value: "15 ft 9 in", shown: "15 ft 9 in", x: 100, y: 740})
	for r, row := range [][]string{
		{"Station (ft)", "1", "2", "3", "4", "5", "6", "7", "8"},
		{"Hull girth (in)", "35", "38", "41", "44", "45", "44", "42", "38"},
		{"Full girth (in)", "42", "52", "60", "66", "68", "66", "61", "50"},
	} {
		m.text(20, 700-16*r, row[0])
		for c, s := range row[1:] {
			m.text(100+30*c, 700-16*r, s)
		}
	}
	doc := read(t, m.bytes())
	for i, want := range []float64{35, 38, 41, 44, 45, 44, 42, 38} {
		if got := hull(t, doc, float64(12*(i+1))); !got.Certain() || got.Value.In(parse.Inch) != want {
			t.Errorf("hull girth at %d ft: got %v, want %v", i+1, got, want)
		}
	}
	if got := doc.Surveys[0].LengthOverall; !got.Known || got.Value.In(parse.Inch) != 189 {
		t.Errorf("length overall: got %v, want 189 in", got)
	}
}

func TestColumnsApart(t *testing.T) {
	line := func(text string, spans ...float64) []cell {
		var cells []cell
		for i := 0; i < len(spans); i += 2 {
			cells = append(cells, cell{text: text, box: box{x0: spans[i], x1: spans[i+1], y1: 10}})
		}
		return cells
	}
	for _, test := range []struct {
		name  string
		lines [][]cell
		want  int
	}{
		{"a table alone", [][]cell{line("44", 10, 20, 50, 60), line("45", 10, 20, 50, 60)}, 2},
		{"ragged numbers of one column", [][]cell{line("44", 10, 20, 50, 60), line("45 1/2", 15, 40, 50, 60), line("1", 30, 34, 50, 60)}, 2},
		{"a wide number over two columns", [][]cell{line("14 ft 2 in", 10, 60, 90, 99), line("44", 10, 20, 50, 60, 90, 99), line("45", 10, 20, 50, 60, 90, 99)}, 3},
	} {
		if got := columnsOf(test.lines); len(got) != test.want {
			t.Errorf("%s: columns %v, want %d", test.name, got, test.want)
		}
	}
}

// TestFarMoreFigures holds that a page with more figures than any survey is told
// and not read.
func TestFarMoreFigures(t *testing.T) {
	m := typed()
	for i := range 30 {
		m.text(40, 600-16*i, strings.Repeat("31 45 ", 20))
	}
	doc := read(t, m.bytes())
	if len(doc.Surveys) != 0 || !has(doc, CodePages) {
		t.Errorf("%d surveys, problems %v", len(doc.Surveys), doc.Problems)
	}
}
