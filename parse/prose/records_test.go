package prose

import "testing"

// TestRecords reads stations whose words nobody knows by what their numbers can
// only be, and next to them those that leave a choice.
func TestRecords(t *testing.T) {
	const (
		head = "Length overall 5 ft 6 in\n"
		four = "in 66 - - - 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63"
	)
	for _, c := range []struct{ name, body, want string }{
		{"a carry point before numbered stations", "Carry point 14\n1 [1 ft] wrap 30, loop 40.5\n2 [2 ft] wrap 36, loop 52\n3 [3 ft] wrap 40, loop 60.5\n4 [4 ft] wrap 41.5, loop 63", "in - - - 14 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63"},
		{"breadths", head + "1 ft one 30 other 18\n2 ft one 36 other 20\n3 ft one 40 other 30\n4 ft one 41.5 other 19 beam", ""},
		{"two lists of which the second begins later", head + "first: 1 ft 30, 2 ft 36, 3 ft 40, 4 ft 41.5\nsecond: 2 ft 52, 3 ft 60.5, 4 ft 63, 5 ft 61", ""},

		{"places twice", head + "1 ft 30      1 ft 40.5\n2 ft 36      2 ft 52\n3 ft 40      3 ft 60.5\n4 ft 41.5    4 ft 63", four},
		{"the larger first", head + "1 ft, loop 40.5, wrap 30\n2 ft, loop 52, wrap 36\n3 ft, loop 60.5, wrap 40\n4 ft, loop 63, wrap 41.5", four},
		{"with what lies between", head + "1 ft wrap 30 loop 40.5 gap 10.5\n2 ft wrap 36 loop 52 gap 16\n3 ft wrap 40 loop 60.5 gap 20.5\n4 ft wrap 41.5 loop 63 gap 21.5", four},
		{"cards", head + "1 ft          2 ft\nhull full hull full\n30 40.5 36 52\n3 ft          4 ft\nhull full hull full\n40 60.5 41.5 63", four},
		{"numbered", head + "Mark no 1 (1 ft) wrap 30 loop 40.5\nMark no 2 (2 ft) wrap 36 loop 52\nMark no 3 (3 ft) wrap 40 loop 60.5\nMark no 4 (4 ft) wrap 41.5 loop 63", four},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := shortForm(Read("m.eml", c.body, ""))
			if c.want == "" {
				if rows := stationsRead(Read("m.eml", c.body, "")); rows > 0 {
					t.Errorf("%d stations are sure: %s", rows, got)
				}
			} else if got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

func stationsRead(m Mail) (n int) {
	for _, s := range m.Document.Surveys {
		for _, st := range s.Stations {
			if st.HullGirth.Certain() && st.FullGirth.Certain() {
				n++
			}
		}
	}
	return n
}

// TestRemarks keeps the numbers of remarks apart from the girths before them.
func TestRemarks(t *testing.T) {
	for _, c := range []struct{ name, line, want string }{
		{"another girth", "1 ft: hull 30, full 40.5 (39 with the seat out)", "!which-girth(30) !which-girth(40.5) !which-girth(39)"},
		{"a seat", "1 ft: hull 30, full 40.5 (the seat is 9 in wide)", "in - - - - 12:30,40.5 !unplaced-number(9 in)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := shortForm(Read("m.eml", c.line, "")); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}
