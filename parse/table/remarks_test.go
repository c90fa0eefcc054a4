package table

import (
	"strings"
	"testing"
)

// Words that only say where a number was taken leave it as it is; any that may
// say what it is do not.
func TestRemarks(t *testing.T) {
	const rows = "\nStation (ft)|Hull girth (in)|Full girth (in)\n1|35|42\n2|40|55\n3|44|66\n4|45|68"
	for _, c := range []struct {
		text string
		sure bool
	}{
		{`40 slack`, false}, {`40 to the keel`, false}, {`40 one side`, false}, {`40 over the deck`, false}, {`40 just`, false},
		{`a good 40`, false}, {`40 more or less`, false}, {`40 not sure`, false}, {`40 check`, false}, {`40 old`, false},
		{`40 minus the tape`, false}, {`40 (was 44)`, false}, {`40 without deck`, false}, {`40 half`, false}, {`40 first try`, false},
		{`40 (thwart)?`, false}, {`40 max`, false}, {`40 at the least`, false}, {`40 again`, false}, {`40 inside`, false},
		{`40 (tape twisted)`, false}, {`40 at 3 ft`, false}, {`40 double`, false}, {`40 est.`, false}, {`40 (est)`, false}, {`40 +/-`, false}, {`40 from the left`, false}, {`40 - 1 for the seat`, false},
		{`yoke 40`, false}, {`carry point: 40`, false}, {`carry thwart = 40`, false}, {`(full) 40`, false}, {`(yoke)`, false},
		{`(yoke) 40`, true}, {`(carry thwart) 40 in`, true}, {`40" (thwart)`, true}, {`40 by the yoke`, true}, {`40, checked`, true}, {`40 - rear seat`, true},
		{`40 ok`, true}, {`40 (près du banc)`, true}, {`40 just behind the bow seat`, true}, {`40 over the stern seat`, true}, {`40 widest`, false}, {`40, widest here`, true}, {`40 (2nd try)`, true}, {`40 (1st try)`, false}, {`40 (2nd boat)`, false}, {`2 seats`, false}, {`40 ribs`, false}, {`40 next to the thwart!`, true},
	} {
		want := "24:?,55"
		if c.sure {
			want = "24:40,55"
		}
		if got := read(t, grid(strings.Replace(rows, "2|40", "2|"+c.text, 1))); !strings.Contains(got, want) || !strings.Contains(got, "carry=-") || !strings.Contains(got, "48:45,68") {
			t.Errorf("%s: got %s, want %s", c.text, got, want)
		}
	}
	for _, c := range []struct{ text, want string }{
		{"Bow height|18 at the stern", "bow=?"}, {"Bow height|18 (seat)", "bow=?"}, {"Stern height|18 at the bow", "stern=?"},
		{"Length overall|120 in (deck)", "loa=-"}, {"Carry point|22 (rear thwart)", "carry=?"}, {"Carry point|22 from the stern", "carry=?"},
		{"Bow height|18, on the floor", "bow=18"}, {"Length overall|120 in (twice)", "loa=120"}, {"Carry point|22 in (front thwart)", "carry=22"},
	} {
		if got := read(t, grid(c.text+"\n"+rows)); !strings.Contains(got, c.want) {
			t.Errorf("%s: got %s, want %s", c.text, got, c.want)
		}
	}
}

// A remark beside a row that doubts it makes its girths doubtful, or the one that
// it names, and one that plainly says what is right puts it there; any other leaves
// them.
func TestRowRemarks(t *testing.T) {
	for _, c := range []struct{ heading, remark, want string }{
		{"", "not sure", "24:40?,55?"},
		{"", "or 41", "24:40?,55?"},
		{"Remarks", "I guess the full one is wrong", "24:40,55?"},
		{"Remarks", "coque à vérifier", "24:40?,55"},
		{"Remarks", "should read 41", "24:41,55"},
		{"Remarks", "should read 41?", "24:40?,55?"},
		{"Remarks", "should read 41 or 42", "24:40?,55?"},
		{"Remarks", "I think it should read 41", "24:40?,55?"},
		{"Remarks", "should read 90", "24:40?,55?"},
		{"Corrections", "hull 41", "24:40?,55"},
		{"Remarks", "measured again, the same", "24:40,55"},
		{"Remarks", "seat in the way", "24:40,55"},
		{"", "windy", "24:40,55"},
	} {
		text := "Station (ft)|Hull girth (in)|Full girth (in)|" + c.heading + "\n1|35|42|\n2|40|55|" + c.remark + "\n3|44|66|\n4|45|68|"
		want := "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35,42 " + c.want + " 36:44,66 48:45,68"
		if got := read(t, grid(text)); got != want {
			t.Errorf("%s: %s:\n got %s\nwant %s", c.heading, c.remark, got, want)
		}
	}
}

// A letter beside a row doubts it when the legend says that it does.
func TestLettersThatDoubt(t *testing.T) {
	text := "# flags: A = read twice, U = uncertain, do not rely on it\nStation (ft)|Hull girth (in)|Full girth (in)|flag\n1|35|42|A\n2|40|55|U\n3|44|66|A\n4|45|68|A"
	want := "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35,42 24:40?,55? 36:44,66 48:45,68"
	if got := read(t, grid(text)); got != want {
		t.Errorf(" got %s\nwant %s", got, want)
	}
	plain := strings.Replace(text, "uncertain, do not rely on it", "read under the seat", 1)
	if got := read(t, grid(plain)); strings.Contains(got, "?") {
		t.Errorf("without doubt: got %s", got)
	}
}
