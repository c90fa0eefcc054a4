package phototest

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"strconv"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomedium"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"fairtape/parse"
	"fairtape/parse/form"
)

// faces are what printed tables are set in; no reader learns from them.
var faces = [][]byte{goregular.TTF, gomedium.TTF, gobold.TTF, goitalic.TTF, gomono.TTF}

// freePaper is a table on a paper of somebody's own.
type freePaper struct {
	*Sheet
	hand    *Hand      // nil: printed
	face    font.Face  // of what is printed
	size    float64    // height of a digit, mm
	point   bool       // 41.5, not 41 1/2
	names   parse.Unit // that stations are named by their distance in; unknown: counted
	opening bool       // a column of the openings, too
	columns [5]float64
	rng     *rand.Rand
}

// Free draws a table of stations and both girths as people make them on paper of
// their own, with lines or without, some with the openings, and returns which
// girths stand in it. Without a hand it is printed.
func Free(s parse.Survey, hand *Hand, rng *rand.Rand) (*Sheet, []Written, error) {
	w, h := form.A4.Size()
	layout := form.Layout{Width: w, Height: h, Unit: s.Unit}
	f := freePaper{Sheet: &Sheet{Layout: layout, Page: 1, paper: newRaster(px(w), px(h), paperLight, paperLight, paperLight)}, hand: hand, rng: rng}
	f.point = rng.IntN(2) == 0
	if s.Unit == parse.Centimetre || rng.IntN(4) == 0 {
		f.names = s.Unit
	}
	f.opening = rng.IntN(4) == 0
	f.size = 2.4 + 1.2*rng.Float64()
	pitch := 2.4 * f.size
	if hand != nil {
		f.size = hand.height
		pitch = hand.height + 2.5 + 2*rng.Float64()
	}
	parsed, err := opentype.Parse(faces[rng.IntN(len(faces))])
	if err != nil {
		return nil, nil, err
	}
	const capital = 0.72 // height of a digit over that of the font
	f.face, err = opentype.NewFace(parsed, &opentype.FaceOptions{Size: f.size / capital * 72 / 25.4, DPI: Scale * 25.4})
	if err != nil {
		return nil, nil, err
	}
	defer f.face.Close()
	wide := 24 + 4*f.size
	f.columns = [5]float64{20, 20 + wide*0.8, 20 + 1.8*wide, 20 + 2.8*wide, 20 + 3.6*wide}
	top := 30 + 15*rng.Float64()
	f.word(20, top-8, "Canoe measurements")
	for i, name := range []string{"Station", "Hull girth", "Full girth", "Opening"} {
		if i == 3 && !f.opening {
			break
		}
		f.word(f.columns[i]+2, top+0.75*pitch, name)
	}
	written := f.rows(s, top+pitch, pitch)
	if rng.IntN(2) == 0 {
		f.rule(top, pitch, len(s.Stations)+1)
	}
	return f.Sheet, written, nil
}

// rows writes the stations and their girths.
func (f freePaper) rows(s parse.Survey, top, pitch float64) []Written {
	var out []Written
	for i, st := range s.Stations {
		foot := top + (float64(i)+0.78)*pitch
		name := strconv.Itoa(i + 1)
		if f.names != parse.UnknownUnit {
			name = fmt.Sprint(st.At.In(f.names))
		}
		f.number(f.columns[0]+3, foot, name)
		if f.opening && st.HullGirth.Known && st.FullGirth.Known {
			f.number(f.columns[3]+4, foot, f.text((st.FullGirth.Value - st.HullGirth.Value).In(s.Unit)))
		}
		for j, c := range []struct {
			m parse.Measure
			r parse.Reading
		}{{parse.HullGirth, st.HullGirth}, {parse.FullGirth, st.FullGirth}} {
			if !c.r.Known {
				continue
			}
			f.number(f.columns[1+j]+4, foot, f.text(c.r.Value.In(s.Unit)))
			out = append(out, Written{Value: Value{Cell: parse.Cell{At: st.At, Measure: c.m}, Length: c.r.Value}})
		}
	}
	return out
}

func (f freePaper) text(v float64) string {
	whole := math.Floor(v + 0.01)
	switch {
	case v-whole < 0.25:
		return fmt.Sprint(whole)
	case f.point:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f 1/2", whole)
}

// word writes a heading: scribbled, or printed.
func (f freePaper) word(x, foot float64, text string) {
	if f.hand != nil {
		f.Note(f.hand, x, foot, 2.2*float64(len(text)), f.rng)
		return
	}
	f.print(x, foot, text)
}

func (f freePaper) print(x, foot float64, text string) {
	mask := image.NewAlpha(image.Rect(0, 0, f.paper.w, px(14)))
	d := font.Drawer{Dst: mask, Src: image.Opaque, Face: f.face, Dot: fixed.P(px(x), px(10))}
	d.DrawString(text)
	top := px(foot) - px(10)
	for j := range mask.Rect.Dy() {
		for i := range mask.Rect.Dx() {
			if a := mask.Pix[j*mask.Stride+i]; a > 0 {
				f.paper.stain(i, top+j, float32(a)/255, [3]float32{printBlack, printBlack, printBlack})
			}
		}
	}
}

// number writes a number that begins at x and stands on a foot.
func (f freePaper) number(x, foot float64, text string) {
	if f.hand == nil {
		f.print(x, foot, text)
		return
	}
	h := *f.hand
	h.jitter = 0.15
	step := 0.82 * h.height
	y := foot - h.height/2
	for _, c := range text {
		switch {
		case c >= '0' && c <= '9':
			f.digit(&h, int(c-'0'), x, y, f.rng)
			x += step
		case c == '.':
			dot := point{x - 0.25*step, foot - 0.2}
			f.Line(h.pen, []point{dot, {dot.x + 0.25, dot.y + 0.15}}, f.rng)
			x += 0.3 * step
		case c == '/':
			f.Line(h.pen, []point{{x + 0.3*h.height - 0.2*step, y - 0.6*h.height}, {x - 0.3*h.height - 0.2*step, y + 0.6*h.height}}, f.rng)
			x += 0.7 * step
		default:
			x += 0.5 * step
		}
	}
}

// rule draws the lines of the table, with a ruler or by printing.
func (f freePaper) rule(top, pitch float64, rows int) {
	width := 0.2 + 0.25*f.rng.Float64()
	line := func(x0, y0, x1, y1 float64) {
		f.fill(form.Rect{X0: x0 - width/2, Y0: y0 - width/2, X1: x1 + width/2, Y1: y1 + width/2}, 0.15)
	}
	bottom := top + float64(rows)*pitch
	columns := f.columns[:4]
	if f.opening {
		columns = f.columns[:]
	}
	for i := range rows + 1 {
		line(columns[0], top+float64(i)*pitch, columns[len(columns)-1], top+float64(i)*pitch)
	}
	for _, x := range columns {
		line(x, top, x, bottom)
	}
}
