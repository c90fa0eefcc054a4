package form

import "fairtape/parse"

// Sizes of what is printed, in millimetres. Boxes are as large as a page of 20
// stations allows: published digit boxes of 4 x 5 and 5 x 5 mm are too small
// for a phone photo of the whole page.
const (
	BoxWidth  = 8.0
	BoxHeight = 9.0
	BoxGap    = 2.0 // between the boxes of one number
	BoxClear  = 3.0 // bare paper around the boxes of a number
	TickSide  = 5.0
	RowPitch  = BoxHeight + BoxClear // least distance of two rows

	OutlineWidth = 0.3
	OutlineGrey  = 0x8C // of 255, each of red, green and blue: 3.36:1 on white (WCAG 2.2 asks for 3:1)

	MarkSide    = 7.0
	MarkInset   = 10.0 // printers at home leave up to 6.4 mm of an edge bare
	MarkClear   = 2.4
	EyeDiameter = 3.2

	CodeSide     = 26.0 // 1.04 mm a module at the 25 modules of a form's longest code
	SlipCodeSide = 38.0 // 1.03 mm a module at the 37 modules of a slip's longest code
	CodeClear    = 6.2  // at least 4 modules, of up to 1.52 mm (ISO/IEC 18004, 9.1)
)

// Rect is a rectangle on a page.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// Width and Height are the sides of the rectangle.
func (r Rect) Width() float64  { return r.X1 - r.X0 }
func (r Rect) Height() float64 { return r.Y1 - r.Y0 }

// Centre is the middle of the rectangle.
func (r Rect) Centre() (x, y float64) { return (r.X0 + r.X1) / 2, (r.Y0 + r.Y1) / 2 }

// Grow returns the rectangle with d added on all four sides.
func (r Rect) Grow(d float64) Rect { return Rect{r.X0 - d, r.Y0 - d, r.X1 + d, r.Y1 + d} }

// Overlaps reports whether two rectangles share more than an edge.
func (r Rect) Overlaps(o Rect) bool {
	return r.X0 < o.X1 && o.X0 < r.X1 && r.Y0 < o.Y1 && o.Y0 < r.Y1
}

// Union is the smallest rectangle that holds both.
func (r Rect) Union(o Rect) Rect {
	return Rect{min(r.X0, o.X0), min(r.Y0, o.Y0), max(r.X1, o.X1), max(r.Y1, o.Y1)}
}

// Kind is what a field is filled with.
type Kind string

// The kinds of fields.
const (
	Digits Kind = "digits" // one figure a box
	Tick   Kind = "tick"   // one box, crossed or ticked
	Text   Kind = "text"   // one box, words for a person
)

// Part is which part of a number a field holds, "" for a field that is no part
// of a number.
type Part string

// The parts of a number.
const (
	Feet   Part = "feet"
	Inches Part = "inches"
	Whole  Part = "whole" // inches or centimetres, by the unit of the paper
	Half   Part = "half"  // a tick: half an inch more
)

// Field is what a person fills in one go.
type Field struct {
	Page  int    // from 1
	Name  string // as in the JSON of a survey, with the part at the end: stations[3].hull_girth.half; a Whole has no part
	Kind  Kind
	Boxes []Rect // digits from the most significant one; else a single box

	Cell parse.Cell // the number it belongs to; its Measure is "" where there is none
	Part Part
	Try  int // on a slip 1 or 2; 0 on a form
}

// Bounds is the smallest rectangle that holds the boxes of the field.
func (f Field) Bounds() Rect {
	r := f.Boxes[0]
	for _, b := range f.Boxes[1:] {
		r = r.Union(b)
	}
	return r
}

// Mark is one of the four marks of a page.
type Mark struct {
	Box   Rect
	Solid bool // without an eye
}

// Page is what a page has for whoever finds it in a photo. Marks go clockwise
// from the top left.
type Page struct {
	Marks    [4]Mark
	Code     Rect // the modules, without the bare paper around
	CodeText string
}

// Layout is the geometry of one paper.
type Layout struct {
	Slip          bool
	Paper         Paper
	Unit          parse.Unit
	Spacing       parse.Length // of stations; 0 on a slip
	Rows          int          // of stations; 0 on a slip
	Job           int          // 0 when not known
	Width, Height float64
	Pages         []Page
	Fields        []Field // in the order in which they are filled
}

// Names of fields that are no part of a number.
const (
	NameCustomer    = "customer"
	NameTelephone   = "telephone"
	NameBoat        = "boat"
	NameUnderCover  = "under_cover"
	NameTapeChecked = "tape_checked"
	NameOpen        = "open"
	NameDecked      = "decked"
	NamePointed     = "stern.pointed"
	NameSquare      = "stern.square"

	NameNothingUnder   = "under_tape.nothing"
	NameSomethingUnder = "under_tape.something"
	NameUnderTape      = "under_tape"
)

// Compose is the length of a number from its parts: digits read as numbers,
// Half 1 when ticked and else 0. Missing parts count as 0.
func Compose(unit parse.Unit, parts map[Part]int) parse.Length {
	if unit == parse.Centimetre {
		return parse.Centimetres(float64(parts[Whole]))
	}
	return parse.Inches(float64(12*parts[Feet]+parts[Inches]+parts[Whole]) + float64(parts[Half])/2)
}

// solid says which marks of a page are solid, clockwise from the top left.
func solid(page int) [4]bool {
	return [4]bool{true, page >= 2, page >= 3, false}
}

// PageOf tells from which marks are solid, clockwise from any corner, which
// page it is and how many quarter turns clockwise bring its top left corner to
// the first place. ok is false for a pattern that no page has.
func PageOf(marks [4]bool) (page, turns int, ok bool) {
	for page = 1; page <= 3; page++ {
		for turns = range 4 {
			var turned [4]bool
			for i := range marks {
				turned[(i+turns)%4] = marks[i]
			}
			if turned == solid(page) {
				return page, turns, true
			}
		}
	}
	return 0, 0, false
}

// page is a page with its marks and code.
func newPage(width, height float64, number int, code Code, at Rect) Page {
	const near, far = MarkInset, MarkInset + MarkSide
	p := Page{Code: at, CodeText: code.String()}
	for i, box := range []Rect{
		{near, near, far, far},
		{width - far, near, width - near, far},
		{width - far, height - far, width - near, height - near},
		{near, height - far, far, height - near},
	} {
		p.Marks[i] = Mark{Box: box, Solid: solid(number)[i]}
	}
	return p
}
