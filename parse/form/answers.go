package form

import (
	"cmp"
	"fmt"
	"math"

	"fairtape/parse"
)

// Where things lie on a form, in millimetres. Columns are counted from the left
// margin; what hangs on it is checked by tests for overlaps and clearances.
const (
	marginA4     = 12.0
	marginLetter = 12.5

	// Numbers of the left column end at one edge: figures, tick, "1/2 in".
	figuresEnd   = 55.0 // inches
	figuresEndCM = 60.0 // centimetres have no tick

	// The table of stations: the name of the row, then two numbers.
	tableHull   = 94.0
	tableHullCM = 100.0 // the names of rows are longer
	tableFull   = 141.0
	tableTop    = 29.0
	tableEnd    = 10.0 + 3.0 // above the lower edge
	loosestRows = 14.0

	codeFoot = 26.0 // from the lower edge to the code's
)

// New lays out a form. Its errors wrap ErrPaper, ErrUnit, ErrSpacing or
// ErrRows.
func New(spec Spec) (Layout, error) {
	if err := spec.check(); err != nil {
		return Layout{}, fmt.Errorf("lay out a form: %w", err)
	}
	b := newBuilder(spec.Paper, spec.Unit)
	b.Spacing, b.Rows, b.Job = cmp.Or(spec.Spacing, Spacing(spec.Unit)), spec.Rows, spec.Job
	pages := 2
	if spec.Rows > RowsPerPage {
		pages = 3
	}
	for n := 1; n <= pages; n++ {
		at := Rect{b.left, b.Height - codeFoot - CodeSide, b.left + CodeSide, b.Height - codeFoot}
		if n == 1 {
			at = Rect{b.Width - b.left - CodeSide, 26, b.Width - b.left, 26 + CodeSide}
		}
		code := Code{Version: Version, Page: n, Paper: spec.Paper, Unit: spec.Unit, Spacing: b.Spacing, Rows: spec.Rows, Job: spec.Job}
		b.Pages = append(b.Pages, newPage(b.Width, b.Height, n, code, at))
	}
	b.words()
	b.bow()
	b.stations()
	b.stern()
	b.greatest()
	return b.Layout, nil
}

type builder struct {
	Layout
	left float64
	page int
	try  int
}

func newBuilder(paper Paper, unit parse.Unit) *builder {
	b := &builder{page: 1, left: marginA4}
	b.Paper, b.Unit = paper, unit
	b.Width, b.Height = paper.Size()
	if paper == Letter {
		b.left = marginLetter
	}
	return b
}

func (b *builder) add(f Field) {
	f.Page, f.Try = b.page, b.try
	b.Fields = append(b.Fields, f)
}

func (b *builder) tick(name string, x, y float64) {
	b.add(Field{Name: name, Kind: Tick, Boxes: []Rect{{x, y, x + TickSide, y + TickSide}}})
}

func (b *builder) text(name string, x, y, width, height float64) {
	b.add(Field{Name: name, Kind: Text, Boxes: []Rect{{x, y, x + width, y + height}}})
}

// digits adds n boxes whose last one ends at x.
func (b *builder) digits(name string, cell parse.Cell, part Part, n int, x, y float64) {
	f := Field{Name: name, Kind: Digits, Cell: cell, Part: part}
	for i := range n {
		x0 := x - BoxWidth - float64(n-1-i)*(BoxWidth+BoxGap)
		f.Boxes = append(f.Boxes, Rect{x0, y, x0 + BoxWidth, y + BoxHeight})
	}
	b.add(f)
}

// half adds the tick for half an inch after boxes that end at x.
func (b *builder) half(name string, cell parse.Cell, x, y float64) {
	x0, y0 := x+BoxClear, y+(BoxHeight-TickSide)/2
	b.add(Field{Name: name + ".half", Kind: Tick, Cell: cell, Part: Half, Boxes: []Rect{{x0, y0, x0 + TickSide, y0 + TickSide}}})
}

// whole adds a number of whole units, and the half inch where those are inches.
func (b *builder) whole(name string, cell parse.Cell, n int, x, y float64) {
	b.digits(name, cell, Whole, n, x, y)
	if b.Unit == parse.Inch {
		b.half(name, cell, x, y)
	}
}

// distance adds a number along the boat: feet and inches, or centimetres.
func (b *builder) distance(name string, cell parse.Cell, x, y float64) {
	if b.Unit == parse.Inch {
		b.digits(name+".feet", cell, Feet, 2, x-2*BoxWidth-BoxGap-10, y)
		b.digits(name+".inches", cell, Inches, 2, x, y)
		b.half(name, cell, x, y)
		return
	}
	b.digits(name, cell, Whole, b.lengthDigits(), x, y)
}

// lengthDigits is how many figures a length in centimetres may need: 3 up to
// 999 cm, unless the rows or a slip leave room for a longer boat.
func (b *builder) lengthDigits() int {
	if b.Slip || parse.Length(b.Rows+1)*b.Spacing > parse.Centimetres(999) {
		return 4
	}
	return 3
}

// column is where the numbers of the left column end.
func (b *builder) column() float64 {
	if b.Unit == parse.Centimetre {
		return b.left + figuresEndCM
	}
	return b.left + figuresEnd
}

// heightDigits: no end of an open boat is 100 in high, but of 100 cm it may be.
func (b *builder) heightDigits() int {
	if b.Unit == parse.Centimetre {
		return 3
	}
	return 2
}

// words are the fields of page 1.
func (b *builder) words() {
	const width, height, second = 72.0, 9.0, 78.0
	b.page = 1
	b.text(NameCustomer, b.left, 27.5, width, height)
	b.text(NameTelephone, b.left+second, 27.5, width, height)
	b.text(NameBoat, b.left, 46.5, width, height)
	b.text(NameUnderCover, b.left+second, 46.5, width, height)
	b.tick(NameTapeChecked, b.left, 69.5)
}

// bow is what is measured first: the whole boat and its forward end.
func (b *builder) bow() {
	b.page = 2
	b.tick(NameOpen, b.left, 33)
	b.tick(NameDecked, b.left+37, 33)
	b.distance("length_overall", parse.Cell{Measure: parse.LengthOverall}, b.column(), 49)
	b.whole("bow_height", parse.Cell{Measure: parse.BowHeight}, b.heightDigits(), b.column(), 61)
	b.whole("carry_point", parse.Cell{Measure: parse.CarryPoint}, 3, b.column(), 73)
}

// stations are the rows along the boat.
func (b *builder) stations() {
	pitch, hull := b.rowPitch(), tableHull
	if b.Unit == parse.Centimetre {
		hull = tableHullCM
	}
	for i := range b.Rows {
		b.page = 2 + i/RowsPerPage
		y := tableTop + float64(i%RowsPerPage)*pitch
		at := parse.Measured(float64(i+1)*b.Spacing.In(b.Unit), b.Unit)
		name := fmt.Sprintf("stations[%d].", i)
		b.whole(name+"hull_girth", parse.Cell{At: at, Measure: parse.HullGirth}, 3, b.left+hull+28, y)
		b.whole(name+"full_girth", parse.Cell{At: at, Measure: parse.FullGirth}, 3, b.left+tableFull+28, y)
	}
	b.page = 2
}

// rowPitch spreads the rows over the page, in steps of a quarter millimetre.
func (b *builder) rowPitch() float64 {
	rows := min(b.Rows, RowsPerPage)
	free := b.Height - tableEnd - tableTop - BoxHeight
	if rows == 1 {
		return loosestRows
	}
	return min(loosestRows, math.Floor(free/float64(rows-1)*4)/4)
}

// stern is the after end, with the pair of a square stern.
func (b *builder) stern() {
	b.tick(NamePointed, b.left, 98)
	b.tick(NameSquare, b.left+37, 98)
	b.whole("stern_height", parse.Cell{Measure: parse.SternHeight}, b.heightDigits(), b.column(), 107)
	b.whole("transom.hull_girth", parse.Cell{Measure: parse.TransomHullGirth}, 3, b.column(), 127)
	b.whole("transom.full_girth", parse.Cell{Measure: parse.TransomFullGirth}, 3, b.column(), 139)
}

// greatest is the pair where the boat is largest, and the opening as a control.
func (b *builder) greatest() {
	b.distance("greatest.at", parse.Cell{Measure: parse.GreatestAt}, b.column(), 170.5)
	b.whole("greatest.hull_girth", parse.Cell{Measure: parse.GreatestHullGirth}, 3, b.column(), 182.5)
	b.whole("greatest.full_girth", parse.Cell{Measure: parse.GreatestFullGirth}, 3, b.column(), 194.5)
	b.whole("greatest.opening", parse.Cell{Measure: parse.GreatestOpening}, 3, b.column(), 206.5)
}
