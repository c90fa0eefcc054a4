package reply

import (
	"strings"
	"testing"
	"time"

	"fairtape/parse"
)

// Unicode CLDR 45, supplemental plural rules, cardinal: en "one: i = 1 and
// v = 0"; fr "one: i = 0,1".
func TestPlural(t *testing.T) {
	for _, test := range []struct {
		language string
		n        int
		want     string
	}{
		{English, 0, "places"}, {English, 1, "place"}, {English, 2, "places"}, {English, 21, "places"},
		{French, 0, "place"}, {French, 1, "place"}, {French, 2, "places"}, {French, 21, "places"},
	} {
		if got := languageOf(test.language).plural(test.n, "place", "places"); got != test.want {
			t.Errorf("%s, %d: %q, want %q", test.language, test.n, got, test.want)
		}
	}
}

func TestLanguageOf(t *testing.T) {
	for tag, want := range map[string]string{"": English, "de": English, "FR": French, "fr-CA": French, "fr_CA": French, "en-GB": English, "fro": English} {
		if got := languageOf(tag).code; got != want {
			t.Errorf("languageOf(%q) = %q, want %q", tag, got, want)
		}
	}
}

func TestLengthsAndPlaces(t *testing.T) {
	spaced := func(s string) string { return strings.ReplaceAll(s, nbsp, " ") }
	for _, test := range []struct {
		language      string
		x             parse.Length
		unit          parse.Unit
		length, place string
	}{
		{English, parse.Inches(0), parse.Inch, "0 in", "0 in"},
		{English, parse.Inches(0.5), parse.Inch, "1/2 in", "1/2 in"},
		{English, parse.Inches(35.5), parse.Inch, "35 1/2 in", "2 ft 11 1/2 in"},
		{English, parse.Inches(84), parse.Inch, "84 in", "7 ft"},
		{English, parse.Inches(90.75), parse.Inch, "90 3/4 in", "7 ft 6 3/4 in"},
		{English, parse.Inches(50.8), parse.Inch, "50.8 in", "4 ft 2.8 in"},
		{English, parse.Centimetres(80.5), parse.Centimetre, "80.5 cm", "80.5 cm"},
		{French, parse.Centimetres(80.5), parse.Centimetre, "80,5 cm", "80,5 cm"},
		{French, parse.Centimetres(210), parse.Centimetre, "210 cm", "210 cm"},
		{French, parse.Inches(90), parse.Inch, "90 po", "7 pi 6 po"},
	} {
		l := languageOf(test.language)
		if got := spaced(l.length(test.x, test.unit)); got != test.length {
			t.Errorf("%s: length %q, want %q", test.language, got, test.length)
		}
		if got := spaced(l.place(test.x, test.unit)); got != test.place {
			t.Errorf("%s: place %q, want %q", test.language, got, test.place)
		}
	}
}

// Every station that a letter names can be read back as it was meant.
func TestPlacesReadBack(t *testing.T) {
	for _, code := range []string{English, French} {
		for halves := 1; halves < 600; halves++ {
			want := parse.Inches(float64(halves) / 2)
			text := languageOf(code).place(want, parse.Inch)
			name, fault := parse.ParseStation(text)
			got, ok := name.Amount.Length(parse.ScaleInch)
			if fault.Some() || !ok || !near(got, want) {
				t.Fatalf("%s: %q reads back as %v, %v", code, text, got, fault)
			}
		}
	}
}

func TestDatesAndLists(t *testing.T) {
	first := time.Date(2026, time.December, 1, 8, 0, 0, 0, time.UTC) // a Tuesday
	for _, test := range []struct{ language, day, none, one, three string }{
		{English, "Tuesday 1 December", "", "a", "a, b and c"},
		{French, "mardi 1er décembre", "", "a", "a, b et c"},
	} {
		l := languageOf(test.language)
		if got := strings.ReplaceAll(l.day(first), nbsp, " "); got != test.day {
			t.Errorf("day %q, want %q", got, test.day)
		}
		for list, want := range map[string]string{"": test.none, "a": test.one, "a b c": test.three} {
			if got := l.list(strings.Fields(list)); got != want {
				t.Errorf("list of %q: %q, want %q", list, got, want)
			}
		}
	}
	if got := strings.ReplaceAll(languages[French].date(first.AddDate(0, 0, 20)), nbsp, " "); got != "21 décembre" {
		t.Errorf("date %q", got)
	}
}
