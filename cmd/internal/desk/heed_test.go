package desk

import (
	"slices"
	"testing"

	"fairtape/parse"
	"fairtape/parse/prose"
)

// A later mail that doubts a number of an earlier one leaves it to a person, and
// one that says plainly what it is, gives it. A number is not doubted by the
// sentence that answers what was asked of it.
func TestLaterMailsAreHeeded(t *testing.T) {
	hull9, full9, full7, bow := "9 hull", "9 full", "7 full", "bow"
	for _, tt := range []struct {
		body  string
		doubt []string
		given float64 // inches, of the hull girth at 9 ft; 0 for the number from before
	}{
		{"Hello,\n\nI am not sure about 9 ft in the sheet I sent.\n\nAnn", []string{hull9, full9}, 0},
		{"The full girth at 7 ft in my sheet may be off, I was in a hurry.", []string{full7}, 0},
		{"I think the bow height I gave you is wrong, will measure it tomorrow.", []string{bow}, 0},
		{"Je ne suis pas sûr du tour complet à 7 pieds.", []string{full7}, 0},
		{"One of the numbers in my sheet is wrong, I think.", nil, 0},
		{"Nothing is wrong at 9 ft, I looked.", nil, 0},
		{"The hull girth at 9 ft is 70 1/2.\nI am not sure about the full girth at 7 ft.", []string{full7}, 70.5},
		{"I measured the hull girth at 9 ft again and got 70 1/2.", nil, 70.5},
		{"The hull girth at 9 ft should be 70 1/2, not 60 1/2.", nil, 70.5},
	} {
		base := asked(t)
		cells := map[string]parse.Cell{
			hull9: {At: parse.Inches(108), Measure: parse.HullGirth}, full9: {At: parse.Inches(108), Measure: parse.FullGirth},
			full7: {At: parse.Inches(84), Measure: parse.FullGirth}, bow: {Measure: parse.BowHeight},
		}
		// The lines of two mails have the same numbers.
		*readingAt(&base, cells[full7]) = parse.Reading{Value: readingAt(&base, cells[full7]).Value, Known: true, Confidence: 1, Source: parse.Source{File: mailName, Place: "line 1"}}
		body := prose.Read(mailName, tt.body, "")
		got, problems, _ := heed(base, body, nil)
		survey, _ := correct(base, revise(got, surveyOf(body)), nil, body.Corrections, nil)
		for name, cell := range cells {
			doubted := slices.Contains(tt.doubt, name)
			if r := readingAt(&survey, cell); r.Certain() == doubted {
				t.Errorf("%s: %s: sure %t", tt.body, name, r.Certain())
			}
		}
		if r := readingAt(&survey, cells[hull9]); tt.given != 0 && r.Value != parse.Inches(tt.given) {
			t.Errorf("%s: the hull girth at 9 ft is %v", tt.body, r.Value.In(parse.Inch))
		}
		if left := standing(problems, survey); len(left) != len(tt.doubt) {
			t.Errorf("%s: %d problems, want %d: %v", tt.body, len(left), len(tt.doubt), left)
		}
	}
}

func surveyOf(m prose.Mail) parse.Survey {
	s, _ := parse.Merge(m.Document)
	return s
}
