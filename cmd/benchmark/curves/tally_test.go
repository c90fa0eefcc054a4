package curves

import (
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
	"fairtape/validate/slip"
)

// feet returns the cell at so many feet.
func feet(f float64, m parse.Measure) parse.Cell {
	return parse.Cell{At: parse.Inches(12 * f), Measure: m}
}

func rows(f ...float64) []parse.Length {
	var out []parse.Length
	for _, x := range f {
		out = append(out, parse.Inches(12*x))
	}
	return out
}

func TestScore(t *testing.T) {
	survey := known.Wigley().Exact(parse.Inch)
	at := func(in float64) *parse.Length { l := parse.Inches(in); return &l }
	digit := known.Done{Slip: known.Digit, Name: "digit", Wrong: []known.Wrong{
		{Cell: feet(4, parse.HullGirth), Truth: parse.Inches(36), Name: "digit"},
	}}
	swapped := known.Done{Slip: known.Swapped, Name: "swapped-pair", Wrong: []known.Wrong{
		{Cell: feet(4, parse.HullGirth), Truth: parse.Inches(36), Name: "swapped-pair"},
		{Cell: feet(4, parse.FullGirth), Truth: parse.Inches(61), Name: "swapped-pair"},
	}}
	two := known.Done{Slip: known.TwoSlips, Wrong: []known.Wrong{
		{Cell: feet(4, parse.HullGirth), Truth: parse.Inches(36), Name: "digit"},
		{Cell: feet(9, parse.FullGirth), Truth: parse.Inches(74.5), Name: "off-by-ten"},
	}}
	skipped := known.Done{Slip: known.RowSkipped, Name: "row-skipped", Rows: rows(7, 8, 9)}
	column := known.Done{Slip: known.AllSwapped, Name: "swapped-pair"}
	for _, row := range survey.Stations {
		column.Rows = append(column.Rows, row.At)
	}
	recheck := func(c parse.Cell, k slip.Kind, suggest *parse.Length) validate.Finding {
		return validate.Finding{Kind: validate.Recheck, Cell: c, Slip: k, Suggest: suggest}
	}
	aboutRows := func(k slip.Kind, f ...float64) validate.Finding {
		return validate.Finding{Kind: validate.Confirm, Rows: rows(f...), Slip: k}
	}
	tests := []struct {
		name     string
		done     known.Done
		findings []validate.Finding
		want     tally
	}{
		{"a note asks nobody", digit, []validate.Finding{{Kind: validate.Note, Cell: feet(4, parse.HullGirth)}}, tally{}},
		{"another cell", digit, []validate.Finding{recheck(feet(4, parse.FullGirth), slip.Digit, at(36))}, tally{needless: 1}},
		{"value too far", digit, []validate.Finding{recheck(feet(4, parse.HullGirth), slip.Digit, at(37.5))}, tally{found: 1, named: 1}},
		{"another name", digit, []validate.Finding{recheck(feet(4, parse.HullGirth), slip.OffByTen, at(37))}, tally{found: 1, valued: 1}},
		{"right", digit, []validate.Finding{recheck(feet(4, parse.HullGirth), slip.Digit, at(36))}, tally{found: 1, named: 1, valued: 1}},
		{"a pair is two numbers", digit, []validate.Finding{recheck(feet(4, parse.MeasurePair), slip.Digit, nil)}, tally{found: 1, named: 1, needless: 1}},
		{"a number asked twice is one", digit, []validate.Finding{recheck(feet(5, parse.HullGirth), "", nil), recheck(feet(5, parse.HullGirth), "", nil)}, tally{needless: 1}},
		{"clean, a question about the boat", known.Done{}, []validate.Finding{{Kind: validate.Confirm}}, tally{needless: 1}},
		{"clean, the greatest pair", known.Done{}, []validate.Finding{recheck(parse.Cell{Measure: parse.GreatestPair}, "", nil)}, tally{needless: 2}},
		{"half of a swapped pair", swapped, []validate.Finding{recheck(feet(4, parse.HullGirth), slip.SwappedPair, nil)}, tally{named: 0}},
		{"swapped", swapped, []validate.Finding{recheck(feet(4, parse.MeasurePair), slip.SwappedPair, nil)}, tally{found: 1, named: 1, valued: 1}},
		{"one of two", two, []validate.Finding{recheck(feet(4, parse.HullGirth), slip.Digit, at(36))}, tally{}},
		{"both of two", two, []validate.Finding{
			recheck(feet(4, parse.HullGirth), slip.Digit, at(36)), recheck(feet(9, parse.FullGirth), slip.OffByTen, at(74.5)),
		}, tally{found: 1, named: 1, valued: 1}},
		{"skipped, two rows away", skipped, []validate.Finding{aboutRows(slip.RowSkipped, 5, 6, 7, 8, 9)}, tally{needless: 4}},
		{"skipped, one row away", skipped, []validate.Finding{aboutRows(slip.RowSkipped, 6, 7, 8, 9)}, tally{found: 1, named: 1, valued: 1}},
		{"skipped, taken for something else", skipped, []validate.Finding{aboutRows(slip.FromStern, 7, 8, 9)}, tally{}},
		{"a column, one row of it", column, []validate.Finding{recheck(feet(4, parse.MeasurePair), slip.SwappedPair, nil)}, tally{found: 1}},
		{"a column", column, []validate.Finding{aboutRows(slip.SwappedPair, 1, 2, 3)}, tally{found: 1, named: 1, valued: 1}},
	}
	for _, tt := range tests {
		tt.want.surveys = 1
		if got := score(trial{survey: survey, done: tt.done}, tt.findings); got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

func TestRight(t *testing.T) {
	survey := known.Wigley().Exact(parse.Inch)
	finding := validate.Finding{Kind: validate.Recheck, Cell: feet(4, parse.HullGirth)}
	wrong := []known.Wrong{{Cell: feet(4, parse.HullGirth)}}
	tests := []struct {
		name string
		done known.Done
		want bool
	}{
		{"nothing done", known.Done{}, false},
		{"half an inch", known.Done{Slip: known.HalfLost, Wrong: wrong}, false},
		{"another row", known.Done{Slip: known.RowRepeated, Rows: rows(5)}, false},
		{"that number", known.Done{Slip: known.Digit, Wrong: wrong}, true},
		{"that row", known.Done{Slip: known.RowRepeated, Rows: rows(4)}, true},
	}
	for _, tt := range tests {
		if got := (trial{survey: survey, done: tt.done}).right(finding); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}
