package photo

import (
	"math"
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo/phototest"
)

// Four corners of a square seen from the side: the values follow from the
// camera's equations by hand (a plane tilted about the x axis by 30 degrees at
// 4 units before a pinhole of focal length 1).
func TestHomography(t *testing.T) {
	see := func(p point) point {
		c, s := math.Cos(math.Pi/6), math.Sin(math.Pi/6)
		return point{p.x / (4 + s*p.y), c * p.y / (4 + s*p.y)}
	}
	from := [4]point{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}
	var to [4]point
	for i, p := range from {
		to[i] = see(p)
	}
	h, err := solveHomography(from, to)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []point{{0, 0}, {0.3, -0.8}, {-0.5, 0.9}} {
		got, want := h.point(p), see(p)
		if math.Hypot(got.x-want.x, got.y-want.y) > 1e-12 {
			t.Errorf("%v is seen at %v, want %v", p, got, want)
		}
	}
	if _, err := solveHomography([4]point{{0, 0}, {1, 1}, {2, 2}, {3, 3}}, to); err == nil {
		t.Error("points on a line give a homography")
	}
}

// A page is told from its marks whatever way it lies and whichever is seen
// first.
func TestAsPage(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for page := 1; page <= 3; page++ {
		l, err := form.New(form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: form.MostRows})
		if err != nil {
			t.Fatal(err)
		}
		for turn := range 4 {
			a := float64(turn) * math.Pi / 2
			place := func(x, y float64) point {
				x, y = x-l.Width/2, y-l.Height/2
				return point{1000 + 4*(x*math.Cos(a)-y*math.Sin(a)), 1000 + 4*(x*math.Sin(a)+y*math.Cos(a))}
			}
			var blobs [4]blob
			for i, m := range l.Pages[page-1].Marks {
				b := m.Box
				blobs[i] = blob{side: 28, eye: 1, corners: [4]point{place(b.X0, b.Y0), place(b.X1, b.Y0), place(b.X1, b.Y1), place(b.X0, b.Y1)}}
				blobs[i].centre = place(b.Centre())
				if m.Solid {
					blobs[i].eye = 0
				}
			}
			topLeft := blobs[0].centre
			rng.Shuffle(4, func(i, j int) { blobs[i], blobs[j] = blobs[j], blobs[i] })
			found := asPage(blobs)
			if len(found) != 1 || found[0].page != page || found[0].marks[0] != topLeft || found[0].error > 1e-9 {
				t.Errorf("page %d turned %d times: %+v", page, turn, found)
			}
		}
	}
}

// Boxes that are moved smoothly, as bent paper moves them, are found again; those
// of a corner that curls up as well.
func TestRegister(t *testing.T) {
	l, err := form.New(form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 16})
	if err != nil {
		t.Fatal(err)
	}
	for name, moved := range map[string]func(x, y float64) (dx, dy float64){
		"bent": func(x, y float64) (dx, dy float64) { return 1.8 * math.Sin(y/90), 2.2*math.Cos(x/80) - 1 },
		"curled up": func(x, y float64) (dx, dy float64) {
			rise := max(x/l.Width+1-y/l.Height-0.8, 0)
			return -2 * rise * rise, 9 * rise * rise
		},
	} {
		p := newPlane(int(l.Width*perMM), int(l.Height*perMM))
		for i := range p.pix {
			p.pix[i] = 200
		}
		for _, f := range l.Fields {
			if f.Page != 2 {
				continue
			}
			for _, b := range f.Boxes {
				cx, cy := b.Centre()
				dx, dy := moved(cx, cy)
				outline(p, form.Rect{X0: b.X0 + dx, Y0: b.Y0 + dy, X1: b.X1 + dx, Y1: b.Y1 + dy})
			}
		}
		for _, b := range register(p, l, 2) {
			dx, dy := moved(b.rect.Centre())
			if off := math.Hypot(b.dx-dx, b.dy-dy); off > 0.3 {
				t.Errorf("%s: %s box %d is %.2f mm from its place", name, l.Fields[b.field].Name, b.box, off)
			}
		}
	}
}

// outline draws a grey line of a pixel's width around a rectangle, in the pixels
// that its edges lie in.
func outline(p *plane, r form.Rect) {
	x0, y0, x1, y1 := int(r.X0*perMM), int(r.Y0*perMM), int(r.X1*perMM), int(r.Y1*perMM)
	for x := x0; x <= x1; x++ {
		p.pix[y0*p.w+x], p.pix[y1*p.w+x] = 120, 120
	}
	for y := y0; y <= y1; y++ {
		p.pix[y*p.w+x0], p.pix[y*p.w+x1] = 120, 120
	}
}

// An outline goes, and ink that crosses it stays.
func TestRemoveOutline(t *testing.T) {
	p := &patch{w: 40, h: 44, dark: make([]float32, 40*44)}
	for y := 4; y < 40; y++ {
		p.dark[y*40+3], p.dark[y*40+4] = 0.2, 0.25
		p.dark[y*40+35], p.dark[y*40+36] = 0.2, 0.25
	}
	for x := range 20 {
		p.dark[20*40+x] = 0.8
	}
	p.removeOutline(usualPrint([]*patch{p}))
	for y := 6; y < 38; y++ {
		for _, x := range []int{3, 4, 35, 36} {
			d := p.dark[y*40+x]
			if crossed := y == 20 && x < 20; crossed && d < 0.7 || !crossed && d > 0.02 {
				t.Errorf("darkness at %d,%d is %.2f", x, y, d)
			}
		}
	}
}

// The foot of a 2 that lies on the outline all along is no outline.
func TestRemoveOutlineUnderAFoot(t *testing.T) {
	drawn := func() *patch {
		p := &patch{w: 40, h: 44, dark: make([]float32, 40*44)}
		for x := 4; x < 36; x++ {
			p.dark[4*40+x], p.dark[39*40+x] = 0.3, 0.3
		}
		for y := 4; y < 40; y++ {
			p.dark[y*40+4], p.dark[y*40+35] = 0.3, 0.3
		}
		return p
	}
	p := drawn()
	for x := 8; x < 34; x++ {
		p.dark[39*40+x] = 0.8
	}
	p.removeOutline(usualPrint([]*patch{drawn(), p, drawn()}))
	for x := 10; x < 32; x++ {
		if d := p.dark[39*40+x]; d < 0.4 {
			t.Fatalf("darkness of the foot at %d is %.2f", x, d)
		}
	}
}

func TestTwice(t *testing.T) {
	known := func(v, confidence float64) parse.Reading {
		return parse.Reading{Value: parse.Inches(v), Known: true, Confidence: confidence, Source: parse.Source{Raw: "x"}}
	}
	unknown := parse.Reading{Source: parse.Source{Raw: "?"}}
	tests := []struct {
		name  string
		a, b  parse.Reading
		value float64
		sure  bool
	}{
		{"both sure of something else", known(43, 0.99), known(48, 0.98), 0, false},
		{"both unsure", known(43, 0.5), known(48, 0.6), 48, false},
		{"both unread", unknown, unknown, 0, false},
		{"one is better", known(43, 0.5), known(43, 0.97), 43, true},
		{"one is unread", unknown, known(43, 0.97), 43, true},
		{"unsure of something else", known(48, 0.5), known(43, 0.97), 43, true},
	}
	for _, test := range tests {
		for _, pair := range [][2]parse.Reading{{test.a, test.b}, {test.b, test.a}} {
			r := better(pair[0], pair[1])
			if r.Value.In(parse.Inch) != test.value || r.Certain() != test.sure {
				t.Errorf("%s: %+v", test.name, r)
			}
		}
	}
	cell := parse.Cell{Measure: parse.BowHeight}
	shown := &Page{Cells: []Cell{{Cell: cell, Reading: known(43, 0.99)}}}
	for _, pages := range [][2]*Page{{shown, {}}, {{}, shown}} {
		if out := twice(pages[0], pages[1]); len(out.Cells) != 1 || out.Cells[0].Reading.Certain() {
			t.Errorf("a number that one photo shows is %+v", out.Cells)
		}
	}
}

func TestTries(t *testing.T) {
	try := func(v, confidence float64) parse.Reading {
		return parse.Reading{Value: parse.Inches(v), Known: true, Confidence: confidence, Source: parse.Source{Raw: "x"}}
	}
	tests := []struct {
		name  string
		a, b  parse.Reading
		value float64
		sure  bool
		agree bool
	}{
		{"far apart", try(43, 0.99), try(44, 0.99), 0, false, false},
		{"one unsure", try(43, 0.99), try(43, 0.5), 43, false, true},
		{"one unread", try(43, 0.99), parse.Reading{Source: parse.Source{Raw: "?"}}, 43, false, true},
		{"half an inch apart", try(43.5, 0.99), try(43, 0.98), 43, true, true},
		{"the same", try(43, 0.99), try(43, 0.98), 43, true, true},
	}
	for _, test := range tests {
		r, agree := bothTries(test.a, test.b)
		if r.Value.In(parse.Inch) != test.value || r.Certain() != test.sure || agree != test.agree {
			t.Errorf("%s: %+v, %v", test.name, r, agree)
		}
	}
}

// A photo as most people take it, with the truth known: no number is given
// surely and wrong, and few are sent to a person.
func TestPhotoAgainstTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("a photo takes two seconds to render")
	}
	rng := rand.New(rand.NewPCG(11, 12))
	l, err := form.New(form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 14})
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := phototest.Blank(l, 2)
	if err != nil {
		t.Fatal(err)
	}
	written := sheet.Fill(phototest.NewHand(nil, rng), numbers(l, rng), phototest.Trouble{}, rng)
	picture := photographed(t, sheet, 178, rng)
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	page, err := reader.Page("photo.jpg", picture)
	if err != nil {
		t.Fatal(err)
	}
	survey, sent := page.Survey(), 0
	for _, w := range written {
		switch r := readingOf(&survey, w.Cell); {
		case !r.Certain():
			sent++
		case r.Value != w.Length:
			t.Errorf("%v at %v: wrote %v, read %v surely", w.Cell.Measure, w.Cell.At.In(parse.Inch), w.Length.In(parse.Inch), r.Value.In(parse.Inch))
		}
	}
	if len(written) < 35 || sent > len(written)/10 {
		t.Errorf("%d of %d numbers are sent to a person", sent, len(written))
	}
}

// photographed is an ordinary photograph of a sheet, turned by so many degrees.
func photographed(t *testing.T, sheet *phototest.Sheet, turn float64, rng *rand.Rand) *Picture {
	t.Helper()
	camera := phototest.NewCamera(phototest.Ordinary, rng)
	camera.Width, camera.Height, camera.Turn = 1200, 1600, turn
	data, err := sheet.Photograph(camera, rng).JPEG()
	if err != nil {
		t.Fatal(err)
	}
	pictures, _, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	return pictures[0]
}
