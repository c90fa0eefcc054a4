package picture

import (
	"bytes"
	"image/png"
	"strings"
	"testing"

	"fairtape/parse"
)

// paperWith is a grey paper with one dark stroke.
func paperWith(width, height int) parse.Crop {
	crop := parse.Crop{Width: width, Height: height, Grey: bytes.Repeat([]byte{150}, width*height)}
	for y := height / 4; y < height*3/4; y++ {
		for x := width / 2; x < width/2+4; x++ {
			crop.Grey[y*width+x] = 60
		}
	}
	return crop
}

func TestOfDoubts(t *testing.T) {
	many := make([]Doubt, sheetMost+3)
	for i := range many {
		many[i] = Doubt{Label: "3 ft, hull girth", Crop: paperWith(170, 65), Read: "47"}
	}
	for _, test := range []struct {
		name   string
		doubts []Doubt
		alt    []string
	}{
		{"a picture that is none", []Doubt{{Label: "bow height", Crop: parse.Crop{Width: 9, Height: 9}}}, []string{"bow height: not readable"}},
		{"a picture of no height", []Doubt{{Label: "bow height", Crop: parse.Crop{Width: 9}}}, []string{"bow height: not readable"}},
		{"nothing read", []Doubt{{Label: "7 ft, hull girth", Crop: paperWith(170, 65), Or: []string{"47", "41"}}}, []string{"7 ft, hull girth: 47 or 41."}},
		{"read", []Doubt{{Label: "7 ft, hull girth", Crop: paperWith(170, 65), Read: "47 1/2", Or: []string{"41 1/2", "97 1/2", "91 1/2"}}},
			[]string{"7 ft, hull girth: 47 1/2 or 41 1/2 or 97 1/2."}},
		{"more than a sheet", many, []string{"3 more numbers are in doubt"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			p, err := OfDoubts(test.doubts)
			if err != nil {
				t.Fatal(err)
			}
			m, err := png.Decode(bytes.NewReader(p.PNG))
			if err != nil {
				t.Fatal(err)
			}
			if b := m.Bounds(); b.Dx() != postWidth || b.Dy() > postMost {
				t.Errorf("%v large", b)
			}
			for _, words := range test.alt {
				if !strings.Contains(p.Alt, words) {
					t.Errorf("alternative text %q lacks %q", p.Alt, words)
				}
			}
		})
	}
}

// Ink becomes black and paper white, whatever the light was.
func TestStretched(t *testing.T) {
	crop := paperWith(100, 60)
	out := stretched(crop)
	if ink, paper := out.GrayAt(50, 30).Y, out.GrayAt(5, 5).Y; ink > 40 || paper < 250 {
		t.Errorf("ink %d, paper %d", ink, paper)
	}
}
