// Package nest lays pieces of cloth on a roll: their true outlines, turned half
// round or not and slid together. Pieces keep the grain along the roll and their
// face up: nothing is flipped, and nothing is turned by any other angle.
//
// Pieces are compared column by column along the roll, each column taken at its
// widest, so that pieces laid side by side never overlap: over half inches while
// the best order is sought, over eighths when it is laid. The same pieces
// always lie the same way.
package nest

import (
	"errors"
	"fmt"
	"math"
)

// Point is a place on flat cloth, in inches.
type Point struct{ X, Y float64 }

// Piece is a piece of cloth, its outline closed, the grain along X.
type Piece struct {
	Name    string
	Outline []Point
}

// Placed says where a piece lies: its outline turned half round about the
// origin when Turned, then moved by At. X runs along the roll from its cut end,
// Y across it from one edge of the usable width.
type Placed struct {
	Piece  int
	Turned bool
	At     Point
}

// Outline returns the outline of the piece where it lies.
func (p Placed) Outline(pieces []Piece) []Point {
	out := make([]Point, len(pieces[p.Piece].Outline))
	for i, q := range pieces[p.Piece].Outline {
		if p.Turned {
			q = Point{-q.X, -q.Y}
		}
		out[i] = Point{q.X + p.At.X, q.Y + p.At.Y}
	}
	return out
}

// Layout is how pieces lie on the roll.
type Layout struct {
	Width  float64 // usable, inches
	Length float64 // running length that is used up, inches
	Placed []Placed
	Area   float64 // of the pieces, square inches
}

// Use returns the share of the used cloth that the pieces are.
func (l Layout) Use() float64 {
	if l.Length == 0 {
		return 0
	}
	return l.Area / (l.Length * l.Width)
}

// ErrTooWide is wrapped when a piece is wider than the roll.
var ErrTooWide = errors.New("wider than the roll")

// Clearance is what is left between two pieces for the shears, in inches.
const Clearance = 0.125

// How finely outlines are compared, in inches along the roll: while orders are
// tried, and when the best one is laid.
const (
	coarse = 0.5
	fine   = 1.0 / 8
)

// Area returns the area inside a closed outline.
func Area(outline []Point) float64 {
	twice := 0.0
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		twice += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(twice) / 2
}

// bounds returns the corners of the box around an outline.
func bounds(outline []Point) (least, most Point) {
	least, most = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range outline {
		least = Point{math.Min(least.X, p.X), math.Min(least.Y, p.Y)}
		most = Point{math.Max(most.X, p.X), math.Max(most.Y, p.Y)}
	}
	return least, most
}

// check refuses pieces that do not fit on the roll at all.
func check(pieces []Piece, width float64) error {
	for _, p := range pieces {
		least, most := bounds(p.Outline)
		if wide := most.Y - least.Y; wide > width {
			return fmt.Errorf("%s is %.1f in wide, the roll %.1f in: %w", p.Name, wide, width, ErrTooWide)
		}
	}
	return nil
}

// Boxes lays the boxes around the pieces: abreast where they fit, else end to
// end, in the order given. It is what a layout is compared with.
func Boxes(pieces []Piece, width float64) (Layout, error) {
	if err := check(pieces, width); err != nil {
		return Layout{}, err
	}
	l := Layout{Width: width}
	var across, start float64
	for i, p := range pieces {
		least, most := bounds(p.Outline)
		wide, long := most.Y-least.Y, most.X-least.X
		if across > 0 && across+Clearance+wide > width {
			start, across = l.Length+Clearance, 0
		}
		if across > 0 {
			across += Clearance
		}
		l.Placed = append(l.Placed, Placed{Piece: i, At: Point{start - least.X, across - least.Y}})
		across += wide
		l.Length = math.Max(l.Length, start+long)
		l.Area += Area(p.Outline)
	}
	return l, nil
}
