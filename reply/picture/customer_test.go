package picture

import (
	"bytes"
	"image/png"
	"regexp"
	"slices"
	"testing"

	"fairtape/parse"
)

func feet(n float64) parse.Length { return parse.Inches(12 * n) }

// questions are what is asked in the drawn samples.
func questions() map[string]struct {
	survey   parse.Survey
	asked    []parse.Cell
	language string
} {
	type q = struct {
		survey   parse.Survey
		asked    []parse.Cell
		language string
	}
	square, decked := boat(14, parse.Inch), boat(17, parse.Inch)
	square.Stern, decked.Decked = parse.Square, true
	metric := boat(15, parse.Centimetre)
	return map[string]q{
		"one":     {boat(15.75, parse.Inch), []parse.Cell{{At: feet(7), Measure: parse.HullGirth}}, "en"},
		"short":   {boat(8, parse.Inch), []parse.Cell{{At: feet(3), Measure: parse.FullGirth}, {At: feet(4), Measure: parse.MeasurePair}}, "en"},
		"square":  {square, []parse.Cell{{Measure: parse.TransomPair}, {Measure: parse.SternHeight}, {At: feet(5), Measure: parse.MeasurePair}}, "en"},
		"decked":  {decked, []parse.Cell{{Measure: parse.BowHeight}, {Measure: parse.LengthOverall}, {Measure: parse.CarryPoint}, {At: feet(9), Measure: parse.FullGirth}}, "en"},
		"metric":  {metric, []parse.Cell{{At: parse.Centimetres(210), Measure: parse.HullGirth}, {At: parse.Centimetres(300), Measure: parse.FullGirth}, {Measure: parse.GreatestPair}}, "fr"},
		"nothing": {parse.Survey{Unit: parse.Inch}, nil, "en"},
		"blank":   {parse.Survey{Unit: parse.Centimetre}, []parse.Cell{{Measure: parse.LengthOverall}}, "fr"},
		"eight": {boat(24, parse.Inch), []parse.Cell{
			{At: feet(2), Measure: parse.HullGirth}, {At: feet(4), Measure: parse.FullGirth}, {At: feet(5), Measure: parse.HullGirth},
			{At: feet(9), Measure: parse.MeasurePair}, {At: feet(12), Measure: parse.HullGirth}, {At: feet(15), Measure: parse.FullGirth},
			{At: feet(18), Measure: parse.HullGirth}, {At: feet(23), Measure: parse.FullGirth}}, "en"},
	}
}

func TestForCustomer(t *testing.T) {
	for name, q := range questions() {
		p, err := ForCustomer(q.survey, q.asked, q.language)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		show(t, "mail-"+name, p)
		c, err := png.DecodeConfig(bytes.NewReader(p.PNG))
		if err != nil || c.Width != mailWidth || c.Height < 500 || c.Height > 950 {
			t.Errorf("%s: %+v, %v", name, c, err)
		}
		if len(p.PNG) > 300<<10 {
			t.Errorf("%s: %d bytes, want at most 300 kB of a mail of 1 MB", name, len(p.PNG))
		}
	}
}

func TestCustomerAlt(t *testing.T) {
	for name, want := range map[string]string{
		"nothing": "Drawing of the boat from the side, bow on the left, with the stations along a string.",
		"one":     "Drawing of the boat from the side, bow on the left, with the stations along a string. Ringed, to be measured: hull girth at 7 ft.",
		"blank":   "Dessin du bateau vu de côté, l’avant à gauche, avec les stations le long d’une ficelle. Entouré, à mesurer : la longueur hors tout.",
		"metric": "Dessin du bateau vu de côté, l’avant à gauche, avec les stations le long d’une ficelle. " +
			"Entouré, à mesurer : le tour de coque à 210 cm, le tour complet à 300 cm et les deux plus grands tours.",
	} {
		q := questions()[name]
		p, err := ForCustomer(q.survey, q.asked, q.language)
		if err != nil || p.Alt != want {
			t.Errorf("%s: %q, %v; want %q", name, p.Alt, err, want)
		}
	}
}

// The numbers of the alternative text are the asked stations and no others: no
// girth, no height, no length.
func TestCustomerAltHoldsNoMeasuredNumber(t *testing.T) {
	numbers := regexp.MustCompile(`[0-9]+`)
	for name, q := range questions() {
		d := &drawing{boat: newSide(q.survey, q.asked), say: phrases(q.language), language: q.language}
		alt := d.alt(q.asked)
		var asked []string
		for _, c := range q.asked {
			if c.At > 0 {
				asked = append(asked, numbers.FindAllString(place(c.At, q.survey.Unit, q.language), -1)...)
			}
		}
		for _, n := range numbers.FindAllString(alt, -1) {
			if !slices.Contains(asked, n) {
				t.Errorf("%s: number %s in %q", name, n, alt)
			}
		}
	}
}

// What the customer sees does not depend on any girth, so it cannot tell what
// we think of one.
func TestCustomerPictureKnowsNoGirth(t *testing.T) {
	q := questions()["one"]
	want, err := ForCustomer(q.survey, q.asked, q.language)
	if err != nil {
		t.Fatal(err)
	}
	for i := range q.survey.Stations {
		q.survey.Stations[i].HullGirth.Value *= 3
		q.survey.Stations[i].FullGirth = parse.Reading{}
	}
	q.survey.Greatest.HullGirth.Value = parse.Inches(1)
	got, err := ForCustomer(q.survey, q.asked, q.language)
	if err != nil || !bytes.Equal(got.PNG, want.PNG) {
		t.Errorf("the picture changed with the girths (%v)", err)
	}
}

// A number that is asked again is not drawn from.
func TestAskedNumbersAreNotBelieved(t *testing.T) {
	q := questions()["decked"]
	want, err := ForCustomer(q.survey, q.asked, "en")
	if err != nil {
		t.Fatal(err)
	}
	q.survey.BowHeight.Value = parse.Inches(33)
	got, err := ForCustomer(q.survey, q.asked, "en")
	if err != nil || !bytes.Equal(got.PNG, want.PNG) {
		t.Errorf("the picture follows a height that is asked again (%v)", err)
	}
}

func BenchmarkForCustomer(b *testing.B) {
	q := questions()["eight"]
	for b.Loop() {
		if _, err := ForCustomer(q.survey, q.asked, q.language); err != nil {
			b.Fatal(err)
		}
	}
}
