package pdf

import (
	"math"
	"slices"
	"strings"

	"github.com/klippa-app/go-pdfium/enums"

	"fairtape/parse"
)

// CodeTick is a ticked box beside a number that may belong to it.
const CodeTick parse.Code = "pdf-tick"

const tickUnclear = "A box beside this number is ticked, and it is not clear what it stands for."

// joinTicks adds to the numbers of a form what is ticked beside them: "39" and
// a box called "1/2". A box that may say something else about a number makes
// it doubtful. The printed names of the boxes are taken off the lines.
func (s *sheet) joinTicks(p *page, lines [][]cell) [][]cell {
	var boxes []tickBox
	names := map[*cell]bool{}
	for i := range p.fields {
		b := tickBox{field: &p.fields[i]}
		b.row = slices.IndexFunc(lines, func(line []cell) bool {
			return slices.ContainsFunc(line, func(c cell) bool { return c.box.overlap(b.box) >= sameLine })
		})
		if b.row < 0 || !b.isTick() {
			continue
		}
		if name := b.nameIn(lines); name != nil {
			names[name] = true
		}
		boxes = append(boxes, b)
	}
	for _, b := range boxes {
		s.tick(p, b, b.numberIn(lines[b.row], names))
	}
	for _, c := range notChosen(boxes, lines) {
		names[c] = true
	}
	var kept [][]cell
	for _, line := range lines {
		var rest []cell
		for i := range line {
			if !names[&line[i]] {
				rest = append(rest, line[i])
			}
		}
		if len(rest) > 0 {
			kept = append(kept, rest)
		}
	}
	return kept
}

// notChosen finds the words of boxes that are left empty where another of their
// line is ticked, as "inches" beside "centimetres". Where none is ticked, no unit
// is chosen.
func notChosen(boxes []tickBox, lines [][]cell) (words []*cell) {
	for row, line := range lines {
		var group []tickBox
		ticked := false
		for _, b := range boxes {
			if b.row == row && b.fraction == "" {
				group, ticked = append(group, b), ticked || b.checked
			}
		}
		for i, c := range wordsOf(group, line) {
			if !group[i].checked && (ticked || onlyUnit(c.text)) {
				words = append(words, c)
			}
		}
	}
	return words
}

// wordWithin is how far in points a box and its word lie apart at most.
const wordWithin = 20

// wordsOf are the words of the boxes of a line: behind each of them, or before
// each of them; nil where neither is so.
func wordsOf(boxes []tickBox, line []cell) []*cell {
	var behind, before []*cell
	for _, b := range boxes {
		for i := range line {
			c := &line[i]
			switch {
			case c.field != nil || hasDigit(c.text):
			case math.Abs(c.box.x0-b.box.x1) < wordWithin:
				behind = append(behind, c)
			case math.Abs(b.box.x0-c.box.x1) < wordWithin && !strings.HasSuffix(c.text, ":"):
				before = append(before, c)
			}
		}
	}
	switch {
	case len(behind) == len(boxes):
		return behind
	case len(before) == len(boxes):
		return before
	}
	return nil
}

// tickBox is a box to be ticked on a line of a form.
type tickBox struct {
	*field
	row      int
	fraction string // the part of an inch that its name stands for, or ""
}

func (f *field) isTick() bool {
	return f.kind == enums.FPDF_FORMFIELD_TYPE_CHECKBOX || f.kind == enums.FPDF_FORMFIELD_TYPE_RADIOBUTTON
}

// tick adds one box to the number before it, nil for none.
func (s *sheet) tick(p *page, b tickBox, number *cell) {
	switch {
	case number == nil:
		if b.checked && b.fraction != "" {
			s.unplaced(b.place(p.number), b.fraction)
		}
	case !b.checked && b.kind == enums.FPDF_FORMFIELD_TYPE_RADIOBUTTON:
	case !s.second().holds(b.field):
		s.doubtAt(number.place, CodeReaders, "Two programs read the box beside this number differently.")
	case b.checked && b.fraction != "":
		number.text += " " + b.fraction
	case b.checked:
		s.doubtAt(number.place, CodeTick, tickUnclear)
	}
}

// nameIn finds the name of a box that stands for part of an inch: to its right,
// to its left or over its column.
func (b *tickBox) nameIn(lines [][]cell) *cell {
	var right, left, above *cell
	for i := range lines[b.row] {
		c := &lines[b.row][i]
		switch {
		case c.box.x0 >= b.box.x1-1 && right == nil:
			right = c
		case c.box.x1 <= b.box.x0+1:
			left = c
		}
	}
	for r := b.row - 1; r >= 0 && above == nil; r-- {
		for i := range lines[r] {
			if c := &lines[r][i]; c.field == nil && c.box.x0 < b.box.x1 && c.box.x1 > b.box.x0 {
				above = c
			}
		}
	}
	for _, c := range []*cell{right, left, above} {
		if c != nil && c.field == nil {
			if b.fraction = tickFraction(c.text); b.fraction != "" {
				return c
			}
		}
	}
	return nil
}

// numberIn is the filled field that a box stands behind, with no more than
// names of boxes between; nil for none.
func (b *tickBox) numberIn(line []cell, names map[*cell]bool) *cell {
	var number *cell
	for i := range line {
		c := &line[i]
		switch {
		case c.box.x1 > b.box.x0+1:
			return number
		case c.field != nil:
			number = c
		case !names[c]:
			number = nil
		}
	}
	return number
}

// tickWords are what the name of a box for part of an inch may say beside it.
var tickWords = strings.Fields("tick check mark box for if another extra add plus and an a the in inch inches " +
	"cocher cochez case pour si un une et pouce po")

// tickFraction reads the name of a box, "+ 1/2" or "tick for half an inch"; ""
// when it names no one part of an inch.
func tickFraction(name string) string {
	fraction := ""
	for _, w := range strings.Fields(strings.NewReplacer("(", " ", ")", " ", `"`, " ", ":", " ", "+", " ").Replace(parse.Fold(name))) {
		w = strings.Trim(w, ".,=?")
		part := ""
		switch {
		case w == "half", w == "demi", w == "demie", w == "demi-pouce":
			part = "1/2"
		case strings.ContainsAny(w, "0123456789"):
			a, f := parse.ParseLength(w)
			if f.Some() || a.Number >= 1 || a.Scale != parse.Bare {
				return ""
			}
			part = w
		case w != "" && !slices.Contains(tickWords, w):
			return ""
		}
		if part != "" && fraction != "" {
			return ""
		}
		fraction += part
	}
	return fraction
}
