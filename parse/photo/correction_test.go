package photo

import (
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo/phototest"
)

// What was written anew takes the place of what was crossed out, or of nothing.
func TestInPlace(t *testing.T) {
	digit := func(d int) figure {
		f := figure{}
		f.Digit[d] = 1
		return f
	}
	blank, struck := figure{Blank: 1}, figure{Unreadable: 1}
	for name, c := range map[string]struct {
		boxes, anew []figure
		want        string
	}{
		"nothing anew":               {[]figure{blank, struck, struck}, nil, ""},
		"more than there are boxes":  {[]figure{blank, struck, struck}, []figure{digit(1), digit(2), digit(3), digit(4)}, ""},
		"fewer than are crossed out": {[]figure{digit(1), struck, struck}, []figure{digit(4)}, ""},
		"all of it":                  {[]figure{blank, struck, struck}, []figure{digit(4), digit(6)}, "46"},
		"all of it, shorter":         {[]figure{struck, struck, struck}, []figure{digit(9), digit(8)}, "98"},
		"all of it, longer":          {[]figure{blank, struck, struck}, []figure{digit(1), digit(0), digit(2)}, "102"},
		"all, though a 6 shows":      {[]figure{blank, digit(6), struck}, []figure{digit(6), digit(1)}, "61"},
		"one digit":                  {[]figure{digit(1), struck, digit(7)}, []figure{digit(8)}, "187"},
	} {
		page := &Page{}
		crossed := 0
		for i, f := range c.boxes {
			page.boxes = append(page.boxes, placed{box: i})
			if f == struck {
				crossed++
			}
		}
		if got := numberOf(page.inPlace(0, c.boxes, crossed, c.anew), habit{}).text; got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// A digit that was crossed out, with another squeezed in above it, is read as
// doubtful, and takes no certainty from the numbers above and below.
func TestCrossedOut(t *testing.T) {
	if testing.Short() {
		t.Skip("photos take two seconds each to render")
	}
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	l, err := form.New(form.Spec{Paper: form.Letter, Unit: parse.Centimetre, Rows: 16})
	if err != nil {
		t.Fatal(err)
	}
	var values []phototest.Value
	for _, f := range l.Fields {
		if f.Page == 2 && f.Kind == form.Digits && len(f.Boxes) == 3 {
			values = append(values, phototest.Value{Cell: f.Cell, Length: parse.Centimetres(float64(111 + 13*len(values)%80))})
		}
	}
	var troubled, offered, plain, sure int
	for seed := range uint64(2) {
		rng := rand.New(rand.NewPCG(31, seed))
		sheet, err := phototest.Blank(l, 2)
		if err != nil {
			t.Fatal(err)
		}
		written := sheet.Fill(phototest.NewHand(nil, rng), values, phototest.Trouble{Rewritten: 0.08}, rng)
		camera := phototest.Camera{Width: 1932, Height: 2576, Share: 0.93, Exposure: 0.8, Blur: 0.6, Noise: 0.002, Quality: 85, Tilt: 5}
		page, err := reader.Page("form.jpg", NewPicture(sheet.Photograph(camera, rng).Picture))
		if err != nil {
			t.Fatal(err)
		}
		survey := page.Survey()
		for _, w := range written {
			r := *readingOf(&survey, w.Cell)
			right := r.Known && r.Value == w.Length
			switch {
			case r.Certain() && (!right || w.Troubled):
				t.Errorf("%v: wrote %v, read surely %v, crossed out %v", w.Cell, w.Length, r.Value, w.Troubled)
			case w.Troubled:
				troubled++
				if right {
					offered++
				}
			default:
				plain++
				if r.Certain() {
					sure++
				}
			}
		}
	}
	if 2*offered < troubled || troubled == 0 || sure < plain-plain/20 {
		t.Errorf("of %d numbers crossed out %d are offered, of %d others %d are sure", troubled, offered, plain, sure)
	}
}
