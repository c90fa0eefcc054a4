package form

import (
	"errors"
	"image"
	"image/color"
	"image/draw"
	"reflect"
	"regexp"
	"testing"

	"fairtape/parse"
)

func TestParseCodeRefuses(t *testing.T) {
	for _, text := range []string{
		"", "https://shop.example/", "FT", "FT1", "FT1/F2/LI/15", "FT1/F2/LI/15/14/",
		"FT1/F3/LI/15/14",                    // a boat of 15 rows has no page 3
		"FT1/F2/XI/15/14", "FT1/F2/LX/15/14", // paper, unit
		"FT1/F2/LI/41/14", "FT1/F2/LI/15*12/14", "FT1/F2/LI/15*/14", "FT1/F2/LI/15*1/14", "FT1/F2/LI/0/14", "FT1/F2/LI/015/14", "FT1/F2/LI/15/-1",
		"FT1/S1/LI//14", "FT1/S1/LI/84/14", "FT1/S1/LI/84X/14", "FT1/S2/LI/84P/14", "FT1/S1/LI/LO+/14",
		"FT01/F2/LI/15/14", "FT-1/F2/LI/15/14", "ft1/F2/LI/15/14",
	} {
		if c, err := ParseCode(text); !errors.Is(err, ErrNotOurs) {
			t.Errorf("ParseCode(%q) = %v, %v; want %v", text, c, err, ErrNotOurs)
		}
	}
	if _, err := ParseCode("FT2/F2/LI/15/14"); !errors.Is(err, ErrVersion) {
		t.Errorf("another version: %v, want %v", err, ErrVersion)
	}
}

func TestParseCode(t *testing.T) {
	tests := []struct {
		text string
		want Code
	}{
		{"FT1/F2/LI/15/14", Code{1, false, 2, Letter, parse.Inch, parse.Inches(12), 15, 14, nil}},
		{"FT1/F3/MC/40/0", Code{1, false, 3, A4, parse.Centimetre, parse.Centimetres(30), 40, 0, nil}},
		{"FT1/F3/LI/31*6/14", Code{1, false, 3, Letter, parse.Inch, parse.Inches(6), 31, 14, nil}},
		{"FT1/S1/LI/84P+84.5H+LO/14", Code{1, true, 1, Letter, parse.Inch, 0, 0, 14, []parse.Cell{
			{At: parse.Inches(84), Measure: parse.MeasurePair},
			{At: parse.Inches(84.5), Measure: parse.HullGirth},
			{Measure: parse.LengthOverall},
		}}},
	}
	for _, tt := range tests {
		got, err := ParseCode(tt.text)
		if err != nil || !reflect.DeepEqual(got, tt.want) {
			t.Errorf("ParseCode(%q) = %v, %v; want %v", tt.text, got, err, tt.want)
		}
	}
}

func FuzzParseCode(f *testing.F) {
	for _, seed := range []string{"FT1/F2/LI/15/14", "FT1/S1/MC/210P+240H+LO/14", "FT1/S1/LI/1e9P/1"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := ParseCode(text)
		if err == nil && c.String() != text {
			t.Errorf("%q is read as %q", text, c.String())
		}
	})
}

// alphanumeric is the set of the small encoding (ISO/IEC 18004, table 5).
var alphanumeric = regexp.MustCompile(`^[0-9A-Z $%*+\-./:]+$`)

func TestCodesOfPages(t *testing.T) {
	for name, l := range papers(t) {
		for i, p := range l.Pages {
			if !alphanumeric.MatchString(p.CodeText) {
				t.Errorf("%s: %q is not alphanumeric", name, p.CodeText)
			}
			modules, err := Modules(p.CodeText)
			if err != nil {
				t.Fatal(err)
			}
			if side := p.Code.Width() / float64(len(modules)); side < 1 || 4*side > CodeClear {
				t.Errorf("%s: a module of page %d is %.2f mm", name, i+1, side)
			}
			code, err := FindCode(paint(modules, 4))
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if code.Page != i+1 || code.Slip != l.Slip || code.Job != l.Job || code.Rows != l.Rows {
				t.Errorf("%s: page %d says %v", name, i+1, code)
			}
			again, err := code.Layout()
			if err != nil || !reflect.DeepEqual(again, l) {
				t.Errorf("%s: the code does not give the layout back: %v", name, err)
			}
		}
	}
}

func TestFindCodeInNothing(t *testing.T) {
	if _, err := FindCode(image.NewGray(image.Rect(0, 0, 300, 200))); !errors.Is(err, ErrNoCode) {
		t.Errorf("a black picture: %v, want %v", err, ErrNoCode)
	}
}

// paint draws modules with four modules of white around them.
func paint(modules [][]bool, pixels int) image.Image {
	side := (len(modules) + 8) * pixels
	picture := image.NewGray(image.Rect(0, 0, side, side))
	draw.Draw(picture, picture.Bounds(), image.White, image.Point{}, draw.Src)
	for y, row := range modules {
		for x, black := range row {
			if black {
				r := image.Rect((x+4)*pixels, (y+4)*pixels, (x+5)*pixels, (y+5)*pixels)
				draw.Draw(picture, r, image.NewUniform(color.Black), image.Point{}, draw.Src)
			}
		}
	}
	return picture
}
