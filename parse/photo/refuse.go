package photo

import (
	"image"
	"math"
	"slices"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Problems of photos that cannot do. Each message says what would.
const (
	CodeNoPage  parse.Code = "picture-not-read" // no page of ours: a person has to read it
	CodeVersion parse.Code = "form-version"     // a form of another version
	CodeNoCode  parse.Code = "photo-code"       // the square code cannot be read
	CodeCorner  parse.Code = "photo-corner"     // a corner of the page is missing
	CodeDark    parse.Code = "photo-dark"
	CodeBlurred parse.Code = "photo-blurred"
	CodeSmall   parse.Code = "photo-small"
	CodeScreen  parse.Code = "photo-screen" // a photo of a screen
)

func refuse(code parse.Code) *Fault {
	return &Fault{code, map[parse.Code]string{
		CodeNoPage:  "The numbers are in a picture. A person has to read it.",
		CodeVersion: "The form is of another version than is read here. A person has to read it.",
		CodeNoCode:  "The square code on the form cannot be read. Please photograph the page again with the code flat and uncovered.",
		CodeCorner:  "A corner of the page is missing. Please photograph the whole page, with all four black corner marks.",
		CodeDark:    "The photo is too dark. Please photograph the page again by a window or under a lamp.",
		CodeBlurred: "The photo is blurred. Please photograph the page again and hold the telephone still until it is sharp.",
		CodeSmall:   "The page is too small in the photo. Please photograph it from nearer, or send the photo at its full size.",
		CodeScreen:  "This is a photo of a screen, and cannot be read surely. Please attach the file itself.",
	}[code]}
}

const (
	// leastScale is the resolution, in pixels a millimetre of paper, below which
	// digits of a hand's width cannot be told apart: 4 mm high, they have 12
	// pixels.
	leastScale = 3.0
	// leastPicture is the longer side, in pixels, of the smallest picture that
	// can show a page at leastScale.
	leastPicture = 850
	// darkest is the light of paper, of 255, under which noise drowns ink.
	darkest = 55
	// widestEdge is the width of a black edge, in mm, at which modules of 1 mm
	// run together.
	widestEdge = 1.1
	// softest is the same for a picture without a page, in pixels of one that
	// is marksSide wide.
	softest = 6.0
)

// whyUnread says why a page that was sighted gives no code, and what would help.
func (v *view) whyUnread() *Fault {
	switch {
	case v.scale < leastScale:
		return refuse(CodeSmall)
	case v.screenLike():
		return refuse(CodeScreen)
	case v.edgeWidth() > widestEdge:
		return refuse(CodeBlurred)
	}
	return refuse(CodeNoCode)
}

// whyUnseen says why no page is seen, where that can be told.
func whyUnseen(p *plane, blobs []blob) *Fault {
	side, marks := threeMarks(blobs)
	switch {
	case max(p.w, p.h) >= leastPicture && soft(p): // what looks like marks there may be anything
		return refuse(CodeBlurred)
	case max(p.w, p.h) < leastPicture, marks && side < leastScale*form.MarkSide, !marks && smallPage(p):
		return refuse(CodeSmall)
	case marks, codeAnywhere(p):
		return refuse(CodeCorner)
	}
	return refuse(CodeNoPage)
}

// lightest is the light that all but a fiftieth of the picture stays under,
// without the noise of single pixels.
func lightest(p *plane) int {
	const side = 400
	p = p.shrink(max(1, max(p.w, p.h)/side))
	var counts [256]int
	for _, v := range p.pix {
		counts[v]++
	}
	left := len(p.pix) / 50
	for v := 255; v > 0; v-- {
		if left -= counts[v]; left < 0 {
			return v
		}
	}
	return 0
}

// edgeWidth is how wide the edges of the marks are in the photo, in mm: their
// contrast over their steepest slope, the median of all.
func (v *view) edgeWidth() float64 {
	const fine = 10.0
	var widths []float64
	for _, b := range markBoxes(v.paper) {
		p := v.straight(b.Grow(2), fine)
		at := func(x, y float64) float64 { return float64(p.at(x*fine, y*fine)) }
		for _, across := range []float64{0.25, 0.75} {
			for _, way := range [][4]float64{{0, 1, across, 0}, {1, -1, across, 0}, {0, 1, across, 1}, {1, -1, across, 1}} {
				// From 2 mm outside to 2 mm inside the mark.
				line := func(t float64) float64 {
					u := way[0]*(form.MarkSide+4) + way[1]*t
					w := 2 + way[2]*form.MarkSide
					if way[3] == 0 {
						return at(u, w)
					}
					return at(w, u)
				}
				steepest := 0.0
				for t := 0.5; t < 3.5; t += 0.1 {
					steepest = max(steepest, (line(t)-line(t+0.3))/0.3)
				}
				if contrast := line(0.3) - line(3.6); steepest > 0 {
					widths = append(widths, contrast/steepest)
				}
			}
		}
	}
	if len(widths) == 0 {
		return math.Inf(1)
	}
	slices.Sort(widths)
	return widths[len(widths)/2]
}

// soft reports a picture in which even the sharper edges are wide.
func soft(p *plane) bool {
	const (
		apart  = 10 // pixels to both sides of an edge
		strong = 40 // light that an edge parts at least
		sharp  = 50 // the share of edges that counts is one in so many
	)
	small := p.shrink(max(1, max(p.w, p.h)/marksSide))
	var widths []float64
	for y := apart; y < small.h-apart; y += 2 {
		for x := apart; x < small.w-apart; x += 2 {
			i := y*small.w + x
			for _, step := range [2]int{1, small.w} {
				near := math.Abs(float64(small.pix[i+step]) - float64(small.pix[i-step]))
				far := math.Abs(float64(small.pix[i+apart*step]) - float64(small.pix[i-apart*step]))
				if far > strong && near > 0 {
					widths = append(widths, 2*far/near)
				}
			}
		}
	}
	if len(widths) == 0 {
		return false
	}
	slices.Sort(widths)
	return widths[len(widths)/sharp] > softest
}

// Three marks of a page: their places to each other, in sides of a mark.
const (
	nearMarks = 20.0 // 183 mm are 26 sides; tilted they look nearer
	farMarks  = 52.0 // 270 mm are 39
)

// threeMarks reports three marks that stand like those of a page whose fourth
// is not there, and their side in pixels; the largest, since print has smaller
// patches that stand like that.
func threeMarks(blobs []blob) (largest float64, ok bool) {
	for i, a := range blobs {
		for j, b := range blobs {
			for k, c := range blobs {
				if i == j || j == k || i == k || j > k || !sameSize(a, b, c) {
					continue
				}
				side := (a.side + b.side + c.side) / 3
				ux, uy := b.centre.x-a.centre.x, b.centre.y-a.centre.y
				vx, vy := c.centre.x-a.centre.x, c.centre.y-a.centre.y
				u, v := math.Hypot(ux, uy), math.Hypot(vx, vy)
				short, long := min(u, v)/side, max(u, v)/side
				cos := math.Abs(ux*vx+uy*vy) / (u * v)
				if short > nearMarks && long < farMarks && long/short > 1.1 && long/short < 1.8 && cos < 0.35 {
					largest = max(largest, side)
				}
			}
		}
	}
	return largest, largest > 0
}

// codeAnywhere reports a code of ours somewhere in the picture.
func codeAnywhere(p *plane) bool {
	for _, side := range []int{1600, 1000} {
		small := p.shrink(max(1, (max(p.w, p.h)+side-1)/side))
		if _, err := form.FindCode(&image.Gray{Pix: small.pix, Stride: small.w, Rect: image.Rect(0, 0, small.w, small.h)}); err == nil {
			return true
		}
	}
	return false
}
