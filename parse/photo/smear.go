package photo

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"fairtape/parse/form"
)

// A printer that is not clean draws a line along the sheet, and a fold is one.
// In an empty box it looks like a 1. It shows between the rows, where no digit
// reaches from box to box.

const (
	// smearBand is how far from its middle what it leaves in a box lies, in pixels.
	smearBand = 3.0
	// smearSlope is how far it leans at most.
	smearSlope = 0.03
	// smearPlaces is in how many places, between rows or in boxes, it shows at least,
	// and sureSmear from how many it is surely none of the writing.
	smearPlaces = 4
	sureSmear   = 6
	// smearInk is how much darker it is than the paper beside it at least, as a
	// share of the pen, and likeAPen from how dark it may be a stroke after all.
	smearInk = 0.06
	likeAPen = 0.6
	// overUneven is how many deviations of the paper's ink that are no line.
	overUneven = 3.0
	// palestStroke is how dark a stroke is at least against the page's usual. In
	// 90 photographs by two renderers none of 5,600 digits was under 0.78, and
	// marks of the printer and folds lay between 0.5 and 0.7.
	palestStroke = 0.75
	// palestFigure is the same for what is no upright line. Of 10,000 digits by three
	// renderers one was under it, and what a wet thumb had drawn out over two boxes.
	palestFigure = 0.65
	// clearOfBoxes is how far from the boxes the paper between rows is looked at,
	// in mm.
	clearOfBoxes = 0.5
)

// smear is a line along the sheet: x = at + slope*y, in pixels, and in how many
// places it shows.
type smear struct {
	at, slope float64
	places    int
}

// smears finds the lines along the sheet that go through columns of boxes. usual
// is how dark the page's strokes are.
func (s *strokes) smears(boxes []placed, usual float64) []smear {
	columns := map[float64][]point{} // where a line shows, by the boxes' left side
	for i, a := range boxes {
		if p, ok := s.paleLine(a, i, usual); ok {
			columns[a.rect.X0] = append(columns[a.rect.X0], p)
		}
		for _, b := range boxes {
			apart := b.rect.Y0 - a.rect.Y1
			if math.Abs(a.rect.X0-b.rect.X0) < 0.1 && apart > 0 && apart < form.BoxClear+1 {
				columns[a.rect.X0] = append(columns[a.rect.X0], s.crossings(a.rectOf(), b.rectOf())...)
			}
		}
	}
	var found []smear
	for _, crossings := range columns {
		if best := straightest(crossings); best.places >= smearPlaces {
			found = append(found, best)
		}
	}
	return found
}

// paleLine is the middle of the ink of a box that holds but a pale upright line,
// which may be a part of one along the sheet.
func (s *strokes) paleLine(b placed, box int, usual float64) (middle point, ok bool) {
	c := s.inside[box]
	if c.dark >= palestStroke*usual || c.dark >= palestFigure*usual && s.endsWithin(b, c) {
		return point{}, false
	}
	x0, y0, x1, y1 := s.pixels(b.rectOf().Grow(-clearOfBoxes))
	var xs, weights []float64
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			if ink := s.ink[y*s.w+x]; ink > 0 {
				xs, weights = append(xs, float64(x)+0.5), append(weights, float64(ink))
			}
		}
	}
	if floats.Sum(weights) < emptyBox*perMM*perMM {
		return point{}, false
	}
	mean, deviation := stat.PopMeanStdDev(xs, weights)
	return point{mean, float64(y0+y1) / 2}, deviation <= smearBand
}

// endsWithin reports ink that ends well within its box above and below, as no line
// along the sheet does.
func (s *strokes) endsWithin(b placed, c content) bool {
	const within = 1.0 // mm
	_, top, _, bottom := s.pixels(b.rectOf().Grow(-within))
	return c.bounds.Min.Y >= top && c.bounds.Max.Y <= bottom
}

// crossings are the places where a line shows in the bare paper between a box
// and that below, from the one to the other.
func (s *strokes) crossings(above, below form.Rect) []point {
	x0, y0, x1, y1 := s.pixels(form.Rect{X0: min(above.X0, below.X0), Y0: above.Y1 + clearOfBoxes, X1: max(above.X1, below.X1), Y1: below.Y0 - clearOfBoxes})
	middle := (y0 + y1) / 2
	upper, lower := s.ridges(x0, x1, y0, middle), s.ridges(x0, x1, middle, y1)
	var found []point
	for i := range upper {
		here := min(upper[i], lower[i])
		first := i == 0 || here > min(upper[i-1], lower[i-1])
		last := i == len(upper)-1 || here >= min(upper[i+1], lower[i+1])
		if here > 0 && first && last {
			found = append(found, point{float64(x0+i) + 0.5, float64(middle)})
		}
	}
	return found
}

// ridges is how much darker each column of a stretch of paper is than that
// beside it; 0 where it is no darker than paper gets.
func (s *strokes) ridges(x0, x1, y0, y1 int) []float64 {
	const half, beside = 1, 6 // pixels of a line, and to the paper beside it
	mean := func(from, to int) float64 {
		sum, n := 0.0, 0
		for y := y0; y < y1; y++ {
			for x := max(from, 0); x <= min(to, s.w-1); x++ {
				sum += float64(s.ink[y*s.w+x])
				n++
			}
		}
		return sum / float64(max(n, 1))
	}
	out := make([]float64, x1-x0)
	var sizes []float64
	for i := range out {
		x := x0 + i
		paper := max(mean(x-beside-half, x-beside+half), mean(x+beside-half, x+beside+half))
		out[i] = mean(x-half, x+half) - paper
		sizes = append(sizes, math.Abs(out[i]))
	}
	if len(sizes) == 0 {
		return nil
	}
	slices.Sort(sizes)
	least := max(smearInk, overUneven*1.48*sizes[len(sizes)/2])
	for i := range out {
		if out[i] < least {
			out[i] = 0
		}
	}
	return out
}

// straightest is the line through two crossings that most of the others lie on.
func straightest(crossings []point) smear {
	var best smear
	for i, a := range crossings {
		for _, b := range crossings[i+1:] {
			if a.y == b.y {
				continue
			}
			line := smear{slope: (b.x - a.x) / (b.y - a.y)}
			line.at = a.x - line.slope*a.y
			if math.Abs(line.slope) > smearSlope {
				continue
			}
			for _, c := range crossings {
				if math.Abs(line.at+line.slope*c.y-c.x) <= smearBand/2 {
					line.places++
				}
			}
			if line.places > best.places {
				best = line
			}
		}
	}
	return best
}

// clearSmear takes out of a box, or doubts, what lies on a line along the sheet,
// where the box holds nothing else. An upright line much paler than the page's
// strokes usually are is doubted in any case.
func (s *strokes) clearSmear(p *patch, b placed, box int, smears []smear, usual float64) {
	const elsewhere = 0.1 // share of the ink that may lie beside the line
	x0, y0, x1, y1 := s.pixels(b.rectOf())
	_, pale := s.paleLine(b, box, usual)
	pale = pale || s.inside[box].few()
	switch {
	case s.noStrokes(box):
		p.doubt = max(p.doubt, noStroke)
	case pale:
		p.doubt = max(p.doubt, maybeLine)
	}
	for _, line := range smears {
		var on, off, most float32
		for y := y0; y < y1; y++ {
			row := float32(0)
			for x := x0; x < x1; x++ {
				switch at := line.at + line.slope*float64(y); {
				case math.Abs(float64(x)+0.5-at) <= smearBand:
					on += s.ink[y*s.w+x]
					row = max(row, s.ink[y*s.w+x])
				case s.pieces[y*s.w+x] > 0:
					off += s.ink[y*s.w+x]
				}
			}
			most += row / float32(y1-y0)
		}
		switch {
		case on == 0 || off > elsewhere*on:
		case pale || line.places >= sureSmear && most < likeAPen:
			clear(p.dark)
			p.whole = nil
		default:
			p.doubt = max(p.doubt, maybeLine)
		}
	}
}

// usualStrength is how dark the strokes in boxes of a kind are, the median, and
// how many of these have any.
func (s *strokes) usualStrength(boxes []placed, kind func(placed) bool) (median float64, inked int) {
	var all []float64
	for i, b := range boxes {
		if c := s.inside[i]; kind(b) && !c.few() {
			all = append(all, c.dark)
		}
	}
	if len(all) == 0 {
		return 0, 0
	}
	slices.Sort(all)
	return all[len(all)/2], len(all)
}
