package photo

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// Not all that lies in a box was written in it: the rim of a cup runs through
// boxes, and so do folds and strokes through rows that stay empty.

const (
	// tooFar is how far, in pixels, a digit goes on beyond its box at most, and
	// throughBoth how far a part of more both above and below.
	tooFar      = strokesReach * perMM
	throughBoth = 1.3 * perMM
	// longStroke is how long, in pixels, a piece of ink is at least that goes on from
	// number to number: two digits that touch take 21 mm.
	longStroke = 25 * perMM
	// straightBy is how far from its middle line the ink of a stroke lies, in pixels
	// and on average: the rim of a cup is 2 mm broad.
	straightBy = 0.7 * perMM
	// outAgain is how far from where its line goes on, in pixels, a stroke is seen
	// beyond a box.
	outAgain = 1.0 * perMM
	// beyondTick is how far beyond its box, in pixels and both ways, a tick goes at
	// most that is one stroke.
	beyondTick = 2.0 * perMM
	// levelHigh is how high a level line is at most, in pixels, and levelFlat how
	// many times as wide at least.
	levelHigh = 1.5 * perMM
	levelFlat = 2
)

// through reports a box whose ink goes on far beyond it, or is part of what goes
// on both above and below: the rim of a cup, a stroke down the page.
func (s *strokes) through(b placed, box int) bool {
	x0, y0, x1, y1 := s.pixels(b.rectOf())
	left, top, right, bottom, ok := s.extent(b, box, 1)
	if ok && float64(max(y0-top, bottom-y1, x0-left, right-x1)) > tooFar {
		return true
	}
	_, top, _, bottom, ok = s.extent(b, box, s.cut)
	return ok && float64(min(y0-top, bottom-y1)) > throughBoth
}

// long reports a piece that goes on from number to number.
func (s *strokes) long(piece int32) bool {
	b := s.bounds[s.uncut[piece]]
	return max(b.Dx(), b.Dy()) >= longStroke
}

// longAt reports a pixel of such a piece.
func (s *strokes) longAt(x, y int) bool {
	return x >= 0 && y >= 0 && x < s.w && y < s.h && s.long(s.pieces[y*s.w+x])
}

// holdsLong reports a box in which some of the ink is a part of such a piece.
func (s *strokes) holdsLong(b placed, box int) bool {
	const some = 0.2
	long := 0
	s.eachOwn(b, box, func(x, y int) {
		if s.longAt(x, y) {
			long++
		}
	})
	return !s.inside[box].few() && float64(long) >= some*float64(s.inside[box].pixels)
}

// passes reports a box that holds but a part of a long stroke, which goes in at
// one side and out at another.
func (s *strokes) passes(b placed, box int) bool {
	piece, ok := s.onePiece(b, box)
	return ok && s.long(piece) && s.straightThrough(b, box, piece, throughBoth) && s.asDarkOutside(b, box, piece)
}

// beyondBoth reports the box of a tick that holds but one stroke, too long for that.
func (s *strokes) beyondBoth(b placed, box int) bool {
	piece, ok := s.onePiece(b, box)
	return ok && s.straightThrough(b, box, piece, beyondTick)
}

// asDarkOutside reports a piece that is about as dark close to a box as in it: else
// something was written over it there.
func (s *strokes) asDarkOutside(b placed, box int, piece int32) bool {
	const darker = 1.25
	r := b.rectOf()
	x0, y0, x1, y1 := s.pixels(r.Grow(strokesReach))
	var outside []float64
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			at := point{(float64(x) + 0.5) / perMM, (float64(y) + 0.5) / perMM}
			if s.uncut[s.pieces[y*s.w+x]] == piece && distance(at, r) > 0 {
				outside = append(outside, float64(s.ink[y*s.w+x]))
			}
		}
	}
	return len(outside) > 0 && s.inside[box].dark <= darker*stat.Mean(outside, nil)
}

// onePiece is the piece that nearly all ink in a box is part of that may be its own.
func (s *strokes) onePiece(b placed, box int) (piece int32, ok bool) {
	const nearly = 0.95
	pixels := map[int32]int{}
	s.eachOwn(b, box, func(x, y int) { pixels[s.uncut[s.pieces[y*s.w+x]]]++ })
	for n, count := range pixels {
		if float64(count) >= nearly*float64(s.inside[box].pixels) {
			return n, true
		}
	}
	return 0, false
}

// eachOwn goes over the pixels of ink in a box that may be its own.
func (s *strokes) eachOwn(b placed, box int, f func(x, y int)) {
	x0, y0, x1, y1 := s.pixels(b.rectOf())
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			if n := s.pieces[y*s.w+x]; n > 0 && (s.owners[n] == box || s.owners[n] == nobody) {
				f(x, y)
			}
		}
	}
}

// straightThrough reports ink of a box that lies along one line and goes on so
// many pixels beyond it at both ends of that.
func (s *strokes) straightThrough(b placed, box int, piece int32, beyond float64) bool {
	if s.inside[box].few() {
		return false
	}
	var places []float64
	s.eachOwn(b, box, func(x, y int) { places = append(places, float64(x)+0.5, float64(y)+0.5) })
	var pc stat.PC
	all := mat.NewDense(len(places)/2, 2, places)
	if !pc.PrincipalComponents(all, nil) || math.Sqrt(pc.VarsTo(nil)[1]) > straightBy {
		return false
	}
	var ways mat.Dense
	pc.VectorsTo(&ways)
	middle := point{stat.Mean(mat.Col(nil, 0, all), nil), stat.Mean(mat.Col(nil, 1, all), nil)}
	way := point{ways.At(0, 0), ways.At(1, 0)}
	return s.goesOn(b, piece, middle, way, beyond) && s.goesOn(b, piece, middle, point{-way.x, -way.y}, beyond)
}

// goesOn reports that a piece is seen so many pixels beyond a box, where a line
// from its middle one way leads.
func (s *strokes) goesOn(b placed, piece int32, middle, way point, beyond float64) bool {
	at, r := middle, b.rectOf().Grow(beyond/perMM)
	for at.x >= r.X0*perMM && at.x < r.X1*perMM && at.y >= r.Y0*perMM && at.y < r.Y1*perMM {
		at = point{at.x + way.x, at.y + way.y}
	}
	for y := int(at.y - outAgain); y <= int(at.y+outAgain); y++ {
		for x := int(at.x - outAgain); x <= int(at.x+outAgain); x++ {
			if x >= 0 && y >= 0 && x < s.w && y < s.h && s.uncut[s.pieces[y*s.w+x]] == piece {
				return true
			}
		}
	}
	return false
}

// paleLevel reports a box that holds but a level line much paler than the page's
// strokes: a fold.
func (s *strokes) paleLevel(box int, usual float64) bool {
	c := s.inside[box]
	return !c.few() && c.dark < palestStroke*usual && float64(c.bounds.Dy()) <= levelHigh && c.bounds.Dx() >= levelFlat*c.bounds.Dy()
}
