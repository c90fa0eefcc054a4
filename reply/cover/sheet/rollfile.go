package sheet

import (
	"fmt"
	"strings"

	"fairtape/reply/cover"
	"fairtape/reply/cover/nest"
)

// Roll draws how pieces lie on the roll at true scale, as SVG and as DXF: what a
// plotter or a projector puts on the cloth. The cut end of the roll is on the
// left.
func Roll(b cover.Batch) ([]File, error) {
	if len(b.Sheets) == 0 {
		return nil, nil
	}
	s := b.Sheets[0]
	w, h := b.Lay.Length*mmPerInch+2*gap, b.Lay.Width*mmPerInch+3*gap
	if check, _ := checkLength(s); w < check+2*gap {
		w = check + 2*gap
	}
	words := rollTitle(b)
	all := checked(s, words)
	at := func(q Point) Point { return Point{X: gap + q.X*mmPerInch, Y: h - gap - q.Y*mmPerInch} }
	frame := []Point{{X: 0, Y: 0}, {X: b.Lay.Length, Y: 0}, {X: b.Lay.Length, Y: b.Lay.Width}, {X: 0, Y: b.Lay.Width}}
	all = append(all, figure{layer: layerMark, line: mapped(frame, at), closed: true})
	for _, p := range b.Lay.Placed {
		outline := mapped(p.Outline(b.Pieces), at)
		all = append(all, figure{layer: layerCut, line: outline, closed: true},
			figure{layer: layerText, line: []Point{inside(outline)}, text: pieceName(b.Pieces, p), size: 14})
	}
	drawing, err := svg(all, w, h, words)
	if err != nil {
		return nil, err
	}
	return []File{{"roll.svg", drawing}, {"roll.dxf", dxfOf(all, w, h)}}, nil
}

func rollTitle(b cover.Batch) string {
	s := b.Sheets[0]
	words := fmt.Sprintf("%d covers on one roll - %s - running length %s", len(b.Sheets), clothName(s), s.Say(b.Lay.Length))
	for _, s := range b.Sheets {
		if !s.Settled && !strings.HasPrefix(words, "DRAFT") {
			words = "DRAFT, not for cutting - " + words
		}
	}
	return words
}

func pieceName(pieces []nest.Piece, p nest.Placed) string {
	name := clean(pieces[p.Piece].Name)
	if p.Turned {
		name += ", turned end for end"
	}
	return name
}

func mapped(points []Point, at func(Point) Point) []Point {
	out := make([]Point, len(points))
	for i, q := range points {
		out[i] = at(q)
	}
	return out
}

// inside returns a place for a name: a third along the box around the outline,
// halfway up.
func inside(outline []Point) Point {
	least, most := bounds(outline)
	return Point{X: least.X + (most.X-least.X)/3, Y: (least.Y + most.Y) / 2}
}
