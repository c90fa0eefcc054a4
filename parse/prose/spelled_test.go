package prose

import (
	"math"
	"testing"

	"fairtape/parse"
)

func TestFigures(t *testing.T) {
	for text, want := range map[string]string{
		"at seven feet four the hull":      "at seven feet four the hull",
		"at seven feet and a half":         "at seven feet and a half",
		"at seven feet 4":                  "at seven feet 4",
		"length seven feet":                "length seven feet",
		"at some feet":                     "at some feet",
		"At nine feet from the bow":        "At 9 feet from the bow",
		"the hull at Nine ft is 70":        "the hull at 9 ft is 70",
		"at five feet, at nine feet: 70.5": "at 5 feet, at 9 feet: 70.5",
	} {
		if got := figures(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}

// A label and its number with nothing but a comma between them, as a sheet that
// was pasted into a mail has them.
func TestGluedComma(t *testing.T) {
	m := Read("mail", "length overall,17 ft 1/2 in\nbow height,28 in", "")
	if len(m.Document.Surveys) != 1 {
		t.Fatalf("read %+v", m.Document)
	}
	if s := m.Document.Surveys[0]; s.LengthOverall.Value != parse.Inches(204.5) || s.BowHeight.Value != parse.Inches(28) {
		t.Errorf("length overall %+v, bow height %+v", s.LengthOverall, s.BowHeight)
	}
}

// Words before a place that are closed do not hide it, and a girth without a
// place is an answer only where no place is meant.
func TestAnswersInTalk(t *testing.T) {
	tests := []struct {
		text    string
		measure parse.Measure // "" for no answer
		feet    float64       // 0 for no place
		inches  float64
	}{
		{"The hull girth is 70 1/2 at the third mark.", "", 0, 0},
		{"The hull girth is about 70 1/2.", "", 0, 0},
		{"The hull girth near the middle is 70 1/2.", "", 0, 0},
		{"The hull girth is 70 1/2.", parse.HullGirth, 0, 70.5},
		{"The full girth came out as 109.", parse.FullGirth, 0, 109},
		{"Bonjour, 9 ft hull girth 70 1/2, merci!", parse.HullGirth, 9, 70.5},
		{"Anyway: 9 ft hull girth is 70 1/2.", parse.HullGirth, 9, 70.5},
		{"At nine feet from the bow the hull girth is 70 1/2 inches.", parse.HullGirth, 9, 70.5},
	}
	for _, tt := range tests {
		m := Read("mail", tt.text, "")
		var got Correction
		if len(m.Corrections) == 1 {
			got = m.Corrections[0]
		}
		want := parse.Cell{At: parse.Inches(12 * tt.feet), Measure: tt.measure}
		if got.Cell != want || got.Placed != (tt.feet != 0) || tt.measure != "" && (len(got.Values) != 1 || got.Values[0].Value != parse.Inches(tt.inches)) {
			t.Errorf("%q says %+v, want %+v", tt.text, m.Corrections, want)
		}
	}
}

func TestBoatLength(t *testing.T) {
	for text, inches := range map[string]float64{
		"Please send me the form.":                                         0,
		"Please send me the form, I am 6 ft tall.":                         0,
		"Please send a form for our canoe, it is 16.":                      0,
		"Our canoe is 16 ft, the kayak 14 ft. Please send the form.":       0,
		"Please send me the form for my 16 ft canoe.":                      192,
		"Could you mail a form? The boat is 15 ft 9 in long.":              189,
		"Pourriez-vous envoyer le formulaire ? Notre canot mesure 4,80 m.": 480 / 2.54,
	} {
		if got := Read("mail", text, "").BoatLength; math.Abs(got.In(parse.Inch)-inches) > 1e-9 {
			t.Errorf("%q: %v in, want %v", text, got.In(parse.Inch), inches)
		}
	}
}

// TestNameAgain holds that a measure which a sentence does not name again is the
// one before it, and none where nothing stands before.
func TestNameAgain(t *testing.T) {
	const table = "\n\n1 ft 35 42\n2 ft 38 52\n3 ft 40 58\n4 ft 41 60\n"
	for text, want := range map[string][2]parse.Length{ // bow and stern; 0: none
		"celle de la poupe est de 48 cm":                                      {0, 0},
		"the height of the bow is 19.5 in and that of the stern 18":           {parse.Inches(19.5), parse.Inches(18)},
		"The bow is 17 in high and the one at the stern 15 in.":               {parse.Inches(17), parse.Inches(15)},
		"la hauteur de l'étrave est de 48,5 cm et celle de la poupe de 48 cm": {parse.Centimetres(48.5), parse.Centimetres(48)},
		"hauteur de l'étrave 48 cm, celle du tableau 44 cm, longueur 4,2 m":   {parse.Centimetres(48), 0},
	} {
		m := Read("x.txt", text+table, "")
		if len(m.Document.Surveys) != 1 {
			t.Errorf("%q: %d surveys", text, len(m.Document.Surveys))
			continue
		}
		for i, r := range []parse.Reading{m.Document.Surveys[0].BowHeight, m.Document.Surveys[0].SternHeight} {
			if r.Known != (want[i] != 0) || r.Known && r.Value != want[i] {
				t.Errorf("%q: end %d is %v, want %v mm", text, i, r, want[i])
			}
		}
	}
}

// TestSpelledFirst reads a place in words that opens a line, and leaves a length
// in words alone.
func TestSpelledFirst(t *testing.T) {
	for text, want := range map[string]string{
		"Nine feet four: 70":         "Nine feet four: 70",
		"Many feet: wet":             "Many feet: wet",
		"Nine feet of rope":          "Nine feet of rope",
		"One foot: hull 42, full 52": "1 foot: hull 42, full 52",
		"Nine feet from the bow, 48": "9 feet from the bow, 48",
	} {
		if got := figures(text); got != want {
			t.Errorf("%q became %q, not %q", text, got, want)
		}
	}
}
