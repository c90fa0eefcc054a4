package validate

import (
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate/slip"
)

func TestReportJSON(t *testing.T) {
	in := func(x float64) *parse.Length { l := parse.Inches(x); return &l }
	tests := []struct {
		name   string
		report Report
		want   string
	}{
		{"nothing", Report{Verdict: Unreadable},
			`"findings":[],"problems":[],"verdict":"unreadable"}`},
		{"a girth", Report{Survey: parse.Survey{Unit: parse.Inch}, Findings: []Finding{{
			Kind: Recheck, Rule: "fair-curve", Cell: parse.Cell{At: parse.Inches(84), Measure: parse.HullGirth}, Slip: slip.OffByTen,
			Read: in(41), Expected: in(50.8), Low: in(50.1), High: in(51.5), Suggest: in(51), Probability: 0.98, Message: "m"}}, Verdict: NeedRecheck},
			`"findings":[{"kind":"recheck","rule":"fair-curve","at":84,"rows":[],"measure":"hull_girth","read":41,"expected":50.8,` +
				`"expected_low":50.1,"expected_high":51.5,"slip":"off-by-ten","suggest":51,"probability":0.98,"message":"m"}],"problems":[],"verdict":"recheck"}`},
		{"rows, in centimetres", Report{Survey: parse.Survey{Unit: parse.Centimetre}, Findings: []Finding{{
			Kind: Recheck, Rows: []parse.Length{parse.Centimetres(150), parse.Centimetres(180)}, Slip: slip.RowSkipped}}},
			`"at":null,"rows":[150,180],"measure":null,"read":null,"expected":null,"expected_low":null,"expected_high":null,"slip":"row-skipped","suggest":null,`},
		{"a measure of the whole boat", Report{Findings: []Finding{{Kind: Missing, Cell: parse.Cell{Measure: parse.BowHeight}}}},
			`"at":null,"rows":[],"measure":"bow_height","read":null,`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := tt.report.JSON([]string{"a.csv"})
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(string(got), `{"files":["a.csv"],"survey":{`) || !strings.Contains(string(got), tt.want) {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}
