package photo

import (
	"testing"

	"fairtape/parse/form"
)

// A stroke down the page is none of a box's, and a digit with a long tail is.
func TestStrokesThrough(t *testing.T) {
	for name, test := range map[string]struct {
		above, below float64 // mm that the stroke goes on beyond its box
		want         bool
	}{
		"a digit": {-1, -1, false}, "a tail": {-1, 2, false}, "a large digit": {1.4, 1.4, false},
		"down the page": {10, 10, true}, "far down": {-1, 4, true},
	} {
		p, boxes := aColumn(3)
		stroke(p, 24, boxes[1].rect.Y0-test.above, boxes[1].rect.Y1+test.below, 40)
		s, _ := seen(p, boxes)
		if got := s.through(boxes[1], 1); got != test.want {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}

// What only goes by leaves a box empty, and what may be a digit does not.
func TestStrokesGoBy(t *testing.T) {
	const pen = 40
	for _, test := range []struct {
		name   string
		draw   func(p *plane, boxes []placed)
		passes bool // the second box's stroke
		holds  bool // a part of a long stroke in it
	}{
		{"nothing", func(*plane, []placed) {}, false, false},
		{"a digit", func(p *plane, b []placed) { stroke(p, 24, b[1].rect.Y0+1, b[1].rect.Y1-1, pen) }, false, false},
		{"two digits that touch", func(p *plane, b []placed) { stroke(p, 24, b[1].rect.Y0+1, b[2].rect.Y1-1, pen) }, false, false},
		{"a stroke that begins in it", func(p *plane, b []placed) { stroke(p, 24, b[1].rect.Y0+2, b[3].rect.Y1, pen) }, false, true},
		{"one with a digit", func(p *plane, b []placed) {
			stroke(p, 24, b[0].rect.Y0, b[4].rect.Y1, pen)
			for y := b[1].rect.Y0 + 1; y < b[1].rect.Y1-1; y += 1.0 / perMM {
				stroke(p, 24+(y-b[1].rect.Y0)/3, y, y+0.5, pen)
			}
			stroke(p, 26.5, b[1].rect.Y0+2, b[1].rect.Y1-1, pen)
		}, false, true},
		{"a stroke down the page", func(p *plane, b []placed) { stroke(p, 24, b[0].rect.Y0, b[4].rect.Y1, pen) }, true, true},
		{"a paler one over a digit", func(p *plane, b []placed) {
			stroke(p, 24, b[0].rect.Y0, b[4].rect.Y1, 60)
			for _, other := range b { // digits, that tell the pen
				stroke(p, 22, other.rect.Y0+1, other.rect.Y1-1, 5)
				stroke(p, 26, other.rect.Y0+1, other.rect.Y1-1, 5)
			}
			for _, x := range []float64{22, 26} {
				stroke(p, x, b[1].rect.Y0+1, b[1].rect.Y1-1, 200)
			}
			stroke(p, 24, b[1].rect.Y0+1, b[1].rect.Y1-1, 5)
		}, false, true},
		{"a slanting one", func(p *plane, b []placed) {
			for y := b[0].rect.Y0; y < b[3].rect.Y1; y += 1.0 / perMM {
				stroke(p, 22+(y-b[0].rect.Y0)/9, y, y+0.5, pen)
			}
		}, true, true},
	} {
		p, boxes := aColumn(5)
		test.draw(p, boxes)
		s, _ := seen(p, boxes)
		if passes, holds := s.passes(boxes[1], 1), s.holdsLong(boxes[1], 1); passes != test.passes || holds != test.holds {
			t.Errorf("%s: goes by %v, want %v; a part of a long stroke %v, want %v", test.name, passes, test.passes, holds, test.holds)
		}
	}
}

func TestPaleLevel(t *testing.T) {
	for _, test := range []struct {
		name       string
		wide, high float64
		light      byte
		want       bool
	}{
		{"a short upright line", 0.5, 3, 125, false},
		{"a patch", 5, 2.5, 125, false},
		{"a dash", 5, 0.5, 40, false},
		{"a fold", 5, 0.5, 125, true},
		{"a part of a fold", 1.75, 0.25, 125, true},
	} {
		p, boxes := aColumn(5)
		for _, b := range boxes[1:] { // digits, that tell the pen
			stroke(p, 23, b.rect.Y0+1, b.rect.Y1-1, 40)
		}
		for x := 21.5; x < 21.5+test.wide; x += 0.5 {
			stroke(p, x, 14, 14+test.high, test.light)
		}
		s, _ := seen(p, boxes)
		usual, _ := s.usualStrength(boxes, func(placed) bool { return true })
		if got := s.paleLevel(0, usual); got != test.want {
			t.Errorf("%s: a pale level line %v, want %v (%+v)", test.name, got, test.want, s.inside[0])
		}
	}
}

// A tick goes on beyond its box, but not so far both ways.
func TestBeyondBoth(t *testing.T) {
	for name, test := range map[string]struct {
		beyond float64 // mm
		want   bool
	}{"a stroke within": {-0.5, false}, "a long tick": {1.2, false}, "the rim of a cup": {4, true}} {
		p, _ := aColumn(0)
		boxes := []placed{{rect: form.Rect{X0: 20, Y0: 8, X1: 20 + form.TickSide, Y1: 8 + form.TickSide}}}
		outline(p, boxes[0].rect)
		stroke(p, 22.5, boxes[0].rect.Y0-test.beyond, boxes[0].rect.Y1+test.beyond, 40)
		s, _ := seen(p, boxes)
		if got := s.beyondBoth(boxes[0], 0); got != test.want {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}
