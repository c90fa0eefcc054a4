package photo

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/parse/photo/phototest"
	"fairtape/validate/known"
)

// Tables on paper of somebody's own, printed and written in strokes of our own:
// most numbers are read, and none of them wrong.
func TestFreeTables(t *testing.T) {
	if testing.Short() {
		t.Skip("photographs two pages")
	}
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	for name, written := range map[string]bool{"printed": false, "written": true} {
		t.Run(name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(7, 4))
			boat := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
			var hand *phototest.Hand
			if written {
				hand = phototest.NewHand(nil, rng)
			}
			sheet, truth, err := phototest.Free(boat.Survey, hand, rng)
			if err != nil {
				t.Fatal(err)
			}
			camera := phototest.NewCamera(phototest.Flat, rng)
			camera.Width, camera.Height, camera.Turn = 1932, 2576, 178
			doc := reader.Read("table.jpg", NewPicture(sheet.Photograph(camera, rng).Picture))
			if len(doc.Surveys) != 1 {
				t.Fatalf("%d surveys: %v", len(doc.Surveys), doc.Problems)
			}
			right := 0
			for _, w := range truth {
				for _, st := range doc.Surveys[0].Stations {
					got := st.HullGirth
					if w.Cell.Measure == parse.FullGirth {
						got = st.FullGirth
					}
					if math.Abs(float64(st.At-w.Cell.At)) > 1 || !got.Certain() {
						continue
					}
					if math.Abs(float64(got.Value-w.Length)) > 0.01 {
						t.Errorf("%v at %v: %v, want %v", w.Cell.Measure, w.Cell.At.In(parse.Inch), got.Value.In(parse.Inch), w.Length.In(parse.Inch))
						continue
					}
					right++
				}
			}
			if 10*right < 7*len(truth) {
				t.Errorf("%d of %d numbers are read", right, len(truth))
			}
		})
	}
}

// signs are glyphs of a text that begins at x, on a line; a digit is 20 pixels
// high and 12 wide, "~" is a sign that is none.
func signs(text string, x, line float64) []freeGlyph {
	var out []freeGlyph
	for _, c := range text {
		g := freeGlyph{sure: 0.999}
		g.bounds = box{x, 40 * line, x + 12, 40*line + 20}
		switch {
		case c >= '0' && c <= '9':
			g.kind, g.digit = glyphDigit, int(c-'0')
		case c == '/':
			g.kind, g.digit = glyphSlash, 1
		case c == '.':
			g.kind = glyphPoint
			g.bounds = box{x, 40*line + 17, x + 3, 40*line + 20}
			x -= 9
		case c == '~':
			g.kind = glyphOther
		case c == ' ':
			x += 8
			continue
		}
		out = append(out, g)
		x += 15
	}
	return out
}

// asRead takes signs as they are.
type asRead struct{}

func (asRead) sign(g freeGlyph) freeGlyph                  { return g }
func (asRead) number(_ []freeGlyph, was freeCell) freeCell { return was }

func TestCellOf(t *testing.T) {
	for text, want := range map[string]string{
		"41": "41", "41.5": "41.5", "41 1/2": "41 1/2", "41 112": "41 1/2", "41 1~2": "41 1/2", "112": "112", "112 1/2": "112 1/2",
		"40 3/8": "40 3/8", "39 1/4": "39 1/4", "4014": "4014", "40 4/8": "40418",
	} {
		c := cellOf(signs(text, 0, 0))
		if c.text != want || c.sure < parse.Sure {
			t.Errorf("%q reads %q (%.2f), want %q", text, c.text, c.sure, want)
		}
	}
	if c := cellOf(signs("4~1", 0, 0)); c.sure >= parse.Sure {
		t.Errorf("a sign that is none is passed over: %q", c.text)
	}
}

// A mark of feet within a number is no speck.
func TestMarkedCell(t *testing.T) {
	mark := freeGlyph{shape: shape{bounds: box{16, 0, 19, 7}, pixels: make([]int, 20)}, kind: glyphOther}
	after := freeGlyph{shape: shape{bounds: box{40, 0, 43, 7}, pixels: make([]int, 20)}, kind: glyphOther}
	for name, c := range map[string]struct {
		mark freeGlyph
		want bool
	}{"3'5": {mark, true}, "35\"": {after, false}} {
		row := append(signs("35", 0, 0), c.mark)
		if got := cellOf(signs("35", 0, 0)).marked(row, 20); got != c.want {
			t.Errorf("%s: marked is %v", name, got)
		}
	}
}

// A table's lines are those at stations that rise by even steps: neither its
// heading nor what stands below it, and lines between whose number is misread.
func TestTableFrom(t *testing.T) {
	lines := [][]freeGlyph{signs("~~~~", 10, 0), signs("51171~", 80, 1)}
	for i, texts := range [][2]string{{"1", "40 1/2"}, {"2", "43"}, {"9", "45.5"}, {"4", "47"}, {"5", "455"}, {"6", "45"}, {"7", "44 1/2"}} {
		line := append(signs(texts[0], 10, float64(2+i)), signs(texts[1], 80, float64(2+i))...)
		lines = append(lines, append(line, signs("52", 200, float64(2+i))...))
	}
	lines = append(lines, signs("7 12", 80, 10))
	table, ok := tableFrom(lines, 20, asRead{})
	if !ok || table.stations != 0 {
		t.Fatalf("no table with stations: %+v", table)
	}
	var got []string
	for _, row := range table.cells {
		got = append(got, row[0].text+": "+row[1].text)
	}
	want := []string{"1: 40 1/2", "2: 43", "3: 45.5", "4: 47", "5: 45.5", "6: 45", "7: 44 1/2"}
	if !slices.Equal(got, want) {
		t.Errorf("read %q, want %q", got, want)
	}
	if tableless, ok := tableFrom(lines[:4], 20, asRead{}); ok {
		t.Errorf("two rows are a table: %+v", tableless)
	}
}

// Lines that run across the rows put numbers beside stations of other rows: the
// digits of each number do not stand level in them.
func TestTiltedLines(t *testing.T) {
	for _, tilt := range []float64{0, 0.2} {
		var lines [][]freeGlyph
		for i := range 6 {
			line := append(signs(string(rune('1'+i)), 10, float64(i)), signs("4"+string(rune('0'+i)), 80, float64(i))...)
			line = append(line, signs("6"+string(rune('0'+i)), 200, float64(i))...)
			for k := range line {
				drop := tilt * (line[k].bounds.x0 - 10)
				for line[k].bounds.x0 > 70 && drop > 20 {
					drop -= 20 // that of the row above
				}
				line[k].bounds.y0, line[k].bounds.y1 = line[k].bounds.y0+drop, line[k].bounds.y1+drop
			}
			lines = append(lines, line)
		}
		if _, ok := tableFrom(lines, 20, asRead{}); ok != (tilt == 0) {
			t.Errorf("tilt %v: a table is read: %v", tilt, ok)
		}
	}
}

// A half that stands off from its number belongs to it.
func TestHalvesApart(t *testing.T) {
	var lines [][]freeGlyph
	for i, texts := range [][2]string{{"40", "1/2"}, {"43", ""}, {"45", "1/2"}, {"47", "1/2"}, {"46", ""}} {
		line := append(signs(string(rune('1'+i)), 10, float64(i)), signs(texts[0], 80, float64(i))...)
		line = append(line, signs(texts[1], 130, float64(i))...)
		lines = append(lines, append(line, signs("60", 240, float64(i))...))
	}
	table, ok := tableFrom(lines, 20, asRead{})
	if !ok || len(table.cells[0]) != 3 || table.cells[0][1].text != "40 1/2" || table.cells[1][1].text != "43" {
		t.Errorf("read %+v", table.cells)
	}
}

// Points too faint to be seen are put in where other numbers leave no choice.
func TestPutPoints(t *testing.T) {
	column := func(texts ...string) [][]freeCell {
		var out [][]freeCell
		for _, text := range texts {
			out = append(out, []freeCell{{text: "1"}, {text: text, sure: 0.99}})
		}
		return out
	}
	for _, c := range []struct {
		cells [][]freeCell
		want  string // "?" marks what is doubtful
	}{
		{column("495", "49", "505", "525", "55"), "49.5 49 50.5 52.5 55"},
		{column("49.5", "49", "50.5", "525", "55"), "49.5 49 50.5 52.5? 55"},
		{column("104", "105", "106", "105"), "104 105 106 105"},
		{column("495", "505", "525"), "495? 505? 525?"},
	} {
		putPoints(c.cells, 0)
		var got []string
		for _, row := range c.cells {
			text := row[1].text
			if row[1].sure < parse.Sure {
				text += "?"
			}
			got = append(got, text)
		}
		if got := strings.Join(got, " "); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

// A doubtful cell says what its signs may be, not what its text alone would.
func TestFill(t *testing.T) {
	alone := parse.Measured(142, parse.Centimetre)
	r := parse.Reading{Alternatives: []parse.Candidate{{Value: alone, Probability: 1}}}
	c := freeCell{text: "142", sure: 0.8, others: []reading{{"147", 0.1}}}
	c.fill(&r, parse.Centimetre)
	want := []parse.Candidate{{Value: parse.Measured(147, parse.Centimetre), Probability: 0.1}}
	if r.Value != alone || r.Confidence != 0.8 || !slices.Equal(r.Alternatives, want) {
		t.Errorf("%+v", r)
	}
}

// A page that is turned and seen from the side is laid straight again: points of
// level rows and upright columns, put where a lie shows them, give that lie.
func TestStraightLie(t *testing.T) {
	const w, h = 600, 800
	want := lie{w: w, h: h, rise: 0.05, fan: 0.02, lean: -0.03, part: 0.03}
	ink := make([]bool, w*h)
	for row := 100; row < 700; row += 50 {
		for column := 100; column < 500; column += 60 {
			for d := range 20 {
				for _, p := range []point{{float64(column + d), float64(row)}, {float64(column), float64(row + d)}} {
					q := want.point(p)
					ink[int(q.y)*w+int(q.x)] = true
				}
			}
		}
	}
	got := straightLie(w, h, ink)
	for _, p := range []point{{100, 100}, {500, 100}, {300, 400}, {100, 700}, {500, 700}} {
		a, b := want.point(p), got.point(p)
		if math.Hypot(a.x-b.x, a.y-b.y) > 6 {
			t.Errorf("%v lies at %v, want %v", p, b, a)
		}
	}
}

// The marks of inches behind a number are no part of it, but what stands on its
// foot is.
func TestWithoutMark(t *testing.T) {
	raised := func(y1 float64) freeGlyph {
		return freeGlyph{shape: shape{bounds: box{50, 0, 56, y1}}, kind: glyphOther, sure: 0.5}
	}
	for name, c := range map[string]struct {
		last freeGlyph
		want float64
	}{"raised": {raised(8), parse.Sure}, "as high as a digit": {raised(19), 0}} {
		got := cellOf(append(signs("46", 0, 0), c.last))
		if got.text != "46" || (got.sure >= parse.Sure) != (c.want > 0) {
			t.Errorf("%s: %q with %.2f", name, got.text, got.sure)
		}
	}
}

// A column that stands between the stations tells a page that was laid askew.
func TestLevel(t *testing.T) {
	for off, want := range map[float64]bool{0: true, 6: true, -18: false, 20: false} {
		var cells [][]freeCell
		var stations []atStation
		for i := range 5 {
			y := 40 * float64(i)
			stations = append(stations, atStation{y: y})
			cells = append(cells, []freeCell{{text: "41", bounds: box{80, y + off - 10, 110, y + off + 10}}, {text: "66", bounds: box{200, y - 10, 230, y + 10}}})
		}
		if got := level(cells, stations); got != want {
			t.Errorf("%v of 40 pixels off: %v", off, got)
		}
	}
}
