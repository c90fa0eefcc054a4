package photo

import (
	"math"
	"testing"

	"fairtape/parse/digits"
)

// blackPage is a page on which the ink of shapes is black.
func blackPage(w, h int, shapes ...shape) *freePage {
	f := &freePage{straight: newPlane(w, h), dark: make([]float32, w*h), pen: 1, noise: 0.4, height: 20}
	for _, s := range shapes {
		for _, i := range s.pixels {
			f.dark[i] = 1
		}
	}
	return f
}

// inkOf is all the pixels of rectangles of a page as one shape.
func inkOf(w int, rectangles ...box) shape {
	s := shape{bounds: rectangles[0]}
	for _, b := range rectangles {
		s.bounds = s.bounds.union(b)
		for y := int(b.y0); y < int(b.y1); y++ {
			for x := int(b.x0); x < int(b.x1); x++ {
				s.pixels = append(s.pixels, y*w+x)
			}
		}
	}
	return s
}

// fourOrNine reads what is narrow as a 4 that may be a 9, and the rest as no digit.
func fourOrNine(b *digits.Box) digits.Distribution {
	wide := 0
	for x := range digits.Width {
		for y := range digits.Height {
			if b[y*digits.Width+x] > 0.3 {
				wide++
				break
			}
		}
	}
	if wide > 20 {
		return digits.Distribution{Unreadable: 1}
	}
	d := digits.Distribution{Unreadable: 0.02}
	d.Digit[4], d.Digit[9] = 0.88, 0.1
	return d
}

// Two digits that touch are read as two, with what else each may be, and so is a
// mark between digits that may be no point; none of it is sure by itself.
func TestNumberOfTouchingDigits(t *testing.T) {
	const w = 120
	pair := inkOf(w, box{10, 10, 22, 30}, box{22, 28, 24, 30}, box{24, 10, 36, 30})
	single := inkOf(w, box{46, 10, 58, 30})
	point := inkOf(w, box{40, 27, 43, 30})
	c := closer{blackPage(w, 40, pair, single, point), new(face), fourOrNine, fourOrNine, 12}
	other := freeGlyph{shape: pair, kind: glyphOther}
	digit := freeGlyph{shape: single, kind: glyphDigit, digit: 4, sure: 0.88}
	dot := freeGlyph{shape: point, kind: glyphPoint, sure: 1}
	for name, test := range map[string]struct {
		signs []freeGlyph
		best  string
		may   []string
	}{
		"touching":       {[]freeGlyph{other}, "44", []string{"49", "94"}},
		"and a third":    {[]freeGlyph{other, digit}, "444", []string{"449", "944"}},
		"behind a point": {[]freeGlyph{other, dot, digit}, "44.4", []string{"444", "44.9"}},
	} {
		got := c.number(test.signs, freeCell{text: "1", sure: 0.1})
		if got.text != test.best || got.sure > justUnsure || got.sure < 0.15 {
			t.Errorf("%s: %q with %.2f, want %q", name, got.text, got.sure, test.best)
		}
		sum, may := got.sure, map[string]bool{}
		for _, o := range got.others {
			sum += o.probability
			may[o.text] = true
		}
		for _, text := range test.may {
			if !may[text] {
				t.Errorf("%s: it may not be %s: %v", name, text, got.others)
			}
		}
		if sum > 1+1e-9 {
			t.Errorf("%s: all that it may be is %.3f likely", name, sum)
		}
	}
}

// The likelihoods of all ways to part ink are those that one of them is legible.
func TestShare(t *testing.T) {
	half := digits.Distribution{Unreadable: 0.5}
	half.Digit[7] = 0.5
	ways := []way{{[]digits.Distribution{half}, 0.3, 0.5}, {[]digits.Distribution{half, half}, 0.1, 0.25}}
	share(ways)
	if sum := ways[0].likely + ways[1].likely; math.Abs(sum-(1-0.5*0.75)) > 1e-9 || math.Abs(ways[0].likely-3*ways[1].likely) > 1e-9 {
		t.Errorf("%+v", ways)
	}
	if d := ways[1].digits[0].Digit[7]; math.Abs(d-1) > 1e-9 {
		t.Errorf("a digit of a legible way is a 7 with %v", d)
	}
}

// A number of no neighbour's size is one that was misread.
func TestBeyondNeighbours(t *testing.T) {
	cell := func(text string) freeCell { return freeCell{text: text, sure: 0.7} }
	for text, want := range map[string]bool{"167": true, "107": false, "116": false, "77": true, "": false} {
		if got := beyondBoth(cell("112.5"), cell(text), cell("98")); got != want {
			t.Errorf("%q between 112.5 and 98: %v", text, got)
		}
	}
}

// Numbers with more digits than a measure has are read with a half; others stay.
func TestWithHalf(t *testing.T) {
	for text, want := range map[string]string{
		"39112": "39 1/2", "3912": "39 1/2", "105172": "105 1/2", "112": "112", "212": "212", "38": "38", "3.912": "3.912", "1112": "11 1/2", "3913": "3913",
	} {
		if got := withHalf(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}
