package opener

import (
	"testing"

	"fairtape/ingest"
	"fairtape/parse"
)

// TestNoticesOfFiles holds that a number of a file is another where the mail says
// so plainly, and left to a person where the mail says that it may be.
func TestNoticesOfFiles(t *testing.T) {
	const sheet = "Length overall,8 ft 4 in\nBow height,17 in\nStern height,16 in\nCarry point,20 in\n\nStation (ft),Hull girth (in),Full girth (in)\n" +
		"1,33,43\n2,37.5,55.5\n3,41,64.5\n4,43,70\n5,44,92.5\n6,43.5,71.5\n7,41.5,66.5\n8,38,57\n"
	full := parse.Cell{At: parse.Inches(60), Measure: parse.FullGirth}
	hull := parse.Cell{At: parse.Inches(60), Measure: parse.HullGirth}
	for said, want := range map[string]struct {
		mended bool // the full girth at 5 ft is 72.5
		doubt  []parse.Cell
	}{
		"In the sheet I typed the full girth at 5 ft wrong. It should be 72 1/2 in.": {true, nil},
		"Correction: full girth at 5 ft is 72.5 in, not 92.5 in as in the sheet.":    {true, nil},
		"Please note the 92.5 in row 5 ft should be 72 1/2.":                         {true, nil},
		"PS 92.5 should read 72.5":                                                     {true, nil},
		"The full girth at 5 ft: I wrote 92.5, it is really 72.5":                      {true, nil},
		"The full girth at 5 ft is wrong, sorry.":                                      {false, []parse.Cell{full}},
		"Something is wrong at 5 ft.":                                                  {false, []parse.Cell{full, hull}},
		"I am not sure about the 92.5.":                                                {false, []parse.Cell{full}},
		"The full girth at 5 ft should maybe be 72.5.":                                 {false, []parse.Cell{full}},
		"Should the full girth at 5 ft be 72.5?":                                       {false, []parse.Cell{full}},
		"The 5 ft numbers: 72.5 and 44 should be right now.":                           {false, []parse.Cell{full, hull}},
		"The sheet is right: 92.5 at 5 ft is correct, 72.5 in my last mail was wrong.": {false, []parse.Cell{full, hull}},
	} {
		msg := ingest.Message{
			Text:        "Hello,\n\nthe sheet is attached.\n" + said + "\n\nBest wishes\nAnn\n",
			Attachments: []ingest.Attachment{{Name: "canoe.csv", Data: []byte(sheet)}},
		}
		mail, err := newOpener(t).Read(t.Context(), msg, "m.eml")
		if err != nil {
			t.Fatal(err)
		}
		survey, _ := parse.Merge(mail.Documents()...)
		if len(survey.Stations) != 8 {
			t.Errorf("%s: %d stations", said, len(survey.Stations))
			continue
		}
		at := survey.Stations[4]
		for cell, r := range map[parse.Cell]parse.Reading{full: at.FullGirth, hull: at.HullGirth} {
			doubted := false
			for _, d := range want.doubt {
				doubted = doubted || d == cell
			}
			value := map[parse.Cell]float64{full: 72.5, hull: 44}[cell]
			switch {
			case doubted && r.Certain():
				t.Errorf("%s: %s is sure", said, cell.Measure)
			case !doubted && (!r.Certain() || r.Value != parse.Inches(value)):
				t.Errorf("%s: %s is %v, sure %t", said, cell.Measure, r.Value.In(parse.Inch), r.Certain())
			}
		}
	}
}
