package photo

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fairtape/parse/digits"
)

// closer reads what was only glanced at thoroughly: single signs, and numbers
// whose signs are not plain.
type closer struct {
	page        *freePage
	face        *face
	see, glance look
	usual       float64 // width of a sign, pixels
}

// sign reads a sign thoroughly, and weighs it with how the page's own digits look.
func (c closer) sign(g freeGlyph) freeGlyph {
	const sure = 0.995 // from which another look changes nothing
	if len(g.pixels) == 0 || g.kind == glyphPoint || g.kind == glyphSlash || g.kind == glyphHalf || g.sure >= sure {
		return c.face.again(c.page, g)
	}
	again := glyph(c.page, g.shape, c.see)
	again.pointed, again.cutFrom = g.pointed, g.cutFrom
	return c.face.again(c.page, again)
}

// way is one way to part ink into digits, with how likely it is among all ways
// and how legible all its pieces are.
type way struct {
	digits          []digits.Distribution
	likely, legible float64
}

// number weighs all the ways in which the ink of a number may be parted into
// digits: signs that touch, that came apart, and specks that look like points. It
// gives what the number may be, for the curve to choose from, and is never sure.
func (c closer) number(signs []freeGlyph, was freeCell) freeCell {
	whole, fraction := withoutFraction(withoutMark(signs))
	all := []reading{{"", 1}}
	for _, ink := range inksOf(whole) {
		all = inTurn(all, c.may(ink))
	}
	tail, sure := "", 1.0
	if fraction != nil {
		tail, sure = fractionOf(fraction)
	}
	for i, r := range all {
		all[i].text = withHalf(r.text)
	}
	all = slices.DeleteFunc(merged(all), func(r reading) bool { return !fits(r.text) })
	if len(all) == 0 {
		return was
	}
	for i, r := range all {
		all[i] = reading{r.text + tail, r.probability * sure}
	}
	out := was
	out.text, out.sure, out.others = all[0].text, all[0].probability, all[1:]
	out.weaken()
	out.doubt(justUnsure)
	return out
}

// inTurn is what two pieces of a number may be together, likelier ones first.
func inTurn(first, second []reading) []reading {
	const most = 40 // that are followed
	var all []reading
	for _, a := range first {
		for _, b := range second {
			all = append(all, reading{a.text + b.text, a.probability * b.probability})
		}
	}
	all = merged(all)
	return all[:min(len(all), most)]
}

// merged adds up the readings with the same text, and sorts them, likelier ones first.
func merged(all []reading) []reading {
	slices.SortStableFunc(all, func(a, b reading) int { return cmp.Compare(a.text, b.text) })
	var out []reading
	for _, r := range all {
		if n := len(out) - 1; n >= 0 && out[n].text == r.text {
			out[n].probability += r.probability
			continue
		}
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b reading) int { return cmp.Compare(b.probability, a.probability) })
	return out
}

// withHalf reads a half whose stroke was taken for a digit, or as one with its 1,
// in a number that has too many digits for a measure: 39112 and 3912.
func withHalf(text string) string {
	const most = 3 // digits of a whole number
	for _, half := range []string{"112", "172", "12"} {
		if whole, ok := strings.CutSuffix(text, half); ok && len(text) >= mostDigits && len(whole) >= 2 && len(whole) <= most && !strings.Contains(whole, ".") {
			return whole + " 1/2"
		}
	}
	return text
}

// fits reports a text that may be a measure of a boat.
func fits(text string) bool {
	whole, _, _ := strings.Cut(text, " ")
	whole, part, pointed := strings.Cut(whole, ".")
	return len(whole) > 0 && len(whole) < mostDigits && (!pointed || len(part) == 1)
}

// inksOf gathers the signs that were cut off one shape, which is to be parted anew.
func inksOf(signs []freeGlyph) [][]freeGlyph {
	var out [][]freeGlyph
	for i, g := range signs {
		if i > 0 && g.cutFrom != nil && g.cutFrom == signs[i-1].cutFrom {
			out[len(out)-1] = append(out[len(out)-1], g)
			continue
		}
		out = append(out, []freeGlyph{g})
	}
	return out
}

// realPoint is how likely a mark at the foot between two digits is a point.
const realPoint = 0.9

// may is what the ink of some signs may be.
func (c closer) may(ink []freeGlyph) []reading {
	const rarest = 1e-4 // probability from which a digit is followed
	if ink[0].kind == glyphPoint {
		return []reading{{".", realPoint}, {"", 1 - realPoint}}
	}
	var all []reading
	for _, w := range c.ways(ink) {
		texts := []reading{{"", w.likely}}
		for _, d := range w.digits {
			var digits []reading
			for digit, p := range d.Digit {
				if p > rarest {
					digits = append(digits, reading{string(rune('0' + digit)), p})
				}
			}
			texts = inTurn(texts, digits)
		}
		all = append(all, texts...)
	}
	return merged(all)
}

// ways are those in which the ink of some signs may be parted into digits.
func (c closer) ways(ink []freeGlyph) []way {
	const plain = 0.98 // belief in one sign from which it is no two
	s := ink[0].shape
	if ink[0].cutFrom != nil {
		s = *ink[0].cutFrom
	}
	if len(ink) == 1 && ink[0].isDigit() && ink[0].sure >= plain {
		return []way{{digits: []digits.Distribution{ink[0].all}, likely: 1}}
	}
	ways := c.add(nil, []shape{s}, 1)
	holds := func(n int) bool { return n <= mostTouching && s.bounds.width() >= float64(n)*narrowest*c.usual }
	var loose []shape
	if holds(2) {
		loose = c.page.loosened(s)
	}
	prior := 1.0
	for n := 2; holds(n); n++ {
		prior *= touches
		if len(loose) == n {
			ways = c.add(ways, loose, prior)
		}
		for k, pieces := range c.page.cuts(s, n) {
			ways = c.add(ways, pieces, prior*math.Pow(laterCut, float64(k)))
		}
	}
	share(ways)
	return ways
}

const (
	mostTouching = 3   // digits
	narrowest    = 0.4 // of the usual width, that digits which touch have on the mean
	touches      = 0.1 // how likely a digit touches the next
	laterCut     = 0.7 // how much less likely a cut is than the one with less ink on it
)

// leastPiece is the height of the smallest digit beside larger ones, in heights of
// the page's digits.
const leastPiece = 0.4

// add reads pieces of ink, each as a digit, and adds that way to others; pieces
// that have no digit's size make none.
func (c closer) add(ways []way, pieces []shape, prior float64) []way {
	w := way{likely: prior, legible: 1}
	for _, piece := range pieces {
		if b := piece.bounds; b.height() < leastPiece*c.page.height || b.width() > widestDigit*c.page.height {
			return ways
		}
		d := inked(c.glance(c.page.box(piece)))
		_, best := d.Best()
		w.digits = append(w.digits, d)
		w.likely *= best * best * c.wide(piece, d)
		w.legible *= 1 - d.Unreadable - d.Blank
	}
	return append(ways, w)
}

// share makes the likelihoods of ways add up to the belief that one of them at
// least is legible, and those of each of their digits to one.
func share(ways []way) {
	illegible, total := 1.0, 0.0
	for _, w := range ways {
		illegible *= 1 - w.legible
		total += w.likely
	}
	const least = 1e-12
	for i, w := range ways {
		ways[i].likely *= (1 - illegible) / max(total, least)
		for k, d := range w.digits {
			sum := least
			for _, p := range d.Digit {
				sum += p
			}
			for digit := range d.Digit {
				w.digits[k].Digit[digit] /= sum
			}
		}
	}
}

// wide is how likely a digit of the page is as wide as a piece: all but ones are
// about as wide as each other.
func (c closer) wide(piece shape, d digits.Distribution) float64 {
	const spread = 0.35 // of the log of a digit's width, on pages by hand
	z := math.Log(piece.bounds.width()/c.usual) / spread
	if z < 0 && d.Digit[1] > 0.5 {
		return 1
	}
	return math.Exp(-z * z / 2)
}
