package photo

import (
	"fmt"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/parse/table"
)

// free reads a table of numbers on a paper that is not ours: printed or written
// by hand, ruled or plain. Words are not read, so that its columns are told
// apart by their numbers alone, by parse/table. ok is false where that cannot
// be done; then all is left to a person, as everything beside the table always is.
func (r *Reader) free(file string, p *Picture) (doc parse.Document, ok bool) {
	k := max(1, max(p.light.w, p.light.h)/freeSide)
	page := newStandingPage(p.light.shrink(k))
	if k > 1 && page.height > 0 && page.height < finePrint {
		page = newStandingPage(p.light.shrink(k / 2))
	}
	if doc, ok := r.freeOn(file, page, p); ok {
		return doc, true
	}
	if sheet, ok := onSheet(page.picture); ok {
		return r.freeOn(file, newStandingPage(sheet), p)
	}
	return parse.Document{}, false
}

// finePrint is the height of digits, in pixels, under which a picture is looked
// at twice as closely where it can be.
const finePrint = 16.0

// freeOn reads a table on a page, whichever way up it is.
func (r *Reader) freeOn(file string, page standingPage, p *Picture) (doc parse.Document, ok bool) {
	if !page.ok || page.text() {
		return parse.Document{}, false
	}
	const plain = 0.6 // how legible a page is that stands or is upside down
	best, over := r.stands(page)
	if best < plain {
		if beside := page.beside(); beside.ok {
			if legible, upsideDown := r.stands(beside); legible > best {
				page, over = beside, upsideDown
			}
		}
	}
	ways := []int{page.turned, page.turned + 2} // the likelier first
	if over {
		slices.Reverse(ways)
	}
	glances := 0
	for _, way := range ways {
		upright := page.freePage
		if way != page.turned {
			if upright, ok = newFreePage(page.picture.quarter(way)); !ok {
				continue
			}
		}
		if doc, ok := r.tableOn(file, upright, way, p, &glances); ok {
			return doc, true
		}
	}
	return parse.Document{}, false
}

// tableOn reads the table of a page that stands upright.
func (r *Reader) tableOn(file string, page *freePage, turned int, p *Picture, glances *int) (doc parse.Document, ok bool) {
	lines, ok := r.lines(page, glances)
	if !ok {
		return parse.Document{}, false
	}
	face := faceOf(page, lines)
	t, ok := tableFrom(lines, page.height, closer{page, face, r.digits.Read, r.digits.Glance, page.usualWidth()})
	if !ok {
		return parse.Document{}, false
	}
	doubtCut(t.cells, page.large, page.straight.w, page.height)
	grid := table.Grid{}
	at := map[string]*freeCell{}
	for _, cells := range t.cells {
		var line []table.Cell
		for j := range cells {
			c := &cells[j]
			place := ""
			if c.text != "" {
				place = page.place(c.bounds, turned, p)
				at[place] = c
			}
			cell := table.Cell{Text: c.text, Place: place}
			if c.text != "" && c.sure <= touching {
				cell.Code = parse.CodeDoubtful // it says nothing of what its column holds
			}
			line = append(line, cell)
		}
		grid.Rows = append(grid.Rows, line)
	}
	doc = table.Read(file, []table.Grid{grid})
	if len(doc.Surveys) != 1 || doc.Surveys[0].Readings() < 2*fewestRows {
		return parse.Document{}, false
	}
	doc.Problems = slices.DeleteFunc(doc.Problems, func(p parse.Problem) bool { return p.Code == parse.CodeDoubtful && at[p.Source.Place] != nil })
	survey := &doc.Surveys[0]
	survey.Each(func(reading *parse.Reading) {
		if c := at[reading.Source.Place]; c != nil {
			c.fill(reading, survey.Unit)
		}
	})
	if unclear := unclear(survey, t, doc.Problems, at); unclear != "" {
		return parse.Document{File: file, Problems: []parse.Problem{{Code: CodeNoPage, Source: parse.Source{File: file}, Message: unclear + " A person has to read it."}}}, true
	}
	doubtPairs(survey)
	doc.Problems = append(doc.Problems, doubts(survey, doc.Problems)...)
	for i, p := range doc.Problems {
		if c := at[p.Source.Place]; c != nil {
			doc.Problems[i].Shown = page.crop(c.bounds)
		}
	}
	doc.Problems = append(doc.Problems, parse.Problem{Code: CodeNoPage, Source: parse.Source{File: file},
		Message: "Only a table of numbers in the picture was read, without its words. A person has to look at the rest."})
	return doc, true
}

// fewestRows is the least number of rows of a table that is read.
const fewestRows = 4

// freeSide is the least longer side, in pixels, of the picture in which free
// tables are read: on a page that fills it a digit of 4 mm has 23 pixels.
const freeSide = 1700

// standingPage is the page of a picture whose signs are higher than wide, and the
// quarters, clockwise, by which the picture was turned for it; it may still be
// upside down. ok is false for one that cannot be read.
type standingPage struct {
	*freePage
	picture *plane
	turned  int
	ok      bool
}

func newStandingPage(picture *plane) standingPage {
	s := standingPage{picture: picture}
	if s.freePage, s.ok = newFreePage(picture); s.ok && s.lying() {
		s.turned = 1
		s.freePage, s.ok = newFreePage(picture.quarter(s.turned))
	}
	return s
}

// beside is the page turned by a quarter more: written in narrow digits, one that
// lies may look as if it stood.
func (s standingPage) beside() standingPage {
	s.turned++
	s.freePage, s.ok = newFreePage(s.picture.quarter(s.turned))
	return s
}

// stands is how legible a page is the way that it is more so, and whether that is
// upside down.
func (r *Reader) stands(page standingPage) (legible float64, over bool) {
	upright, turned := r.legible(page.freePage, false), r.legible(page.freePage, true)
	return max(upright, turned), turned > upright
}

// sampled is how many shapes are read to see which way up they stand.
const sampled = 24

// legible is how surely the shapes of a page are digits, on the whole, as it
// stands or upside down.
func (r *Reader) legible(page *freePage, over bool) float64 {
	sum, n := 0.0, 0
	for i := 0; i < len(page.shapes); i += max(1, len(page.shapes)/sampled) {
		if s := page.shapes[i]; page.isGlyph(s) {
			b := page.box(s)
			if over {
				slices.Reverse(b[:])
			}
			_, p := r.digits.Glance(b).Best()
			sum += p
			n++
		}
	}
	return sum / float64(max(n, 1))
}

// quarter returns the picture turned clockwise by quarters.
func (p *plane) quarter(turns int) *plane {
	for range turns % 4 {
		out := newPlane(p.h, p.w)
		for y := range p.h {
			for x := range p.w {
				out.pix[x*out.w+p.h-1-y] = p.pix[y*p.w+x]
			}
		}
		p = out
	}
	return p
}

// place names a rectangle of the straightened page by the pixels of the upright
// picture.
func (f *freePage) place(b box, turned int, p *Picture) string {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	scale := float64(p.factor) * float64(max(p.light.w, p.light.h)) / float64(max(f.light.w, f.light.h))
	for _, c := range [4]point{{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}} {
		q := f.lie.point(c)
		w, h := float64(f.light.w), float64(f.light.h)
		for range turned % 4 { // back, anticlockwise
			q, w, h = point{q.y, w - q.x}, h, w
		}
		x0, y0, x1, y1 = min(x0, q.x), min(y0, q.y), max(x1, q.x), max(y1, q.y)
	}
	return fmt.Sprintf("pixels %.0f,%.0f-%.0f,%.0f", x0*scale, y0*scale, x1*scale, y1*scale)
}

// crop is what the straightened page shows of a rectangle, with a little around.
func (f *freePage) crop(b box) *parse.Crop {
	around := f.height / 2
	x0, y0 := max(int(b.x0-around), 0), max(int(b.y0-around), 0)
	x1, y1 := min(int(b.x1+around), f.straight.w), min(int(b.y1+around), f.straight.h)
	c := &parse.Crop{Width: x1 - x0, Height: y1 - y0}
	for y := y0; y < y1; y++ {
		c.Grey = append(c.Grey, f.straight.pix[y*f.straight.w+x0:y*f.straight.w+x1]...)
	}
	return c
}
