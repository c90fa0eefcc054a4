package parse

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

func TestSurveyJSONHasAllKeys(t *testing.T) {
	got, err := json.Marshal(Survey{Unit: Inch})
	if err != nil {
		t.Fatal(err)
	}
	want := `{"unit":"in","customer":null,"boat":null,"decked":false,"stern":"pointed",` +
		`"length_overall":null,"bow_height":null,"stern_height":null,"carry_point":null,` +
		`"greatest":{"at":null,"hull_girth":null,"full_girth":null,"opening":null},` +
		`"transom":{"hull_girth":null,"full_girth":null},"stations":[]}`
	if string(got) != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestSurveyJSONComesBack(t *testing.T) {
	reading := func(text string) Reading {
		a, f := ParseLength(text)
		if f.Some() {
			t.Fatal(f.Message)
		}
		l, _ := a.Length(ScaleInch)
		return Reading{Value: l, Known: true, Confidence: Typed, Source: Source{"a.eml/b.xlsx", "Survey!B3", text}}
	}
	for _, unit := range []Unit{Inch, Centimetre} {
		var want Survey
		want.Unit, want.Stern, want.Customer, want.Decked = unit, Square, "A. Weir", true
		want.LengthOverall = reading("15' 9 7/16")
		want.CarryPoint = Reading{Alternatives: []Candidate{{Inches(46), 0.5}, {Centimetres(46), 0.5}}, Source: Source{"a", "b", "46"}}
		for i := 1; i < 200; i++ {
			want.Stations = append(want.Stations, Station{Inches(float64(i)), Pair{reading("80,7 cm"), reading("805 mm")}})
			want.Stations = append(want.Stations, Station{Centimetres(float64(30 * i)), Pair{HullGirth: reading("35 5/16")}})
		}
		data, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		var got Survey
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("a survey in %s comes back changed", unit)
		}
	}
}

func TestProblemJSON(t *testing.T) {
	want := Problem{Code: CodeRange, Source: Source{"f", "p", "46-47"}, Message: "m", Shown: &Crop{1, 2, []byte{0, 255}}}
	data, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), `"code":"range","file":"f","place":"p"`) {
		t.Errorf("got %s", data)
	}
	var got Problem
	if err := json.Unmarshal(data, &got); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, %v; want %v", got, err, want)
	}
}
