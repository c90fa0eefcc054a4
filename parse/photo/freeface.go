package photo

import (
	"math"

	"fairtape/parse/digits"
)

// face is how the digits of one page look: those that are surely read, on the
// average. It is a second look at those that are not, apart from the number
// reader's: a page that was printed shows each digit alike.
type face struct {
	mean [10]digits.Box
	n    [10]int
}

const (
	// learnt is how surely a digit is read from which the others are compared with it.
	learnt = 0.98
	// alike is how much a digit has to be like others of the page, as a
	// correlation, and clearer how much less like any other digit.
	alike, clearer = 0.85, 0.05
	// rareOnFace is what is left of the belief that nobody can read a digit that
	// looks like others of the page.
	rareOnFace = 0.05
)

// faceOf learns the digits of a page.
func faceOf(f *freePage, lines [][]freeGlyph) *face {
	out := new(face)
	for _, line := range lines {
		for _, g := range line {
			if g.kind != glyphDigit || g.sure < learnt {
				continue
			}
			for i, v := range f.box(g.shape) {
				out.mean[g.digit][i] += v
			}
			out.n[g.digit]++
		}
	}
	return out
}

// again weighs what may be no digit at all with how much it looks like the
// page's own.
func (c *face) again(f *freePage, g freeGlyph) freeGlyph {
	const fewest = 2
	if g.kind != glyphDigit || g.all.Unreadable == 0 || c.n[g.digit] < fewest {
		return g
	}
	box := f.box(g.shape)
	own, other := correlation(box, &c.mean[g.digit]), math.Inf(-1)
	for d := range c.mean {
		if d != g.digit && c.n[d] >= fewest {
			other = max(other, correlation(box, &c.mean[d]))
		}
	}
	if own < alike || own < other+clearer {
		return g
	}
	g.all = weaker(g.all, 1, rareOnFace)
	if g.sure = g.all.Digit[g.digit]; g.cut {
		g.sure *= ofCut
	}
	return g
}

func correlation(a, b *digits.Box) float64 {
	var sa, sb, aa, bb, ab float64
	for i := range a {
		x, y := float64(a[i]), float64(b[i])
		sa, sb, aa, bb, ab = sa+x, sb+y, aa+x*x, bb+y*y, ab+x*y
	}
	n := float64(len(a))
	return (ab - sa*sb/n) / math.Sqrt(max((aa-sa*sa/n)*(bb-sb*sb/n), 1e-12))
}
