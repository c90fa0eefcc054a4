package desk

import (
	"strings"
	"testing"

	"fairtape/parse"
)

func TestValues(t *testing.T) {
	s := survey(1)
	metric := parse.Survey{Unit: parse.Centimetre, Stations: []parse.Station{{At: parse.Centimetres(210)}}}
	tests := []struct {
		value  Value
		survey parse.Survey
		at     float64 // inches
		name   parse.Measure
		length float64 // inches; 0 for an error
	}{
		{Value{"7 ft", "beam", "40"}, s, 0, "", 0},
		{Value{"7 ft", "hull_girth", "about 40"}, s, 0, "", 0},
		{Value{"7 ft", "hull_girth", "41/2"}, s, 0, "", 0},
		{Value{"7 ft", "hull_girth", ""}, s, 0, "", 0},
		{Value{"7 ft", "bow_height", "18"}, s, 0, "", 0},
		{Value{"70 ft", "hull_girth", "40"}, s, 0, "", 0},
		{Value{"", "hull_girth", "40"}, s, 0, "", 0},
		{Value{"#7", "hull_girth", "40"}, s, 0, "", 0},
		{Value{"7 ft", "hull_girth", "4000"}, s, 0, "", 0},
		{Value{"-", "hull_girth", "40"}, s, 0, "", 0},
		{Value{"-", "bow_height", "18"}, parse.Survey{}, 0, "", 0},
		{Value{"-", "bow_height", "18 in"}, parse.Survey{}, 0, parse.BowHeight, 18},
		{Value{"7 ft", "hull_girth", "47 1/2"}, s, 84, parse.HullGirth, 47.5},
		{Value{"7", "hull girth", "47 1/2"}, s, 84, parse.HullGirth, 47.5},
		{Value{"84", "Full", "80"}, s, 84, parse.FullGirth, 80},
		{Value{"84 in", "full_girth", "6 ft 8"}, s, 84, parse.FullGirth, 80},
		{Value{"-", "bow_height", "18 1/2"}, s, 0, parse.BowHeight, 18.5},
		{Value{"", "length", "15 ft 9"}, s, 0, parse.LengthOverall, 189},
		{Value{"greatest", "hull_girth", "52"}, s, 0, parse.GreatestHullGirth, 52},
		{Value{"", "transom.full_girth", "52"}, s, 0, parse.TransomFullGirth, 52},
		{Value{"210", "hull_girth", "127"}, metric, 210 / 2.54, parse.HullGirth, 50},
		{Value{"7 ft", "hull_girth", "127 cm"}, s, 84, parse.HullGirth, 50},
	}
	for _, tt := range tests {
		cell, length, err := tt.value.In(tt.survey)
		if (err != nil) != (tt.length == 0) {
			t.Errorf("%+v: error %v", tt.value, err)
			continue
		}
		if err == nil && (cell != parse.Cell{At: parse.Inches(tt.at), Measure: tt.name} || length != parse.Inches(tt.length)) {
			t.Errorf("%+v is %v %s, %v", tt.value, cell.At, cell.Measure, length)
		}
		if got := valueOf(tt.value.String()); err == nil && got.Value != tt.value.Value {
			t.Errorf("%+v comes back as %+v", tt.value, got)
		}
	}
}

// What a person typed wrongly is said in their words.
func TestValuesAreToldApart(t *testing.T) {
	for _, tt := range []struct {
		value  Value
		survey parse.Survey
		want   string
	}{
		{Value{"-", "hull_girth", "40"}, survey(1), `say where the hull girth was measured, as in "7 ft"`},
		{Value{"-", "bow_height", "18"}, parse.Survey{}, `write it with the number, as in "18 in"`},
		{Value{"7 ft", "hull_girth", "4000"}, survey(1), `"4000" cannot be a measure of a boat`},
		{Value{"70 ft", "hull_girth", "40"}, survey(1), `no place "70 ft" between bow and stern`},
	} {
		if err := tt.value.Check(tt.survey); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%+v: %v, want %s", tt.value, err, tt.want)
		}
	}
}

func TestOrders(t *testing.T) {
	tests := []struct {
		text  string
		want  order
		wrong bool
	}{
		{text: "close call yesterday", wrong: true},
		{text: "no idea", wrong: true},
		{text: "bow", wrong: true},
		{text: "tracings", wrong: true},
		{text: "join us for lunch", wrong: true},
		{text: "correct 7 ft hull", wrong: true},
		{text: "own 7 ft hull 40", wrong: true},
		{text: "14", wrong: true},
		{text: "stern refused", wrong: true},
		{text: "14 tracings in", want: order{14, "received", "tracings"}},
		{text: "tracings are in", want: order{0, "received", "tracings"}},
		{text: "Bow tracing in", want: order{0, "received", "bow"}},
		{text: "stern refused the top is not marked", want: order{0, "received", "stern refused the top is not marked"}},
		{text: "14 bow sent back", want: order{14, "received", "bow sent back"}},
		{text: "bow height 18 1/2", want: order{0, "received", "bow height 18 1/2"}},
		{text: "14 close", want: order{14, "close", ""}},
		{text: "Close.", want: order{0, "close", ""}},
		{text: "14 join 17", want: order{14, "join", "17"}},
		{text: "17 split", want: order{17, "split", ""}},
		{text: "14 reopen", want: order{14, "reopen", ""}},
		{text: "no", want: order{0, "no", ""}},
		{text: "14 note in the blue  tube", want: order{14, "note", "in the blue tube"}},
		{text: "note 12 rivets", want: order{0, "note", "12 rivets"}},
		{text: "answered", want: order{0, "answered", ""}},
		{text: "answered Yes, in green.", want: order{0, "answered", "Yes, in green."}},
		{text: "correct 7 ft hull girth 47 1/2", want: order{0, "correct", "7 ft; hull_girth; 47 1/2"}},
		{text: "14 phone bow height 18", want: order{14, "correct", "bow_height; 18"}},
		{text: "own 7 ft full", want: order{0, "own", "7 ft; full_girth"}},
		{text: "tape nothing was under it", want: order{0, "tape", "nothing was under it"}},
	}
	for _, tt := range tests {
		got, ok := parseOrder(tt.text)
		if ok == tt.wrong || ok && got != tt.want {
			t.Errorf("%q is %+v (%v), want %+v", tt.text, got, ok, tt.want)
		}
	}
}
