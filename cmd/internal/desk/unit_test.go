package desk

import (
	"testing"

	"fairtape/parse"
)

// A number without a unit counts in that of the job where it comes near what is
// known, and stays in doubt elsewhere.
func TestSettleUnits(t *testing.T) {
	at := func(feet float64, m parse.Measure) parse.Cell {
		return parse.Cell{At: parse.Inches(12 * feet), Measure: m}
	}
	inches := func(v float64) parse.Reading {
		return parse.Reading{Value: parse.Inches(v), Known: true, Confidence: 1}
	}
	known := parse.Survey{Unit: parse.Inch, BowHeight: inches(28), Stations: []parse.Station{
		{At: parse.Inches(60), Pair: parse.Pair{HullGirth: inches(64.5), FullGirth: inches(118)}},
		{At: parse.Inches(108), Pair: parse.Pair{HullGirth: inches(60.5)}}}}
	tests := []struct {
		name string
		cell parse.Cell
		raw  string
		want float64 // inches; 0: it stays in doubt
	}{
		{"centimetres", at(9, parse.HullGirth), "179", 0},
		{"a lost decimal", at(9, parse.HullGirth), "705", 0},
		{"with a unit of its own", at(9, parse.HullGirth), "70 cm", 0},
		{"two numbers", at(9, parse.HullGirth), "70 / 71", 0},
		{"nothing like it is known", parse.Cell{Measure: parse.CarryPoint}, "16", 0},
		{"inches", at(9, parse.HullGirth), "70 1/2", 70.5},
		{"missing, beside another station", at(9, parse.FullGirth), "121 1/2", 121.5},
		{"missing, like the other end", parse.Cell{Measure: parse.SternHeight}, "27", 27},
	}
	for _, tt := range tests {
		source := parse.Source{File: "mail", Place: "line 1", Raw: tt.raw}
		r := route{problems: []parse.Problem{{Code: parse.CodeUnitUnclear, Source: source}}}
		*readingAt(&r.survey, tt.cell) = parse.Reading{Source: source}
		r.settleUnits(known)
		got := ReadingAt(r.survey, tt.cell)
		if got.Certain() != (tt.want != 0) || tt.want != 0 && got.Value != parse.Inches(tt.want) || len(r.problems) != map[bool]int{true: 0, false: 1}[tt.want != 0] {
			t.Errorf("%s: %q is %+v with %d problems, want %v", tt.name, tt.raw, got, len(r.problems), tt.want)
		}
	}
}
