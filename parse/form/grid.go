package form

import (
	"fmt"
	"image"
	"strings"

	"github.com/makiuchi-d/gozxing"
	multi "github.com/makiuchi-d/gozxing/multi/qrcode"

	"fairtape/parse"
)

// Grid is the geometry of a sheet on which an end of a boat is traced: a scale
// of square marks along its left and its lower edge, a single mark in the corner
// between the other two, a code that says what paper it was made for, and a line
// that is measured with a tape to prove the scale of the print. Places are in
// millimetres from the top left corner; the rest of the sheet is bare.
type Grid struct {
	Paper         Paper
	Unit          parse.Unit
	Width, Height float64
	Marks         []Rect // solid black; down the left edge, along the lower one, the corner
	Code          Rect
	CodeText      string
	Line          Rect   // the line to be measured, without breadth
	Words         []Rect // where words are printed
}

// Sizes of a tracing sheet, in millimetres.
const (
	GridMark  = 6.0  // side of a mark
	GridPitch = 20.0 // from mark to mark
	GridCode  = 24.0 // 1.14 mm a module at the 21 modules of its code

	gridLineIn     = 8 * 25.4 // the line to be measured
	gridLineCM     = 200.0
	gridLineX      = 22.0
	gridLineTop    = 20.0
	gridWordsRight = 28.5 // words stand between the line and here
	gridWordsFoot  = 22.5 // and so far from the lower edge
)

// gridCode begins the code of a tracing sheet: FT1/G/LI is one of Letter paper
// in inches.
const gridCode = codePrefix + "%d" + codeSeparator + "G" + codeSeparator

// NewGrid lays out a tracing sheet. Errors wrap ErrPaper or ErrUnit.
func NewGrid(paper Paper, unit parse.Unit) (Grid, error) {
	if err := checkSheet(paper, unit); err != nil {
		return Grid{}, fmt.Errorf("lay out a tracing sheet: %w", err)
	}
	g := Grid{Paper: paper, Unit: unit, CodeText: fmt.Sprintf(gridCode, Version) + paperLetters[paper] + unitLetters[unit]}
	g.Width, g.Height = paper.Size()
	w, h := g.Width, g.Height
	g.Code = Rect{MarkInset, h - MarkInset - GridCode, MarkInset + GridCode, h - MarkInset}
	const middle = MarkInset + GridMark/2
	mark := func(x, y float64) {
		g.Marks = append(g.Marks, Rect{x - GridMark/2, y - GridMark/2, x + GridMark/2, y + GridMark/2})
	}
	for y := middle; y+GridMark/2 <= g.Code.Y0-CodeClear; y += GridPitch {
		mark(middle, y)
	}
	for x := w - middle; x-GridMark/2 >= g.Code.X1+CodeClear; x -= GridPitch {
		mark(x, h-middle)
	}
	mark(w-middle, middle)
	long := gridLineIn
	if unit == parse.Centimetre {
		long = gridLineCM
	}
	g.Line = Rect{gridLineX, gridLineTop, gridLineX, gridLineTop + long}
	g.Words = []Rect{
		{gridLineX - 3, gridLineTop - 2, gridWordsRight, g.Line.Y1 + 2},
		{g.Code.X1 + CodeClear, h - gridWordsFoot, w - MarkInset, h - MarkInset - GridMark - 0.5},
	}
	return g, nil
}

// Printed returns where something is printed on the sheet.
func (g Grid) Printed() []Rect {
	return append(append([]Rect{g.Code}, g.Marks...), g.Words...)
}

// ParseGrid reads the code of a tracing sheet. Errors are ErrNotOurs and
// ErrVersion.
func ParseGrid(text string) (Grid, error) {
	rest, ours := strings.CutPrefix(text, fmt.Sprintf(gridCode, Version))
	if !ours || len(rest) != 2 {
		var version int
		if n, _ := fmt.Sscanf(text, gridCode, &version); n == 1 && version != Version {
			return Grid{}, fmt.Errorf("%w: %d", ErrVersion, version)
		}
		return Grid{}, fmt.Errorf("%w: %q", ErrNotOurs, text)
	}
	g, err := NewGrid(keyOf(paperLetters, rest[:1]), keyOf(unitLetters, rest[1:]))
	if err != nil {
		return Grid{}, fmt.Errorf("%w: %q", ErrNotOurs, text)
	}
	return g, nil
}

// FoundGrid is the code of a tracing sheet in a picture. Finders are the middles
// of its three large squares in pixels: the upper left, the upper right, the
// lower left one.
type FoundGrid struct {
	Grid    Grid
	Finders [3][2]float64
}

// Finders returns where the middles of the code's three large squares lie on the
// sheet, in the order of FoundGrid.
func (g Grid) Finders() ([3][2]float64, error) {
	modules, err := Modules(g.CodeText)
	if err != nil {
		return [3][2]float64{}, err
	}
	in := 3.5 * GridCode / float64(len(modules))
	return [3][2]float64{{g.Code.X0 + in, g.Code.Y0 + in}, {g.Code.X1 - in, g.Code.Y0 + in}, {g.Code.X0 + in, g.Code.Y1 - in}}, nil
}

// FindGrids finds the codes of tracing sheets in a picture; other codes are
// passed over.
func FindGrids(picture image.Image) (found []FoundGrid) {
	defer func() {
		if recover() != nil { // the decoder is known to panic on odd pictures
			found = nil
		}
	}()
	light := gozxing.NewLuminanceSourceFromImage(picture)
	bitmap, err := gozxing.NewBinaryBitmap(gozxing.NewHybridBinarizer(light))
	if err != nil {
		return nil
	}
	hints := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true}
	results, err := multi.NewQRCodeMultiReader().DecodeMultiple(bitmap, hints)
	if err != nil {
		return nil
	}
	for _, r := range results {
		g, err := ParseGrid(r.GetText())
		at := r.GetResultPoints()
		if err != nil || len(at) < 3 {
			continue
		}
		// The decoder has lower left, upper left, upper right.
		f := FoundGrid{Grid: g}
		for i, k := range [3]int{1, 2, 0} {
			f.Finders[i] = [2]float64{at[k].GetX(), at[k].GetY()}
		}
		found = append(found, f)
	}
	return found
}
