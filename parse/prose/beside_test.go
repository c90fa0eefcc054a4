package prose

import "testing"

// TestBeside reads what stands beside each other as what stands below each
// other, and tells it from what only looks so.
func TestBeside(t *testing.T) {
	const (
		head  = "LOA 7'4\", bow 17\", stern 15.5\", carry 14\"\n"
		whole = inHead + inRows
		three = "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"
	)
	for _, c := range []struct{ name, text, html, want string }{
		{"places alone in two lines", head + "1 ft   2 ft   3 ft\nsee the photos   or call   me", "", "in 88 17 15.5 14 !which-girth(2 ft) !which-girth(3 ft)"},
		{"stations said to be from the stern, the length not known", "bow 17 in\nThe stations are measured from the stern.\n1 ft: 30, 40.5\n2 ft: 36, 52\n3 ft: 40, 60.5\n4 ft: 41.5, 63", "", "in - 17 - - 12:30?,40.5? 24:36?,52? 36:40?,60.5? 48:41.5?,63? !station-unclear(30) !station-unclear(40.5) !station-unclear(36) !station-unclear(52) !station-unclear(40) !station-unclear(60.5) !station-unclear(41.5) !station-unclear(63)"},
		{"begun at the stern", head + "I started at the stern.\n1 ft: 30, 40.5\n2 ft: 36, 52\n3 ft: 40, 60.5", "", "in 88 17 15.5 14 12:30?,40.5? 24:36?,52? 36:40?,60.5? !station-unclear(30)"},
		{"a mail below that is not said to be filled in", "Hello, any news?\n\n> Length overall: 7 ft 4 in\n> Bow height: 17\n> 1 ft: hull 30, full 40.5\n> 2 ft: hull 36, full 52\n> 3 ft: hull 40, full 60.5\n> 4 ft: hull 41.5, full 63", "", ""},

		{"rows two to a line", head + "1: 30 / 40.5      5: 40 / 61\n2: 36 / 52        6: 36.5 / 54\n3: 40 / 60.5      7: 31 / 42\n4: 41.5 / 63", "", whole},
		{"measures beside the table", "Length overall   7' 4\"   Station   Hull girth   Full girth\nBow height      17\"     1 ft    30    40.5\nStern height    15 1/2\"     2 ft    36    52\nCarry point   14\"    3 ft    40    60.5\n        4 ft    41.5   63\n      5 ft    40   61\n      6 ft    36.5   54\n      7 ft    31   42", "", whole},
		{"cards", head + "1 ft            2 ft            3 ft\nHull girth 30   Hull girth 36   Hull girth 40\nFull girth 40.5   Full girth 52   Full girth 60.5", "", three},
		{"a heading over each row", head + "Hull girth   Full girth\n1 ft   30   40.5\nHull girth   Full girth\n2 ft   36   52\nHull girth   Full girth\n3 ft   40   60.5\nHull girth   Full girth\n4 ft   41.5   63\n", "", three + " 48:41.5,63"},
		{"a sheet printed with its edges", "     A            B         C\n1  Length overall   7 ft 4 in\n2  Bow height   17 in\n3\n4  Station (ft)   Hull girth (in)   Full girth (in)\n5   1   30   40.5\n6   2   36   52\n7   3   40   60.5", "", "in 88 17 - - 12:30,40.5 24:36,52 36:40,60.5"},
		{"spans of one class as cells", "", "<div><span class=c>Length overall</span><span class=c>7 ft 4 in</span></div><div><span class=c>Station</span><span class=c>Hull girth (in)</span><span class=c>Full girth (in)</span></div><div><span class=c>1 ft</span><span class=c>30</span><span class=c>40 1/2</span></div><div><span class=c>2 ft</span><span class=c>36</span><span class=c>52</span></div>", "in 88 - - - 12:30,40.5 24:36,52"},
		{"a figure glued to its label", "Length overall7 ft 4 in\nBow height17 in\n1 ft: 30, 40.5\n2 ft: 36, 52\n3 ft: 40, 60.5", "", "in 88 17 - - 12:30,40.5 24:36,52 36:40,60.5"},
		{"a list of ours filled in below", "Hello, I filled in your list below.\n\nOn Fri, 5 Jun 2026 at 10:12, Cover Loft <orders@loft.example> wrote:\n\n> please type your measurements (inches) into this list:\n> Length overall: 7 ft 4 in\n> Bow height: 17\n> 1 ft: hull 30, full 40.5\n> 2 ft: hull 36, full 52\n> 3 ft: hull 40, full 60.5\n> 4 ft: hull 41.5, full 63", "", "in 88 17 - - 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63"},
		{"ordinal feet", head + "1st foot mark - hull 30 - full 40.5\n2nd foot mark - hull 36 - full 52\n3rd foot mark - hull 40 - full 60.5", "", three},
		{"initials", "H.G. stands for hull girth, F.G. for full girth.\nL.O.A. 7 ft 4 in\n1 ft. - H.G. 30, F.G. 40.5\n2 ft. - H.G. 36, F.G. 52\n3 ft. - H.G. 40, F.G. 60.5", "", "in 88 - - - 12:30,40.5 24:36,52 36:40,60.5"},
		{"that of the other end", "The length overall is 7 ft 4 in. The bow height is 17 inches, that of the stern 15 1/2 inches.", "", "in 88 17 15.5 -"},
		{"how the bow was measured", "From the straight edge along the bottom to the top of the bow I measure a bow height of 17 inches, and a stern height of 15 1/2 inches.", "", "in - 17 15.5 -"},
		{"metres with decimal commas", "Longueur hors tout : 2,24 m\nà 0,30 m : 0,76 m ; 1,03 m\nà 0,60 m : 0,91 m ; 1,32 m\nà 0,90 m : 1,02 m ; 1,54 m\nà 1,20 m : 1,05 m ; 1,60 m", "", "cm 224 - - - 30:76,103 60:91,132 90:102,154 120:105,160"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := shortForm(Read("m.eml", c.text, c.html)); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}
