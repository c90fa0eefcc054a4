package cover

import (
	"math"
	"testing"

	"fairtape/parse"
	"fairtape/reply/cover/nest"
)

// squared is a boat with a square stern, its transom as the curve has it.
func squared(s *parse.Survey) { s.Stern = parse.Square }

// The edge of a transom panel is as long as the stern edges that it is sewn
// into, and its allowance lies all around.
func TestTransom(t *testing.T) {
	for _, construction := range []Construction{Sides, HullAndTop, TopAndSkirt} {
		for _, girths := range [][3]float64{{60, 90, 14}, {44, 70, 0}, {52, 80, 9}} {
			hull, full, height := girths[0], girths[1], girths[2]
			c := plainCloth(construction)
			p := c.transom(hull, full, height)
			if math.Abs(p.Wide-(full-hull)) > 1e-9 {
				t.Errorf("%s: %.2f in wide, want %.2f", construction, p.Wide, full-hull)
			}
			if want := hull; construction != TopAndSkirt && math.Abs(p.Around-want) > want/1000 {
				t.Errorf("%s: %.2f in around, want %.2f", construction, p.Around, want)
			}
			if want := 2 * skirtDrop; construction == TopAndSkirt && math.Abs(p.Around-want) > 0.2 {
				t.Errorf("%s: %.2f in around, want %.2f", construction, p.Around, want)
			}
			if a, b := crossing(p.Cutting); a != b {
				t.Errorf("%s: its outline crosses itself", construction)
			}
			for _, q := range p.Sewing {
				if d := awayFrom(q, p.Cutting); d < 0.45 || d > 1.01 {
					t.Errorf("%s: the cut is %.2f in from %v", construction, d, q)
				}
			}
			rows := p.Breadths(2)
			if math.Abs(rows[0][1]-p.Wide) > 1e-6 || rows[len(rows)-1][0] != p.High {
				t.Errorf("%s: breadths %v", construction, rows)
			}
		}
	}
}

// A square stern gives a panel more, in every construction; a pointed one none.
func TestTransomOnSheet(t *testing.T) {
	for _, construction := range []Construction{Sides, HullAndTop, TopAndSkirt} {
		order := someOrder(construction)
		order.Cloth.RollWidth, order.Cloth.UsableWidth = parse.Inches(72), parse.Inches(71)
		s, err := Make(report(3, parse.Inch, squared), order)
		if err != nil {
			t.Fatal(construction, err)
		}
		plain, err := Make(report(3, parse.Inch, nil), order)
		if err != nil {
			t.Fatal(construction, err)
		}
		if s.Transom == nil || plain.Transom != nil || len(s.Pieces) != len(plain.Pieces)+1 {
			t.Errorf("%s: %d pieces, with a pointed stern %d", construction, len(s.Pieces), len(plain.Pieces))
		}
		if n := len(s.Lay.Placed); n != len(s.Pieces) || nest.Area(s.Transom.Cutting) <= nest.Area(s.Transom.Sewing) {
			t.Errorf("%s: %d pieces on the roll", construction, n)
		}
	}
}
