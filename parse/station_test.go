package parse

import (
	"slices"
	"testing"
)

func TestParseStation(t *testing.T) {
	for _, text := range []string{"", "bow", "average", "total", "46-47", "2 - 3 ft", "3 (30)", "P", "24th of May", "hull 3"} {
		if n, f := ParseStation(text); !f.Some() {
			t.Errorf("ParseStation(%q) = %v, want a fault", text, n)
		}
	}
	tests := []struct {
		text string
		want Name
	}{
		{"7", Name{Amount: Amount{7, Bare}}},
		{"1 ft", Name{Amount: Amount{1, ScaleFoot}}},
		{"1'", Name{Amount: Amount{1, ScaleFoot}}},
		{"1' 6\"", Name{Amount: Amount{18, ScaleInch}}},
		{"30 cm", Name{Amount: Amount{30, ScaleCM}}},
		{"at 3 ft", Name{Amount: Amount{3, ScaleFoot}}},
		{"3 ft from bow", Name{Amount: Amount{3, ScaleFoot}}},
		{"Station à 30 cm", Name{Amount: Amount{30, ScaleCM}}},
		{"St. 3", Name{Amount: Amount{3, Bare}, Ordinal: true}},
		{"Station 3", Name{Amount: Amount{3, Bare}, Ordinal: true}},
		{"#4", Name{Amount: Amount{4, Bare}, Ordinal: true}},
		{"Station 3 ft", Name{Amount: Amount{3, ScaleFoot}}},
		{"foot 3", Name{Amount: Amount{3, ScaleFoot}}},
		{"3rd foot", Name{Amount: Amount{3, ScaleFoot}}},
		{"3-ft", Name{Amount: Amount{3, ScaleFoot}}},
		{"Bow + 3 ft", Name{Amount: Amount{3, ScaleFoot}}},
		{"30 cm de la proue", Name{Amount: Amount{30, ScaleCM}}},
		{"3)", Name{Amount: Amount{3, Bare}}},
		{"3rd", Name{Amount: Amount{3, Bare}, Ordinal: true}},
		{"2e repère", Name{Amount: Amount{2, Bare}, Ordinal: true}},
		{"P3", Name{Amount: Amount{3, Bare}, Ordinal: true}},
		{"Station 2 (24 in)", Name{Amount: Amount{24, ScaleInch}}},
		{"1 - 1 ft", Name{Amount: Amount{1, ScaleFoot}}},
		{"Stn 2: 60 cm", Name{Amount: Amount{60, ScaleCM}}},
		{"Transom", Name{Special: NamedTransom}},
		{"Tableau arrière", Name{Special: NamedTransom}},
		{"Greatest girth", Name{Special: NamedGreatest}},
	}
	for _, tt := range tests {
		if n, f := ParseStation(tt.text); f.Some() || n != tt.want {
			t.Errorf("ParseStation(%q) = %v, %q; want %v", tt.text, n, f.Code, tt.want)
		}
	}
}

func TestStations(t *testing.T) {
	tests := []struct {
		name    string
		texts   []string
		hint    StationHint
		want    []Length
		unclear bool
	}{
		{"farther than any boat is long", []string{"30", "60", "5.12 m"}, StationHint{Unit: Centimetre},
			[]Length{Centimetres(3000), Centimetres(6000), Centimetres(512)}, true},
		{"the fore half of a boat in centimetres, or all of a longer one", []string{"30", "60", "90", "120"}, StationHint{Unit: Centimetre, Overall: Centimetres(450)},
			[]Length{Inches(30), Inches(60), Inches(90), Inches(120)}, true},
		{"most beyond the stern", []string{"30 in", "60 in", "90 in", "120 in"}, StationHint{Unit: Centimetre, Overall: Centimetres(150)},
			[]Length{Inches(30), Inches(60), Inches(90), Inches(120)}, true},
		{"one beyond the stern", []string{"1 ft", "2 ft", "3 ft", "4 ft"}, StationHint{Unit: Inch, Overall: Inches(40)},
			[]Length{Inches(12), Inches(24), Inches(36), Inches(48)}, false},
		{"count in a metric survey", []string{"1", "2", "3", "4", "5", "6", "7"}, StationHint{Unit: Centimetre, Overall: Centimetres(240)},
			[]Length{Inches(12), Inches(24), Inches(36), Inches(48), Inches(60), Inches(72), Inches(84)}, true},
		{"metric numbers in an inch survey of unknown length", []string{"30", "60", "90", "120"}, StationHint{Unit: Inch},
			[]Length{Centimetres(30), Centimetres(60), Centimetres(90), Centimetres(120)}, true},
		{"counted, two feet apart", []string{"#1", "#2", "#3", "#4", "#5", "#6", "#7"}, StationHint{Unit: Inch, Overall: Inches(189)},
			[]Length{Inches(12), Inches(24), Inches(36), Inches(48), Inches(60), Inches(72), Inches(84)}, true},
		{"counted in a metric survey of unknown length", []string{"#1", "#2"}, StationHint{Unit: Centimetre}, []Length{Centimetres(30), Centimetres(60)}, true},
		{"feet of a boat four metres and more long", []string{"1", "2", "3", "4"}, StationHint{Unit: Inch, Overall: Inches(189)},
			[]Length{Inches(12), Inches(24), Inches(36), Inches(48)}, false},
		{"no metres in a metric survey either", []string{"1", "2", "3", "4"}, StationHint{Unit: Centimetre, Overall: Centimetres(480)},
			[]Length{Inches(12), Inches(24), Inches(36), Inches(48)}, true},
		{"feet or two feet", []string{"1", "2", "3", "4", "5", "6", "7"}, StationHint{Unit: Inch, Overall: Inches(189)},
			[]Length{Inches(12), Inches(24), Inches(36), Inches(48), Inches(60), Inches(72), Inches(84)}, true},
		{"feet of a boat half done", []string{"1", "2", "3", "4", "5", "6", "7"}, StationHint{Unit: Inch, Overall: Inches(189), Half: true},
			[]Length{Inches(12), Inches(24), Inches(36), Inches(48), Inches(60), Inches(72), Inches(84)}, false},
		{"feet", []string{"1", "2", "3"}, StationHint{Unit: Inch}, []Length{Inches(12), Inches(24), Inches(36)}, false},
		{"half feet", []string{"0.5", "1", "1.5", "2", "3"}, StationHint{Unit: Inch}, []Length{Inches(6), Inches(12), Inches(18), Inches(24), Inches(36)}, false},
		{"inches", []string{"12", "24", "36"}, StationHint{Unit: Inch}, []Length{Inches(12), Inches(24), Inches(36)}, false},
		{"finer inches", []string{"6", "12", "18", "24", "36"}, StationHint{Unit: Inch}, []Length{Inches(6), Inches(12), Inches(18), Inches(24), Inches(36)}, false},
		{"centimetres", []string{"30", "60", "90"}, StationHint{Unit: Centimetre}, []Length{Centimetres(30), Centimetres(60), Centimetres(90)}, false},
		{"millimetres", []string{"300", "600", "900"}, StationHint{Unit: Centimetre}, []Length{Centimetres(30), Centimetres(60), Centimetres(90)}, false},
		{"metres", []string{"0.3", "0.6", "0.9"}, StationHint{Unit: Centimetre}, []Length{Centimetres(30), Centimetres(60), Centimetres(90)}, false},
		{"every ten inches by the length", []string{"10", "20", "30", "40", "50", "60", "70", "80"}, StationHint{Unit: Inch, Overall: Inches(96)},
			[]Length{Inches(10), Inches(20), Inches(30), Inches(40), Inches(50), Inches(60), Inches(70), Inches(80)}, false},
		{"counted", []string{"St. 1", "St. 2", "Transom"}, StationHint{Unit: Inch}, []Length{Inches(12), Inches(24), 0}, false},
		{"counted, metric", []string{"#1", "#2"}, StationHint{Unit: Centimetre, Overall: Centimetres(110)}, []Length{Centimetres(30), Centimetres(60)}, false},
		{"unit named once", []string{"1 ft", "2", "3"}, StationHint{Unit: Centimetre}, []Length{Inches(12), Inches(24), Inches(36)}, false},
	}
	for _, tt := range tests {
		var names []Name
		for _, text := range tt.texts {
			n, f := ParseStation(text)
			if f.Some() {
				t.Fatalf("%s: %q: %s", tt.name, text, f.Message)
			}
			names = append(names, n)
		}
		got, f := Stations(names, tt.hint)
		if f.Some() != tt.unclear {
			t.Errorf("%s: unclear is %v, want %v", tt.name, f.Some(), tt.unclear)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}
