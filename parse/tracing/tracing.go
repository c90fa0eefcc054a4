package tracing

import (
	"errors"
	"fmt"
	"image"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Errors of a photo that gives no tracing.
var (
	ErrNoSheet = errors.New("no tracing sheet in the photo")
	ErrMarks   = errors.New("too few marks of the tracing sheet are seen")
	ErrNoLine  = errors.New("no line on the tracing sheet")
)

// Point is a place on the traced plane, in millimetres: X to the right and Y up
// from the lower left corner of the lower left sheet.
type Point struct{ X, Y float64 }

// Tracing is an end of a boat as it was traced.
type Tracing struct {
	Paper    form.Paper
	Unit     parse.Unit
	Sheets   int
	Line     []Point // from its lower end, about a millimetre apart
	Residual float64 // of the marks, root mean square, mm
	// Error is how far the line may be from the pencil's, in mm: in 19 of 20
	// photos none of it is farther off.
	Error float64
	Scale float64 // of the print, by the paper's edges in the photo; 0 where they are not seen
	// Preview says why the tracing must not be used at true scale, "" when the
	// scale of the print is proved and the error small.
	Preview string
}

// True reports a tracing that is true to scale.
func (t Tracing) True() bool { return t.Preview == "" }

// MostError is the greatest error, in mm, with which a photo may stand in the
// place of paper.
const MostError = 2.0

// What a print may be off and still count as true, as fractions: what a tape
// reads to a sixteenth of an inch along 8 in, and what the paper's edges tell.
// Pages that are fitted to a printer's margins come out at 93 to 97 %.
const (
	tapeOff  = 1.0 / 16 / 8 * 1.05
	paperOff = 0.005
)

// What the error is made of beside the marks' own, in mm and as fractions: how
// well the middle of a pencil line is found, and how well the edges of the paper
// prove the scale. fitShare is how many spreads of the fit are reckoned with.
const (
	pencilError = 0.3
	scaleDoubt  = 0.0015
	fitShare    = 2.5
)

// Read reads the tracing in a photo. tape is what a tape reads along the printed
// line, 0 when nobody has said. Errors are ErrNoSheet, ErrMarks and ErrNoLine.
func Read(photo *image.Gray, tape parse.Length) (Tracing, error) {
	p := picture{photo}
	sheets, codes := findSheets(p)
	switch {
	case codes == 0:
		return Tracing{}, ErrNoSheet
	case len(sheets) == 0:
		return Tracing{}, ErrMarks
	}
	lowerLeftFirst(sheets)
	f, err := join(p, sheets)
	if err != nil {
		return Tracing{}, fmt.Errorf("%w: %w", ErrMarks, err)
	}
	t := Tracing{Paper: f.grids[0].Paper, Unit: f.grids[0].Unit, Sheets: len(sheets), Residual: f.residual}
	flat := f.square(p)
	line := flat.middles(flat.stroke())
	if len(line) < 2 {
		return Tracing{}, ErrNoLine
	}
	t.Error = f.error(line)
	for _, q := range line {
		t.Line = append(t.Line, Point{q.x, f.grids[0].Height - q.y})
	}
	if t.Line[0].Y > t.Line[len(t.Line)-1].Y {
		slices.Reverse(t.Line)
	}
	t.Scale, _ = f.printScale(p)
	t.Preview = t.preview(tape, f.grids[0])
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

// preview says why a tracing is only a preview, "" when it is not.
func (t Tracing) preview(tape parse.Length, g form.Grid) string {
	read := float64(tape) / (g.Line.Y1 - g.Line.Y0)
	switch {
	case t.Scale != 0 && math.Abs(t.Scale-1) > paperOff:
		return fmt.Sprintf("the sheet was printed at %.0f %%: print it again at 100 %%, and trace again", 100*t.Scale)
	case tape != 0 && math.Abs(read-1) > tapeOff:
		return fmt.Sprintf("by the tape along the printed line the sheet was printed at %.0f %%: print it again at 100 %%, and trace again", 100*read)
	case t.Scale == 0:
		return "the edges of the paper are not seen all around, so nothing proves the scale of the print"
	case tape == 0:
		return "nobody has said what a tape reads along the printed line, so the scale of the print is not proved"
	case t.Error > MostError:
		return fmt.Sprintf("it may be wrong by %.1f mm, and %.0f mm is the most", t.Error, MostError)
	}
	return ""
}
