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
	small := p.light.shrink(max(1, max(p.light.w, p.light.h)/freeSide))
	page, turned, ok := newStandingPage(small)
	if !ok {
		return parse.Document{}, false
	}
	ways := []int{turned, turned + 2} // the likelier first
	if r.legible(page, true) > r.legible(page, false) {
		slices.Reverse(ways)
	}
	for _, way := range ways {
		upright := page
		if way != turned {
			if upright, ok = newFreePage(small.quarter(way)); !ok {
				continue
			}
		}
		if doc, ok := r.tableOn(file, upright, way, p); ok {
			return doc, true
		}
	}
	return parse.Document{}, false
}

// tableOn reads the table of a page that stands upright.
func (r *Reader) tableOn(file string, page *freePage, turned int, p *Picture) (doc parse.Document, ok bool) {
	rows := r.numbers(page)
	cells := columnsOf(rows, page.height)
	if len(cells) < fewestRows {
		return parse.Document{}, false
	}
	settleStations(cells)
	doubtStrays(cells)
	grid := table.Grid{}
	at := map[string]*freeCell{}
	for i := range cells {
		var line []table.Cell
		for j := range cells[i] {
			c := &cells[i][j]
			place := ""
			if c.text != "" {
				place = page.place(c.bounds, turned, p)
				at[place] = c
			}
			cell := table.Cell{Text: c.text, Place: place}
			if c.text != "" && c.sure < parse.Sure {
				cell.Code = CodeOtherPaper // it says nothing of what its column holds
			}
			line = append(line, cell)
		}
		grid.Rows = append(grid.Rows, line)
	}
	doc = table.Read(file, []table.Grid{grid})
	if len(doc.Surveys) != 1 || doc.Surveys[0].Readings() < 2*fewestRows {
		return parse.Document{}, false
	}
	for i, p := range doc.Problems {
		if c := at[p.Source.Place]; c != nil {
			doc.Problems[i].Shown = page.crop(c.bounds)
		}
	}
	doc.Surveys[0].Each(func(reading *parse.Reading) {
		c := at[reading.Source.Place]
		if c == nil {
			return
		}
		if reading.Certain() && c.sure >= parse.Sure {
			// No rate of silent errors on other papers is known yet.
			doc.Problems = append(doc.Problems, parse.Problem{
				Code: CodeOtherPaper, Source: reading.Source, Shown: page.crop(c.bounds),
				Message: "This was read from a table on other paper; a person has to compare it with the picture.",
			})
		}
		reading.Confidence = min(reading.Confidence, c.sure, justUnsure)
	})
	doc.Problems = append(doc.Problems, parse.Problem{Code: CodeNoPage, Source: parse.Source{File: file},
		Message: "Only a table of numbers in the picture was read, without its words. A person has to look at the rest."})
	return doc, true
}

// fewestRows is the least number of rows of a table that is read.
const fewestRows = 4

// freeSide is the least longer side, in pixels, of the picture in which free
// tables are read: on a page that fills it a digit of 4 mm has 23 pixels.
const freeSide = 1700

// newStandingPage is the page of a picture whose signs are higher than wide, and
// the quarters, clockwise, by which the picture was turned for it; it may still
// be upside down.
func newStandingPage(light *plane) (page *freePage, turned int, ok bool) {
	if page, ok = newFreePage(light); ok && page.lying() {
		turned = 1
		page, ok = newFreePage(light.quarter(turned))
	}
	return page, turned, ok
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
			_, p := r.digits.Read(b).Best()
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

// settleStations gives unsure numbers of the stations' column what its even steps
// say. The column is the first whose numbers rise evenly in nearly all rows.
func settleStations(cells [][]freeCell) {
	const most = 0.7 // of the rows that have to say so
	for j := range cells[0] {
		for _, pair := range [][2]int{{0, 1}, {1, 2}, {0, 2}, {len(cells) - 2, len(cells) - 1}} {
			a, okA := cells[pair[0]][j].value()
			b, okB := cells[pair[1]][j].value()
			step := (b - a) / float64(pair[1]-pair[0])
			if !okA || !okB || step <= 0 {
				continue
			}
			fits, sure := 0, 0
			for i := range cells {
				v, ok := cells[i][j].value()
				if ok && math.Abs(v-a-step*float64(i-pair[0])) < 1e-6 {
					fits++
					if cells[i][j].sure >= parse.Sure {
						sure++
					}
				}
			}
			if sure < fewestRows || float64(fits) < most*float64(len(cells)) {
				continue
			}
			for i := range cells {
				if c := &cells[i][j]; c.text != "" && c.sure < parse.Sure {
					c.text, c.sure = fmt.Sprint(a+step*float64(i-pair[0])), 1
				}
			}
			return
		}
	}
}

// doubtStrays doubts numbers that are far from their neighbours above and below:
// a point that was not seen, or a speck taken for one.
func doubtStrays(cells [][]freeCell) {
	const far = 1.8 // times, or less than its inverse
	for j := range cells[0] {
		for i := range cells {
			v, ok := cells[i][j].value()
			var near []float64
			for _, k := range []int{i - 2, i - 1, i + 1, i + 2} {
				if k < 0 || k >= len(cells) {
					continue
				}
				if o, ok := cells[k][j].value(); ok {
					near = append(near, o)
				}
			}
			slices.Sort(near)
			if !ok || len(near) == 0 || j == 0 {
				continue
			}
			middle := near[len(near)/2]
			if v > far*middle || v < middle/far {
				cells[i][j].sure = min(cells[i][j].sure, 0.5)
			}
		}
	}
}
