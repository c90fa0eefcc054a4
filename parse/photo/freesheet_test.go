package photo

import "testing"

// The table under a sheet is taken away, and the sheet left as it is.
func TestOnSheet(t *testing.T) {
	const w, h = 300, 400
	picture := newPlane(w, h)
	for y := range h {
		for x := range w {
			switch light := &picture.pix[y*w+x]; {
			case x > 60+y/20 && x < 240+y/20 && y > 50 && y < 350:
				*light = 220
				if x == 150 && y%30 == 0 {
					*light = 30 // writing
				}
			default:
				*light = byte(60 + 40*(x/3%2))
			}
		}
	}
	sheet, ok := onSheet(picture)
	if !ok {
		t.Fatal("no sheet is seen")
	}
	written := 0
	for i, v := range sheet.pix {
		switch {
		case v == 30 && picture.pix[i] == 30:
			written++
		case v < 200:
			t.Fatalf("the table shows at %d,%d: %d", i%w, i/w, v)
		}
	}
	if written != 10 {
		t.Errorf("%d of 10 written pixels are left", written)
	}
	for i := range picture.pix {
		picture.pix[i] = byte(60 + 40*(i/3%2))
	}
	if _, ok := onSheet(picture); ok {
		t.Error("a sheet is seen on a bare table")
	}
}

// Digits that look like others of their page are readable.
func TestFace(t *testing.T) {
	page := &freePage{straight: newPlane(200, 100), height: 20, pen: 1}
	page.dark = make([]float32, 200*100)
	stroke := func(x0, width int) shape {
		s := shape{bounds: box{float64(x0), 20, float64(x0 + width), 40}}
		for y := 20; y < 40; y++ {
			for x := x0; x < x0+width; x++ {
				if x < x0+3 || y < 23 {
					page.dark[y*200+x] = 1
					s.pixels = append(s.pixels, y*200+x)
				}
			}
		}
		return s
	}
	glyph := func(s shape, digit int, sure float64) freeGlyph {
		g := freeGlyph{shape: s, kind: glyphDigit, digit: digit, sure: sure}
		g.all.Digit[digit], g.all.Unreadable = sure, 1-sure
		return g
	}
	line := []freeGlyph{
		glyph(stroke(10, 12), 5, 0.99), glyph(stroke(30, 12), 5, 0.99),
		glyph(stroke(50, 3), 1, 0.99), glyph(stroke(60, 3), 1, 0.99),
	}
	face := faceOf(page, [][]freeGlyph{line})
	if g := face.again(page, glyph(stroke(80, 12), 5, 0.8)); g.sure < 0.98 {
		t.Errorf("a 5 like the others has %.2f", g.sure)
	}
	if g := face.again(page, glyph(stroke(100, 3), 5, 0.8)); g.sure > 0.8 {
		t.Errorf("a 5 that looks like the page's 1 has %.2f", g.sure)
	}
	if g := face.again(page, glyph(stroke(120, 12), 7, 0.8)); g.sure > 0.8 {
		t.Errorf("a digit that the page has nowhere else has %.2f", g.sure)
	}
}
