package photo

import (
	"fairtape/parse/digits"
	"fairtape/parse/form"
)

// DigitBox is one digit box of a page: which of its field's, and what the number
// reader is given of it, nil where there is too little ink to ask it.
type DigitBox struct {
	Field form.Field
	Index int
	Ink   *digits.Box
}

// DigitBoxes finds the page in a picture and returns its digit boxes: the number
// reader learns from them. The error is that of Page.
func DigitBoxes(p *Picture) ([]DigitBox, error) {
	v, err := find(p)
	if err != nil {
		return nil, err
	}
	straight := v.straight(v.whole(), perMM)
	boxes := register(straight, v.layout, v.code.Page)
	patches, ink, _ := v.written(boxes, straight, newPaper(straight))
	var out []DigitBox
	for i, b := range boxes {
		if f := v.layout.Fields[b.field]; f.Kind == form.Digits {
			out = append(out, DigitBox{Field: f, Index: b.box, Ink: patches[i].given(ink)})
		}
	}
	return out, nil
}

// whole is all of the page.
func (v *view) whole() form.Rect { return form.Rect{X1: v.layout.Width, Y1: v.layout.Height} }

const (
	// enoughTicks is how many ticks tell how dark ticks are.
	enoughTicks = 3
	// paleAsTick is how dark a thin stroke of a tick is, beside digits.
	paleAsTick = 0.8
)

// written is what is written in each of the boxes, what counts as ink there, and whose
// the strokes are.
func (v *view) written(boxes []placed, straight *plane, paper *paper) ([]*patch, inkLevels, *strokes) {
	patches, usual := v.unprinted(boxes, paper)
	ink := levels(patches)
	ink.spread = spreadFor(v.edgeWidth())
	s := newStrokes(straight, paper, boxes, usual, ink)
	isTick := func(b placed) bool { return v.layout.Fields[b.field].Kind == form.Tick }
	digit, _ := s.usualStrength(boxes, func(b placed) bool { return !isTick(b) })
	tick, ticks := s.usualStrength(boxes, isTick)
	if ticks < enoughTicks {
		tick = digit * paleAsTick
	}
	smears := s.smears(boxes, digit)
	for i, b := range boxes {
		s.clear(patches[i], b, i)
		patches[i].whole = s.whole(b, i)
		if isTick(b) {
			s.clearSmear(patches[i], b, i, smears, 0)
			switch {
			case s.noStrokes(i):
				patches[i].doubt = noFigure
			case s.inside[i].dark < palestStroke*tick, s.beyondBoth(b, i):
				patches[i].doubt = max(patches[i].doubt, maybeLine)
			}
		} else {
			s.clearSmear(patches[i], b, i, smears, digit)
			if s.through(b, i) || s.inside[i].dark < palestFigure*digit {
				patches[i].doubt = max(patches[i].doubt, maybeLine)
			}
		}
		if s.paleLevel(i, digit) {
			patches[i].doubt = noFigure
		}
	}
	return patches, ink, s
}

// unprinted is what is seen in each of the boxes, less their outlines, and how
// dark these usually are.
func (v *view) unprinted(boxes []placed, paper *paper) (patches []*patch, usual float32) {
	for _, b := range boxes {
		patches = append(patches, v.look(b, paper))
	}
	usual = usualPrint(patches)
	for _, p := range patches {
		p.removeOutline(usual)
	}
	return patches, usual
}

// given is what the number reader is given of a box, nil where there is too
// little ink to ask it.
func (p *patch) given(l inkLevels) *digits.Box {
	if p.ink(l, -0.5) < emptyBox {
		return nil
	}
	return p.box(l)
}
