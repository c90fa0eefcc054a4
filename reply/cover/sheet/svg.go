package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strings"

	"fairtape/reply/cover"
)

// placed is a panel on a drawing at true scale, in millimetres, Y down.
type placed struct {
	panel cover.Panel
	dx    float64
	dy    float64
}

// gap is left between drawings at true scale, and around them, in millimetres.
const gap = 40.0

// stack lays the panels one below the other at true scale and returns the size
// of the drawing.
func stack(s *cover.CutSheet) (all []placed, w, h float64) {
	check, _ := checkLength(s)
	w, h = check, 2*gap+10
	for _, panel := range s.Panels {
		least, most := bounds(shownAll(panel, panel.Cut))
		all = append(all, placed{panel, gap - least.X*mmPerInch, h + most.Y*mmPerInch})
		w = max(w, (most.X-least.X)*mmPerInch)
		h += (most.Y-least.Y)*mmPerInch + gap
	}
	return all, w + 2*gap, h
}

// at returns a point of the panel on the drawing.
func (p placed) at(q Point) Point {
	q = shown(p.panel, q)
	return Point{X: p.dx + q.X*mmPerInch, Y: p.dy - q.Y*mmPerInch}
}

func (p placed) all(points []Point) []Point {
	out := make([]Point, len(points))
	for i, q := range points {
		out[i] = p.at(q)
	}
	return out
}

// figure is a line or a text of a drawing at true scale.
type figure struct {
	layer  string
	line   []Point
	closed bool
	text   string // at line[0]
	size   float64
}

// The layers. A plotter cuts by them.
const (
	layerCut   = "CUT"
	layerSew   = "SEW"
	layerGuess = "SEW_FROM_TRACING"
	layerMark  = "MARK"
	layerText  = "TEXT"
	layerCheck = "CHECK"
)

// figures is everything that stands on a drawing at true scale.
func figures(s *cover.CutSheet) (all []figure, w, h float64) {
	panels, w, h := stack(s)
	all = checked(s, title(s))
	for _, p := range panels {
		all = append(all, p.figures(s)...)
	}
	if t := s.Transom; t != nil {
		all = append(all, transomFigures(t, gap+t.Wide*mmPerInch, h, title(s))...)
		h += (t.High+2)*mmPerInch + gap
		w = max(w, 2*gap+2*t.Wide*mmPerInch)
	}
	return all, w, h
}

// checked is a check line at the head of a drawing, and what the drawing is.
func checked(s *cover.CutSheet, title string) []figure {
	mm, words := checkLength(s)
	return []figure{
		{layer: layerCheck, line: []Point{{X: gap, Y: gap}, {X: gap + mm, Y: gap}}},
		{layer: layerCheck, line: []Point{{X: gap, Y: gap - 5}, {X: gap, Y: gap + 5}}},
		{layer: layerCheck, line: []Point{{X: gap + mm, Y: gap - 5}, {X: gap + mm, Y: gap + 5}}},
		{layer: layerText, line: []Point{{X: gap, Y: gap - 9}}, text: words + ": " + CheckLine + ". Unit: millimetre, scale 1:1", size: 8},
		{layer: layerText, line: []Point{{X: gap, Y: gap + 17}}, text: title, size: 8},
	}
}

func title(s *cover.CutSheet) string {
	parts := []string{heading(s)}
	if name := or(clean(s.Customer), clean(s.Boat)); name != "" {
		parts = append(parts, name)
	}
	parts = append(parts, clothName(s))
	if void := voidWords(s); void != "" {
		parts = append(parts, void)
	}
	if !s.Settled {
		parts = append([]string{"DRAFT, not for cutting"}, parts...)
	}
	return strings.Join(parts, " - ")
}

// figures draws one panel.
func (p placed) figures(s *cover.CutSheet) []figure {
	panel := p.panel
	first, last := span(panel)
	all := []figure{{layer: layerCut, line: p.all(panel.Cut), closed: true}}
	for _, e := range []cover.Edge{panel.Near, panel.Far} {
		all = append(all,
			figure{layer: layerSew, line: p.all(e.Sewing[first : last+1])})
	}
	for end := range panel.Ends {
		layer := layerGuess
		if panel.Ends[end] != nil {
			layer = layerSew
		}
		for _, line := range panel.EndSewing(end) {
			all = append(all, figure{layer: layer, line: p.all(line)})
		}
	}
	for _, i := range panel.Station {
		if i < first || i > last {
			continue
		}
		for _, e := range []cover.Edge{panel.Near, panel.Far} {
			all = append(all, figure{layer: layerMark, line: p.all([]Point{e.Sewing[i], e.Cutting[i]})})
		}
		q := p.at(panel.Far.Sewing[i])
		r := p.at(panel.Near.Sewing[i])
		all = append(all, figure{layer: layerText, line: []Point{{X: q.X + 0.15*(r.X-q.X), Y: q.Y + 0.15*(r.Y-q.Y)}}, text: s.Station(panel.Place[i]), size: wordSize})
	}
	if panel.Slit != nil {
		line := p.all([]Point{panel.Slit.From, panel.Slit.To})
		all = append(all, figure{layer: layerMark, line: line})
		all = append(all, p.word(Point{X: line[1].X + wordAside, Y: (line[0].Y + line[1].Y) / 2}, slitWords(s, panel)))
	}
	if line := p.all(entryLine(s, panel)); len(line) > 1 {
		all = append(all, figure{layer: layerMark, line: line})
		all = append(all, p.under(line[len(line)/2], "entry, "+s.Say(s.Entry.Length)))
	}
	low, high := bounds(panel.Cut)
	for _, y := range panel.Joins {
		all = append(all, figure{layer: layerMark, line: p.all([]Point{{X: low.X, Y: y}, {X: high.X, Y: y}})})
		all = append(all, p.word(p.at(Point{X: low.X + 24, Y: y}), "joining seam: cut the parts with an allowance on both sides"))
	}
	middle := len(panel.Place) / 2
	a, b := p.at(panel.Near.Sewing[middle]), p.at(panel.Far.Sewing[middle])
	at := Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	all = append(all, figure{layer: layerText, line: []Point{at}, text: panel.Name + ": " + title(s), size: 14})
	all = append(all, p.word(Point{X: at.X, Y: at.Y + 2*wordAside}, facing(panel)))
	for end, name := range []string{"BOW", "STERN"} {
		words := name + ", end from tracing"
		if panel.Ends[end] != nil {
			words = name + ", end as traced"
		}
		all = append(all, p.word(p.endLabel(end, words), words))
	}
	return all
}

// Words on a panel, in millimetres.
const (
	wordSize  = 8.0
	wordAside = 8.0 // from the line that they name
	endInset  = 30.0
	perGlyph  = 0.6 // of the size, that a letter is wide
)

// word is a text that begins at a place.
func (p placed) word(at Point, words string) figure {
	return figure{layer: layerText, line: []Point{at}, text: words, size: wordSize}
}

// under is a text about a place of an edge, on the panel's own cloth.
func (p placed) under(edge Point, words string) figure {
	low, high := bounds(p.all(p.panel.Cut))
	at := Point{X: edge.X - perGlyph*wordSize*float64(len(words))/2, Y: edge.Y + wordAside + wordSize}
	if edge.Y > (low.Y+high.Y)/2 {
		at.Y = edge.Y - wordAside
	}
	return p.word(at, words)
}

// endLabel is where words at an end of a panel begin, so that they stand on its
// cloth: half way between its edges there.
func (p placed) endLabel(end int, words string) Point {
	low, high := bounds(p.panel.Cut)
	tip := low.X
	if end == 1 {
		tip = high.X
	}
	inside := tip + (low.X+high.X-2*tip)*0.04
	var across []Point
	for _, q := range p.panel.Cut {
		if math.Abs(q.X-tip) <= math.Abs(inside-tip) {
			across = append(across, q)
		}
	}
	least, most := bounds(across)
	at := p.at(Point{X: tip, Y: (least.Y + most.Y) / 2})
	if other := p.at(Point{X: low.X + high.X - tip}); at.X > other.X {
		at.X -= endInset + perGlyph*wordSize*float64(len(words))
	} else {
		at.X += endInset
	}
	return at
}

// transomFigures draws the transom panel at true scale, its middle at x and its
// upper edge below y.
func transomFigures(t *cover.Transom, x, y float64, title string) []figure {
	_, most := bounds(t.Cutting)
	all := func(points []Point) []Point {
		out := make([]Point, len(points))
		for i, q := range points {
			out[i] = Point{X: x + q.X*mmPerInch, Y: y + (most.Y-q.Y)*mmPerInch}
		}
		return out
	}
	_, top := bounds(t.Sewing)
	middle := all([]Point{{Y: top.Y}, {Y: top.Y - t.High}})
	return []figure{
		{layer: layerCut, line: all(t.Cutting), closed: true},
		{layer: layerSew, line: all(t.Sewing), closed: true},
		{layer: layerMark, line: middle},
		{layer: layerText, line: all([]Point{{X: -t.Wide / 4, Y: top.Y - t.High/3}}), text: "Transom, outer face: " + title, size: 8},
	}
}

// SVG draws the panels at true scale, in millimetres, with a check line.
func SVG(s *cover.CutSheet) ([]byte, error) {
	all, w, h := figures(s)
	return svg(all, w, h, title(s))
}

func svg(all []figure, w, h float64, title string) ([]byte, error) {
	var b bytes.Buffer
	fmt.Fprintf(&b, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.2fmm\" height=\"%.2fmm\" viewBox=\"0 0 %.2f %.2f\">\n", w, h, w, h)
	b.WriteString("<title>")
	if err := xml.EscapeText(&b, []byte(title)); err != nil {
		return nil, fmt.Errorf("write SVG: %w", err)
	}
	b.WriteString("</title>\n<desc>Unit: millimetre, scale 1:1</desc>\n")
	for _, layer := range []string{layerCut, layerSew, layerGuess, layerMark, layerCheck, layerText} {
		fmt.Fprintf(&b, "<g id=%q %s>\n", layer, svgStyle(layer))
		for _, f := range all {
			if f.layer != layer {
				continue
			}
			if err := f.svg(&b); err != nil {
				return nil, fmt.Errorf("write SVG: %w", err)
			}
		}
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	return b.Bytes(), nil
}

func svgStyle(layer string) string {
	const line = `fill="none" stroke-width="0.5" stroke=`
	switch layer {
	case layerCut:
		return line + `"#1c2024"`
	case layerSew:
		return line + `"#005c94"`
	case layerGuess:
		return line + `"#005c94" stroke-dasharray="8 6"`
	case layerText:
		return `fill="#1c2024" font-family="sans-serif"`
	}
	return line + `"#b22218"`
}

func (f figure) svg(b *bytes.Buffer) error {
	if f.text != "" {
		fmt.Fprintf(b, "<text x=\"%.2f\" y=\"%.2f\" font-size=\"%g\">", f.line[0].X, f.line[0].Y, f.size)
		if err := xml.EscapeText(b, []byte(f.text)); err != nil {
			return err
		}
		b.WriteString("</text>\n")
		return nil
	}
	tag := "polyline"
	if f.closed {
		tag = "polygon"
	}
	fmt.Fprintf(b, "<%s points=\"", tag)
	for i, q := range f.line {
		if i > 0 {
			b.WriteByte(' ')
		}
		fmt.Fprintf(b, "%.2f,%.2f", q.X, q.Y)
	}
	b.WriteString("\"/>\n")
	return nil
}
