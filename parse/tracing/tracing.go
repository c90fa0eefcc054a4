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

// What the error is made of beside the marks' own, in mm and as fractions: how
// well the middle of a pencil line is found, and how well the edges of the paper
// prove the scale. fitShare is how many spreads of the fit are reckoned with.
const (
	pencilError = 0.3
	scaleDoubt  = 0.0015
	fitShare    = 2.5
)

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
	flat := f.square(p)
	line := flat.middles(flat.stroke())
	if len(line) < 2 {
		return parse.Tracing{}, ErrNoLine
	}
	t.Error = f.error(line)
	t.PrintScale = f.printScale(p)
	scale := t.PrintScale
	if scale == 0 {
		scale = 1
	}
	for _, q := range line {
		t.Line = append(t.Line, parse.TracedPoint{X: q.x * scale, Y: (first.Height - q.y) * scale})
	}
	if t.Line[0].Y > t.Line[len(t.Line)-1].Y {
		slices.Reverse(t.Line)
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

// error is how far the line may be off.
func (f *fitted) error(line []point) float64 {
	fit, least, most := 0.0, line[0], line[0]
	const samples = 24
	for i := range samples {
		q := line[i*(len(line)-1)/(samples-1)]
		fit = max(fit, f.doubt(f.camera.pixel(q)))
		least, most = point{min(least.x, q.x), min(least.y, q.y)}, point{max(most.x, q.x), max(most.y, q.y)}
	}
	fit = max(fit, f.residual/2)
	return math.Sqrt(fitShare*fit*fitShare*fit + pencilError*pencilError + math.Pow(scaleDoubt*most.minus(least).length(), 2))
}
