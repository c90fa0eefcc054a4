// Package form is the geometry of the shop's own papers: the form on which a
// customer writes a survey, and the slip on which a few numbers are measured
// again. It says where every box, mark and code lies, what each is called, and
// what a photo of a page can tell about which page it is. What draws the papers
// and what reads photos of them both work from here, so they agree.
//
// # The pages
//
// All places are in millimetres from the top left corner of the paper. Page 1
// of a form explains how to measure and holds words (name, telephone, make and
// model, what stays under the cover) that a person of the shop reads as a
// picture. Page 2 holds every number and the ticks for deck and stern, so one
// photo of page 2 is a whole survey. Only a boat with more than RowsPerPage
// stations has a page 3, with the rows that are left. A slip has one page.
//
// # Marks
//
// Every page has a mark of MarkSide x MarkSide in each corner, MarkInset from
// both edges of the paper, with MarkClear of bare paper around it: a solid
// black square, or a black square with a round white eye of EyeDiameter in the
// middle. Which of the four are solid says which way is up and which page it
// is; the four patterns of a page under quarter turns are all different, and
// different from those of the other pages:
//
//	page   top left   top right   bottom right   bottom left
//	1      solid      eye         eye            eye
//	2      solid      solid       eye            eye
//	3      solid      solid       solid          eye
//
// A slip has the pattern of page 1; its code tells the two apart.
//
// # The code
//
// A QR code (ISO/IEC 18004, error correction Q, CodeClear of bare paper around
// it) fills Page.Code and holds a Code as text: version, kind, page, paper,
// unit, rows and job. Code.Layout gives the geometry of the paper back.
//
// # What is printed
//
// Black: marks, code, words, drawings. Grey (OutlineGrey): the outlines of all
// boxes, OutlineWidth wide, the middle of the line on the edge of the
// rectangle. Nothing is printed inside a box, nor within BoxClear of one,
// except that boxes of one number are BoxGap apart.
//
// # Values
//
// A number is written in one to three fields with the same Cell and Try, told
// apart by Part: Feet, then Inches, or Whole, and a tick Half for half an
// inch. Boxes run from the most significant digit; the last digit stands in
// the last box and boxes at the left may stay empty. Numbers in centimetres
// are Whole alone. Compose makes the length.
package form

import (
	"errors"
	"fmt"
	"math"

	"fairtape/parse"
)

// Version is the version of the geometry. It changes with any rectangle, and
// stands in the code of every page.
const Version = 1

// Paper is a size of paper, as scripts name it.
type Paper string

// The papers that homes have.
const (
	Letter Paper = "letter" // 215.9 x 279.4 mm (ANSI/ASME Y14.1, ANSI A)
	A4     Paper = "a4"     // 210 x 297 mm (ISO 216)
)

// Size returns width and height in millimetres, upright; Letter for any other
// name.
func (p Paper) Size() (width, height float64) {
	if p == A4 {
		return 210, 297
	}
	return 215.9, 279.4
}

// How many rows of stations there are.
const (
	RowsUnknown = 20 // for a boat whose length is not known
	RowsPerPage = 20 // 12 mm each, the height of Letter between its margins
	MostRows    = 2 * RowsPerPage
)

// Errors of a form that cannot be made.
var (
	ErrPaper   = errors.New("paper is neither letter nor a4")
	ErrUnit    = errors.New("unit is neither in nor cm")
	ErrRows    = errors.New("too many or too few stations for a form")
	ErrSpacing = errors.New("stations lie too near each other")
	ErrPlaces  = errors.New("too many or too few places for a slip")
)

// Spacing is the usual distance of stations: a foot, or 30 cm.
func Spacing(unit parse.Unit) parse.Length {
	if unit == parse.Centimetre {
		return parse.Centimetres(30)
	}
	return parse.Inches(12)
}

// Rows is how many stations a boat of this length overall has at the usual
// spacing. RowsUnknown for 0, a length that is not known.
func Rows(overall parse.Length, unit parse.Unit) int { return RowsEvery(overall, Spacing(unit)) }

// RowsEvery is Rows at another spacing: one station at every spacing short of
// the stern.
func RowsEvery(overall, spacing parse.Length) int {
	if overall == 0 {
		return RowsUnknown
	}
	// Lengths lie on a grid of a nanometre; less than that keeps 15 ft from
	// having a station at the very stern.
	const grid = 1e-6
	return int(math.Ceil(float64(overall/spacing)-grid)) - 1
}

// Spec is what a form is made for.
type Spec struct {
	Paper   Paper
	Unit    parse.Unit
	Spacing parse.Length // of the stations; 0 for the usual one, Spacing of the unit
	Rows    int          // stations, 1 to MostRows; see the function Rows
	Job     int          // 0 when not known
}

// leastSpacing is the least distance of two stations: nearer ones are no survey
// (common practice, no source).
const leastSpacing = 50 // mm

func (s Spec) check() error {
	if err := checkSheet(s.Paper, s.Unit); err != nil {
		return err
	}
	if s.Spacing != 0 && s.Spacing < leastSpacing {
		return fmt.Errorf("%w: %v mm", ErrSpacing, float64(s.Spacing))
	}
	if s.Rows < 1 || s.Rows > MostRows {
		return fmt.Errorf("%w: %d, possible are 1 to %d", ErrRows, s.Rows, MostRows)
	}
	return nil
}

func checkSheet(paper Paper, unit parse.Unit) error {
	if paper != Letter && paper != A4 {
		return fmt.Errorf("%w: %q", ErrPaper, paper)
	}
	if unit != parse.Inch && unit != parse.Centimetre {
		return fmt.Errorf("%w: %q", ErrUnit, unit)
	}
	return nil
}
