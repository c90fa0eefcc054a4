package tracing

import (
	"errors"
	"fmt"
	"image"
	"math"
	"slices"

	"fairtape/parse"
)

// Errors of a photo that gives no tracing.
var (
	ErrNoSheet = errors.New("no tracing sheet in the photo")
	ErrMarks   = errors.New("too few marks of the tracing sheet are seen")
	ErrNoLine  = errors.New("no line on the tracing sheet")
)

// What the error is made of beside what the marks and the paper's edges leave open,
// as spreads: how well the middle of a pencil line is found; how far a line goes
// astray that is bridged over what hides it, as a fraction of that; the scale of an
// honest print where the paper does not tell it. The first two were measured on
// rendered photos; the third is common practice, no source.
const (
	pencilDoubt = 0.08 // mm
	bridgeDoubt = 0.003
	printDoubt  = 0.0015
)

// reckoned is how many spreads of the worst place are reckoned with: of five
// stretches of a line that go astray each by itself, none is farther off in 19 of
// 20 photos.
const reckoned = 2.6

// Read reads the tracing in a photo. Errors are ErrNoSheet, ErrMarks and
// ErrNoLine.
func Read(photo *image.Gray) (parse.Tracing, error) {
	p := picture{photo}
	sheets, codes := findSheets(p)
	switch {
	case codes == 0:
		return parse.Tracing{}, ErrNoSheet
	case len(sheets) == 0:
		return parse.Tracing{}, ErrMarks
	}
	lowerLeftFirst(sheets)
	f, err := join(p, sheets)
	if err != nil {
		return parse.Tracing{}, fmt.Errorf("%w: %w", ErrMarks, err)
	}
	first := f.grids[0]
	t := parse.Tracing{Paper: string(first.Paper), Sheets: len(sheets), Residual: f.residual, Printed: parse.Length(first.Line.Height())}
	l := f.square(p).path()
	if len(l.points) == 0 {
		return parse.Tracing{}, ErrNoLine
	}
	b, err := newBuckle(f)
	if err != nil {
		return parse.Tracing{}, fmt.Errorf("%w: %w", ErrMarks, err)
	}
	print, seen := f.printScale(p)
	if seen {
		t.PrintScale = print.of
	} else {
		print = scale{1, printDoubt}
	}
	t.Part = l.part
	t.Error = b.reckon(l, print)
	for _, q := range l.points {
		q = q.minus(b.displaced(q))
		t.Line = append(t.Line, parse.TracedPoint{X: q.x * print.of, Y: (first.Height - q.y) * print.of})
	}
	return t, nil
}

// lowerLeftFirst puts the sheet first whose lower left corner lies farthest to
// the lower left, as the sheets themselves lie.
func lowerLeftFirst(sheets []sheet) {
	first := sheets[0].view
	corner := func(s sheet) float64 {
		q := first.camera.place(s.view.pixel(0, point{0, s.grid.Height}))
		return q.x - q.y
	}
	slices.SortStableFunc(sheets, func(a, b sheet) int {
		if corner(a) < corner(b) {
			return -1
		}
		return 1
	})
}

// reckon is how far the line may be off.
func (b *buckle) reckon(l path, print scale) float64 {
	worst := 0.0
	corner := point{0, b.fitted.grids[0].Height} // from where places are reckoned
	const samples = 24
	for i := range samples {
		k := 1 + i*(len(l.points)-3)/(samples-1)
		q := l.points[k]
		way := l.points[k+1].minus(l.points[k-1])
		across := way.times(1 / way.length()).turned(math.Pi / 2)
		worst = max(worst, math.Hypot(b.doubt(q, across), print.doubt*q.minus(corner).dot(across)))
	}
	return reckoned * math.Hypot(math.Hypot(worst, pencilDoubt), bridgeDoubt*l.hidden)
}
