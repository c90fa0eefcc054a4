package photo

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/digits"
	"fairtape/parse/form"
)

// Problems of pages that were read.
const (
	CodeOutside parse.Code = "ink-outside" // something is written outside the boxes
)

// Reader reads photos of the shop's papers. It may be used by several
// goroutines at once.
type Reader struct {
	digits *digits.Reader
}

// NewReader returns a Reader. Its error is that of digits.NewReader.
func NewReader() (*Reader, error) {
	d, err := digits.NewReader()
	if err != nil {
		return nil, fmt.Errorf("load the number reader: %w", err)
	}
	return &Reader{d}, nil
}

// Page is one page of the shop's own that was found in a photo.
type Page struct {
	Code  form.Code
	Cells []Cell             // the numbers that something is written for
	Ticks map[string]float64 // how probably boxes that are no part of a number are ticked, by name
	Notes []parse.Problem    // what else is written on it
	view  *view
	boxes []placed
}

// Cell is one number as it was read, with the rectangle of the page it stands
// in, in millimetres.
type Cell struct {
	Cell    parse.Cell
	Try     int // 0 on a form
	Reading parse.Reading
	Bounds  form.Rect
}

// Read says what is written on the page that a picture shows. What cannot be
// read is a problem of the document; a picture without a page of ours is one
// problem, and no survey.
func (r *Reader) Read(file string, p *Picture) parse.Document {
	return r.ReadAll(file, []*Picture{p}, 0)
}

// Page finds the page in a picture and reads it. The error is a *Fault: why the
// photo cannot do, and what would.
func (r *Reader) Page(file string, p *Picture) (*Page, error) {
	v, err := find(p)
	if err != nil {
		return nil, err
	}
	straight := v.straight(v.whole(), perMM)
	paper := newPaper(straight)
	page := &Page{Code: v.code, view: v, boxes: register(straight, v.layout, v.code.Page)}
	patches, ink, strokes := v.written(page.boxes, straight, paper)
	boxes := r.figures(page, patches, ink, strokes)
	struck := page.struckOut(boxes)
	r.fill(file, p, page, patches, ink, writing{
		boxes: boxes, anew: r.rewritten(page, paper, strokes, boxes, struck),
		stray: page.outside(straight, paper, ink, strokes, struck),
	})
	if page.hopeless() {
		if why := v.whyUnread(); why.Code != CodeNoCode {
			return nil, why
		}
	}
	return page, nil
}

// hopeless reports a page on which most numbers are doubtful: rather another
// photo than a person who reads them all.
func (page *Page) hopeless() bool {
	const few = 6
	doubtful := 0
	for _, c := range page.Cells {
		if c.Reading.Doubtful() {
			doubtful++
		}
	}
	return len(page.Cells) >= few && 2*doubtful > len(page.Cells)
}

// writing is what is seen on a page, before it is put together to numbers.
type writing struct {
	boxes []figure         // by box of the page; none for a tick
	anew  map[int][]figure // of numbers that were crossed out and written again, by field
	stray map[int]float64  // ink around the boxes, by field
}

// figures reads every digit box of the page.
func (r *Reader) figures(page *Page, patches []*patch, ink inkLevels, strokes *strokes) []figure {
	out := make([]figure, len(patches))
	var dashes []int
	passing := map[int]bool{}
	for i, b := range page.boxes {
		passing[i] = strokes.passes(b, i)
		if page.view.layout.Fields[b.field].Kind == form.Digits {
			out[i] = r.figure(patches[i], ink)
			if out[i].Unreadable < struckFrom && strokes.holdsLong(b, i) {
				out[i] = doubted(out[i], maybeLine)
			}
			if strokes.dash(b, i) {
				dashes = append(dashes, i)
			}
		}
	}
	dashed(out, dashes)
	page.passedOver(out, patches, passing)
	return out
}

// passedOver takes numbers for not written that only long strokes go by. Beside
// figures a stroke that goes by may yet hide one.
func (page *Page) passedOver(boxes []figure, patches []*patch, passing map[int]bool) {
	type number struct {
		cell parse.Cell
		try  int
	}
	numberOf := func(i int) number {
		f := page.view.layout.Fields[page.boxes[i].field]
		return number{f.Cell, f.Try}
	}
	written := map[number]bool{}
	for i, b := range page.boxes {
		if page.view.layout.Fields[b.field].Kind == form.Digits && boxes[i].Blank < 0.5 && !passing[i] {
			written[numberOf(i)] = true
		}
	}
	for i, b := range page.boxes {
		switch {
		case !passing[i] || written[numberOf(i)]:
		case page.view.layout.Fields[b.field].Kind == form.Digits:
			boxes[i] = doubted(boxes[i], noFigure)
		default:
			patches[i].doubt = noFigure
		}
	}
}

// fill reads every cell of the page.
func (r *Reader) fill(file string, p *Picture, page *Page, patches []*patch, ink inkLevels, w writing) {
	l := page.view.layout
	usual := usualOutline(page.boxes)
	type key struct {
		cell parse.Cell
		try  int
	}
	entries := map[key]*entry{}
	bounds := map[key]form.Rect{}
	outlines := map[key][]float64{} // of the boxes of each cell
	numbers := page.numbers(w.boxes)
	hand := habitOf(numbers)
	beside := map[key]bool{} // something is written there
	var order []key
	page.Ticks = map[string]float64{}
	for i, b := range page.boxes {
		f := l.Fields[b.field]
		k := key{f.Cell, f.Try}
		if f.Cell.Measure != "" {
			if entries[k] == nil {
				entries[k] = &entry{parts: map[form.Part]number{}, reach: page.reachOf(f.Cell.Measure, w.boxes)}
				order = append(order, k)
				bounds[k] = b.rectOf()
			}
			bounds[k] = bounds[k].Union(b.rectOf())
			outlines[k] = append(outlines[k], b.outline/usual)
		}
		switch {
		case f.Kind == form.Digits:
			if b.box > 0 {
				continue
			}
			number := numbers[b.field]
			if anew, ok := w.anew[b.field]; ok {
				number, beside[k] = anew, true
			}
			entries[k].parts[f.Part] = numberOf(number, hand)
		case f.Part == form.Half:
			entries[k].half, entries[k].ticks = tickOf(patches[i], ink), true
		default:
			page.Ticks[f.Name] = tickOf(patches[i], ink)
		}
	}
	for i, amount := range w.stray {
		if f := l.Fields[i]; amount >= strayInk {
			beside[key{f.Cell, f.Try}] = true
		}
	}
	for _, k := range order {
		entries[k].sound = soundness(outlines[k])
		c := Cell{Cell: k.cell, Try: k.try, Reading: entries[k].reading(l.Unit), Bounds: bounds[k]}
		place := page.view.place(c.Bounds, p.factor)
		if beside[k] {
			c.Reading = unsure(c.Reading)
			page.noteOutside(file, place, c.Bounds)
		}
		if !c.Reading.Absent() {
			c.Reading.Source.File, c.Reading.Source.Place = file, place
			page.Cells = append(page.Cells, c)
		}
	}
}

// Ink of a digit box, in square millimetres. A 1 of a fine ball-point has 1.5.
const (
	// emptyBox is the ink below which a box is empty without asking the number
	// reader: a dot of a pen.
	emptyBox = 0.25
	// written is the ink well inside a box from which it is not empty, whatever
	// the number reader says: it sees no place, so that a plain 1 looks to it
	// like what is left of an outline.
	written = 0.5
	// wellInside is how far from the outline that ink lies, in mm.
	wellInside = 0.75
	// emptyAfterAll is what is left of the reader's belief that such a box is
	// empty.
	emptyAfterAll = 1e-3
)

func (r *Reader) figure(p *patch, l inkLevels) figure {
	box := p.given(l)
	if box == nil {
		return figure{Blank: 1}
	}
	f := r.digits.Read(box)
	if p.doubt > 0 {
		return doubted(f, p.doubt)
	}
	if p.ink(l, wellInside) >= written {
		return inked(f)
	}
	return f
}

// How much what is in a box is doubted to be written there.
const (
	maybeLine = 0.5 // a line through the sheet, or a stroke
	// noStroke is for ink of which hardly any is a third as dark as the page's
	// strokes. None of 5,600 digits was under three quarters.
	noStroke = 0.9
	// noFigure is for what is no figure: a part of a stroke through several
	// numbers, a pale level line.
	noFigure = 0.99
)

// doubted believes a figure to be there or not.
func doubted(f figure, doubt float64) figure {
	f.Unreadable *= 1 - doubt
	for d := range f.Digit {
		f.Digit[d] *= 1 - doubt
	}
	f.Blank = doubt + (1-doubt)*f.Blank
	return f
}

// inked takes what the number reader saw for no empty box, though a plain 1 looks
// to it like what is left of an outline.
func inked(f figure) figure { return weaker(f, emptyAfterAll, 1) }

// weaker leaves shares of the belief that there is nothing, and that nobody can
// read what there is.
func weaker(f figure, blank, unreadable float64) figure {
	rest := 1 - f.Blank*(1-blank) - f.Unreadable*(1-unreadable)
	f.Blank *= blank / rest
	f.Unreadable *= unreadable / rest
	for d := range f.Digit {
		f.Digit[d] /= rest
	}
	return f
}

// Ink of a tick, in square millimetres of its box of 25: a short thin stroke
// has 0.7, a cross with a felt pen 8.
const (
	noTick    = 0.15
	faintTick = 0.6
	fullTick  = 14 // of 16 well inside: blackened: a tick, or one taken back
)

// tickOf is the probability that a box is ticked.
func tickOf(p *patch, l inkLevels) float64 {
	ink := p.ink(l, 0.5)
	switch {
	case ink <= noTick:
		return 0
	case p.doubt > 0:
		return 1 - p.doubt
	case ink < faintTick:
		return (ink - noTick) / (faintTick - noTick)
	case ink > fullTick:
		return 0.5
	}
	return 1
}

// soundness is how sure it is that the boxes of a cell are where they seem to
// be, from how well their outlines are seen beside those of the other boxes. Ink
// hides an outline, a thick tick half of it; but boxes side by side do not move
// apart.
func soundness(outlines []float64) float64 {
	const least, enough = 0.3, 0.6
	mean := 0.0
	for _, o := range outlines {
		mean += o / float64(len(outlines))
	}
	return min(max((mean-least)/(enough-least), 0.5), 1)
}

// usualOutline is how well the outlines of a page are seen: the median.
func usualOutline(boxes []placed) float64 {
	var seen []float64
	for _, b := range boxes {
		seen = append(seen, b.outline)
	}
	slices.Sort(seen)
	if len(seen) == 0 {
		return 1
	}
	return max(seen[len(seen)/2], 1e-6)
}

// place names a rectangle of the page by the pixels of the upright picture.
func (v *view) place(r form.Rect, factor int) string {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, c := range []point{{r.X0, r.Y0}, {r.X1, r.Y0}, {r.X1, r.Y1}, {r.X0, r.Y1}} {
		p := v.h.point(c)
		x0, y0, x1, y1 = min(x0, p.x), min(y0, p.y), max(x1, p.x), max(y1, p.y)
	}
	f := float64(factor)
	return fmt.Sprintf("pixels %.0f,%.0f-%.0f,%.0f", x0*f, y0*f, x1*f, y1*f)
}

// Survey lays the numbers into a survey.
func (page *Page) Survey() parse.Survey {
	s := parse.Survey{Unit: page.Code.Unit, Stern: parse.Pointed}
	s.Decked = page.Ticks[form.NameDecked] > 0.5
	if page.Ticks[form.NameSquare] > 0.5 {
		s.Stern = parse.Square
	}
	cells, _ := settled(page.Cells, page.Code.Unit)
	for _, c := range cells {
		if r := readingOf(&s, c.Cell); r != nil {
			*r = c.Reading
		}
	}
	slices.SortStableFunc(s.Stations, func(a, b parse.Station) int { return int(a.At - b.At) })
	return s
}

func (page *Page) document(file string) parse.Document {
	doc := parse.Document{File: file, Problems: slices.Clone(page.Notes), Job: page.Code.Job}
	if len(page.Cells) > 0 {
		doc.Surveys = []parse.Survey{page.Survey()}
	}
	cells, differing := settled(page.Cells, page.Code.Unit)
	for _, p := range differing {
		i := slices.IndexFunc(cells, func(c Cell) bool { return c.Reading.Source == p.Source })
		p.Shown = page.view.crop(cells[i].Bounds)
		doc.Problems = append(doc.Problems, p)
	}
	for _, c := range cells {
		differs := slices.ContainsFunc(differing, func(p parse.Problem) bool { return p.Source == c.Reading.Source })
		if c.Reading.Doubtful() && !differs {
			doc.Problems = append(doc.Problems, parse.Problem{Code: parse.CodeDoubtful, Source: c.Reading.Source, Message: c.doubt(page.Code.Unit), Shown: page.view.crop(c.Bounds)})
		}
	}
	return doc
}

func (c Cell) doubt(unit parse.Unit) string {
	var values []string
	if c.Reading.Known {
		values = append(values, fmt.Sprint(c.Reading.Value.In(unit)))
	}
	for _, a := range c.Reading.Alternatives[:min(len(c.Reading.Alternatives), 2)] {
		values = append(values, fmt.Sprint(a.Value.In(unit)))
	}
	if len(values) == 0 {
		return "A number here cannot be read."
	}
	return "This number cannot be read surely; it may be " + strings.Join(values, " or ") + "."
}
