package picture

import (
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
		t.Log(name, p.Alt, len(p.PNG))
	}
}
