package photo

import (
	"slices"
	"testing"

	"fairtape/parse/form"
)

// aColumn is a sheet with boxes below each other as far apart as on a form.
func aColumn(rows int) (*plane, []placed) {
	p := newPlane(60*perMM, (20+rows*int(form.RowPitch))*perMM)
	for i := range p.pix {
		p.pix[i] = 200
	}
	var boxes []placed
	for i := range rows {
		y := 10 + float64(i)*form.RowPitch
		b := placed{box: i, rect: form.Rect{X0: 20, Y0: y, X1: 20 + form.BoxWidth, Y1: y + form.BoxHeight}}
		outline(p, b.rect)
		boxes = append(boxes, b)
	}
	return p, boxes
}

// stroke draws an upright line, from and to in mm.
func stroke(p *plane, x, from, to float64, light byte) {
	for y := int(from * perMM); y < int(to*perMM); y++ {
		for i := range 2 {
			p.pix[y*p.w+int(x*perMM)+i] = light
		}
	}
}

// seen looks at the boxes of a sheet as those of a photo are.
func seen(p *plane, boxes []placed) (*strokes, []*patch) {
	paper := newPaper(p)
	v := &view{light: p, h: homography{perMM, 0, 0, 0, perMM, 0, 0, 0, 1}, scale: perMM}
	patches, usual := v.unprinted(boxes, paper)
	return newStrokes(p, paper, boxes, usual, levels(patches)), patches
}

func TestStrokesHaveOwners(t *testing.T) {
	p, boxes := aColumn(3)
	second, third := boxes[1].rect, boxes[2].rect
	const pen = 40
	stroke(p, 23, second.Y0+2, third.Y0+1.5, pen) // a 9's tail that reaches into the box below
	stroke(p, 25, third.Y0+1, third.Y1-1, pen)
	stroke(p, 30.5, second.Y0, second.Y1, pen) // beside the boxes
	s, patches := seen(p, boxes)
	for _, test := range []struct {
		name string
		x, y float64
		want int
	}{
		{"inside its box", 23.2, second.Y0 + 4, 1},
		{"between the boxes", 23.2, second.Y1 + 1.5, 1},
		{"in the box below", 23.2, third.Y0 + 1, 1},
		{"that box's own", 25.2, third.Y0 + 4, 2},
		{"beside", 30.7, second.Y0 + 4, nobody},
		{"bare paper", 22, third.Y0 + 7, nobody},
	} {
		if got := s.ownerAt(int(test.x*perMM), int(test.y*perMM)); got != test.want {
			t.Errorf("%s: box %d, want %d", test.name, got, test.want)
		}
	}
	s.clear(patches[2], boxes[2], 2)
	at := func(p *patch, b placed, x, y float64) float32 {
		return p.dark[int((y-b.rect.Y0+patchMargin)*perMM)*p.w+int((x-b.rect.X0+patchMargin)*perMM)]
	}
	if d := at(patches[2], boxes[2], 23.2, third.Y0+1); d > 0 {
		t.Errorf("the tail of the digit above is left in a box, %.2f dark", d)
	}
	if d := at(patches[2], boxes[2], 25.2, third.Y0+4); d < 0.5 {
		t.Errorf("the box's own stroke is gone: %.2f", d)
	}
	if s.whole(boxes[2], 2) != nil {
		t.Error("a digit within its box is taken from elsewhere")
	}
	whole := s.whole(boxes[1], 1)
	if whole == nil {
		t.Fatal("a digit that goes on beyond its box is cut")
	}
	rows := 0
	for y := range 44 {
		for x := range 40 {
			if whole[y*40+x] > 0.5 {
				rows++
				break
			}
		}
	}
	if rows < 43 { // it is 46 pixels high, and made smaller
		t.Errorf("the digit is %d pixels high, want all 44 of its picture", rows)
	}
}

// Digits of two boxes that touch are cut between these.
func TestStrokesPart(t *testing.T) {
	p, boxes := aColumn(2)
	first, second := boxes[0].rect, boxes[1].rect
	stroke(p, 23, first.Y0+3, second.Y1-2, 40)
	s, _ := seen(p, boxes)
	for y, want := range map[float64]int{first.Y1 + 0.8: 0, second.Y0 - 0.8: 1} {
		if got := s.ownerAt(93, int(y*perMM)); got != want {
			t.Errorf("at %v mm: box %d, want %d", y, got, want)
		}
	}
}

func TestSmears(t *testing.T) {
	tests := []struct {
		name  string
		draw  func(p *plane, boxes []placed)
		empty bool // the first box
		doubt bool
	}{
		{"a pale line along the sheet", func(p *plane, boxes []placed) {
			stroke(p, 24, 5, boxes[len(boxes)-1].rect.Y1+5, 160)
		}, true, true},
		{"ones below each other", func(p *plane, boxes []placed) {
			for _, b := range boxes {
				stroke(p, 24, b.rect.Y0+1, b.rect.Y1+1.5, 40)
			}
		}, false, false},
		{"one of half the pen's darkness", func(p *plane, boxes []placed) {
			stroke(p, 24, boxes[0].rect.Y0+1, boxes[0].rect.Y1-1, 125)
		}, false, true},
		{"a paler one within its box", func(p *plane, boxes []placed) {
			stroke(p, 24, boxes[0].rect.Y0+2, boxes[0].rect.Y1-2, 85)
		}, false, false},
		{"one as pale from end to end", func(p *plane, boxes []placed) {
			stroke(p, 24, boxes[0].rect.Y0, boxes[0].rect.Y1, 85)
		}, false, true},
		{"a pale one", func(p *plane, boxes []placed) {
			stroke(p, 24, boxes[0].rect.Y0+1, boxes[0].rect.Y1-1, 165)
		}, false, true},
	}
	for _, test := range tests {
		p, boxes := aColumn(9)
		for _, b := range boxes[1:] { // digits, that tell the pen
			stroke(p, 22, b.rect.Y0+1, b.rect.Y1-1, 40)
			stroke(p, 26, b.rect.Y0+1, b.rect.Y1-1, 40)
		}
		test.draw(p, boxes)
		s, patches := seen(p, boxes)
		usual, _ := s.usualStrength(boxes, func(placed) bool { return true })
		s.clearSmear(patches[0], boxes[0], 0, s.smears(boxes, usual), usual)
		empty := patches[0].ink(inkLevels{noise: leastNoise, pen: aPen}, 0) == 0
		if empty != test.empty || (patches[0].doubt > 0) != test.doubt {
			t.Errorf("%s: empty %v, want %v; in doubt %v, want %v", test.name, empty, test.empty, patches[0].doubt, test.doubt)
		}
	}
}

func TestDash(t *testing.T) {
	level := func(p *plane, x0, x1, y float64) {
		for x := x0; x < x1; x += 1.0 / perMM {
			stroke(p, x, y, y+0.6, 40)
		}
	}
	for name, test := range map[string]struct {
		draw func(p *plane, r form.Rect)
		want bool
	}{
		"nothing":                {func(*plane, form.Rect) {}, false},
		"a dash":                 {func(p *plane, r form.Rect) { level(p, r.X0+2, r.X0+5, r.Y0+4.5) }, true},
		"a stroke through boxes": {func(p *plane, r form.Rect) { level(p, r.X0-3, r.X1+3, r.Y0+4.5) }, true},
		"the foot of a digit":    {func(p *plane, r form.Rect) { level(p, r.X0+2, r.X0+5, r.Y1-1) }, false},
		"a one":                  {func(p *plane, r form.Rect) { stroke(p, r.X0+4, r.Y0+1, r.Y1-1, 40) }, false},
		"a seven": {func(p *plane, r form.Rect) {
			level(p, r.X0+2, r.X0+6, r.Y0+2)
			stroke(p, r.X0+5, r.Y0+2, r.Y1-1, 40)
		}, false},
	} {
		p, boxes := aColumn(2)
		stroke(p, 23, boxes[1].rect.Y0+1, boxes[1].rect.Y1-1, 40)
		test.draw(p, boxes[0].rect)
		s, _ := seen(p, boxes)
		if got := s.dash(boxes[0], 0); got != test.want {
			t.Errorf("%s: a dash %v, want %v", name, got, test.want)
		}
	}
}

func TestDashed(t *testing.T) {
	boxes := []figure{struckOut, struckOut, struckOut, struckOut, digit(4, 1)}
	one := slices.Clone(boxes)
	dashed(one, []int{0})
	if f := one[0]; f.Blank != 0.5 || f.Unreadable != 0.5 || one[1] != struckOut {
		t.Errorf("a single dash is %+v, and the next box %+v", f, one[1])
	}
	dashed(boxes, []int{0, 1, 2, 3})
	if boxes[0].Blank != 1 || boxes[4] != digit(4, 1) {
		t.Errorf("dashes by habit are %+v, and a digit %+v", boxes[0], boxes[4])
	}
}
