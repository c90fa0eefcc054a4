package cover

import (
	"fmt"

	"fairtape/parse"
	"fairtape/reply/cover/nest"
)

// pieces returns what is cut from the roll: the panels, those wider than the
// roll in parts with a joining seam where the shop says. The error is a
// *Refusal.
func (c Cover) pieces() ([]nest.Piece, error) {
	usable := c.Cloth.UsableWidth.In(parse.Inch)
	var all []nest.Piece
	for _, p := range c.Panels {
		outline := p.Outline()
		if width(outline) <= usable {
			all = append(all, nest.Piece{Name: p.Name, Outline: outline})
			continue
		}
		join, allow := c.Cloth.Join.In(parse.Inch), c.Cloth.SeamAllowance.In(parse.Inch)
		if join == 0 {
			return nil, &Refusal{[]Reason{{"usable_width", fmt.Sprintf(
				"the %s panel is %.1f in wide and the roll %.1f in: say where it is joined (how far from the %s), or take a wider roll",
				p.Name, width(outline), usable, p.Datum)}}}
		}
		for i, part := range split(outline, p.Joins, allow) {
			if w := width(part); w > usable {
				return nil, &Refusal{[]Reason{{"join", fmt.Sprintf(
					"joined %.1f in from the %s, a part of the %s panel is still %.1f in wide and the roll %.1f in",
					join, p.Datum, p.Name, w, usable)}}}
			}
			all = append(all, nest.Piece{Name: fmt.Sprintf("%s, part %d", p.Name, i+1), Outline: part})
		}
	}
	if t := c.Transom; t != nil {
		if w := width(t.Cutting); w > usable {
			return nil, &Refusal{[]Reason{{"usable_width", fmt.Sprintf("the transom panel is %.1f in deep and the roll %.1f in", w, usable)}}}
		}
		all = append(all, nest.Piece{Name: "Transom", Outline: t.Cutting})
	}
	return all, nil
}

// joined marks where a panel wider than the roll is joined.
func (p Panel) joined(c Cloth) Panel {
	join := c.Join.In(parse.Inch)
	if join == 0 || width(p.Cut) <= c.UsableWidth.In(parse.Inch) {
		return p
	}
	p.Joins = []float64{join}
	if p.Middle {
		p.Joins = []float64{-join, join}
	}
	return p
}

// Outline returns the outline to cut as the panel lies on the face of the
// cloth.
func (p Panel) Outline() []Point { return p.Face(p.Cut) }

// Face returns points of the panel as they lie on the face of the cloth: mirrored
// for the second of two sides.
func (p Panel) Face(points []Point) []Point {
	if !p.Mirrored {
		return points
	}
	out := make([]Point, len(points))
	for i, q := range points {
		out[len(points)-1-i] = Point{X: -q.X, Y: q.Y}
	}
	return out
}

func width(outline []Point) float64 {
	lo, hi := outline[0].Y, outline[0].Y
	for _, q := range outline {
		lo, hi = min(lo, q.Y), max(hi, q.Y)
	}
	return hi - lo
}

// split cuts an outline along lines of constant Y, rising, leaving an allowance
// on both sides of each. Parts that are empty are left out.
func split(outline []Point, cuts []float64, allow float64) [][]Point {
	var parts [][]Point
	rest := outline
	for _, y := range cuts {
		if below := clip(rest, y+allow, -1); len(below) > 2 && width(below) > 2*allow {
			parts = append(parts, below)
		}
		rest = clip(rest, y-allow, 1)
	}
	if len(rest) > 2 && width(rest) > 2*allow {
		parts = append(parts, rest)
	}
	return parts
}

// clip returns the part of an outline above y (side 1) or below it (-1), after
// Sutherland and Hodgman (1974).
func clip(outline []Point, y, side float64) []Point {
	var out []Point
	inside := func(q Point) bool { return (q.Y-y)*side >= 0 }
	for i, b := range outline {
		a := outline[(i+len(outline)-1)%len(outline)]
		if inside(a) != inside(b) {
			f := (y - a.Y) / (b.Y - a.Y)
			out = append(out, Point{X: a.X + f*(b.X-a.X), Y: y})
		}
		if inside(b) {
			out = append(out, b)
		}
	}
	return out
}
