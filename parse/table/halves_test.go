package table

import "testing"

// What stands in a narrow column for the half belongs to the whole number
// beside it, and where that is not sure, the number is not either.
func TestHalves(t *testing.T) {
	const head = "in loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	for _, c := range []struct{ name, text, want string }{
		{"a mark in a column that nothing names", `
Station (ft)|Hull girth (in)||Full girth (in)
1|35|1/2|42
2|40||55
3|44||66
4|45|.5|68`, head + " 12:35.5,42 24:40,55 36:44,66 48:45.5,68"},
		{"what may be a half, with something else under it", `
Station (ft)|Hull girth (in)|half or quarter|Full girth (in)
1|35|x|42
2|40|q|55
3|44||66
4|45||68`, head + " 12:35?,42 24:?,55 36:44,66 48:45,68"},
		{"crosses", `
Station (ft)|Hull girth (in)|+ 1/2|Full girth (in)|+ 1/2
1|35|x|42|
2|40||55|X
3|44||66|
4|45||68|x`, head + " 12:35.5,42 24:40,55.5 36:44,66 48:45,68.5"},
		{"beside the labels too", `
|inches|half
Bow height|17|x
Stern height|16|
Carry point|14|✓`, "in loa=- bow=17.5 stern=16 carry=14.5 greatest=-,-,-,-"},
		{"on its side", `
Station (ft)|1|2|3|4
Hull girth (in)|35|40|44|45
½|x|||
Full girth (in)|42|55|66|68
½||½||`, head + " 12:35.5,42 24:40,55.5 36:44,66 48:45,68"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := read(t, grid(c.text)); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

// What stands beside the labels of a form is no station, and no girth.
func TestLabelsAreNoStations(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"an answer that sounds like a heading", `
Stern (X)|pointed X|square|Deck|open X
Length overall|11 ft 1 1/2 in||Carry point|16 in
Bow height|21 1/2 in||Stern height|18 1/2 in`, "in loa=133.5 bow=21.5 stern=18.5 carry=16 greatest=-,-,-,-"},
		{"a length that lies one step beyond the last station", `
No.|Station (cm)|Hull girth (cm)|Full girth (cm)
1|30|85|100
2|60|92|122
3|90|99|141
4|120|105|158

Length overall|150 cm`, "cm loa=150 bow=- stern=- carry=- greatest=-,-,-,- 30:85,100 60:92,122 90:99,141 120:105,158"},
		{"girths that rise by even steps", `
|hull girth|full girth
1' from bow|42|55
2' from bow|44|60
3' from bow|46|73
4' from bow|48|79`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:42,55 24:44,60 36:46,73 48:48,79"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := read(t, grid(c.text)); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

// Words around a number hide it neither as the number of a chapter nor as a
// heading.
func TestNumbersInWords(t *testing.T) {
	const rows = "\nStation (cm)|Hull girth (cm)|Full girth (cm)\n30|85|100\n60|92|122\n90|99|141\n120|105|158"
	for _, text := range []string{
		"Bow height|56 cm haut et droit",
		"Here is my canoe. It is 427 cm overall, the bow is 50 cm high, and the carry point is 52 cm back from the bow.",
	} {
		for _, lost := range unaccounted(grid(text + rows)) {
			t.Errorf("%s is lost", lost)
		}
	}
	if got, want := read(t, grid("Bow height|56 cm de haut"+rows)), "cm loa=- bow=56 stern=- carry=- greatest=-,-,-,- 30:85,100 60:92,122 90:99,141 120:105,158"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
