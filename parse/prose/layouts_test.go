package prose

import "testing"

// TestLayouts reads surveys laid out in ways that a list of labelled lines is
// not, and next to them those that leave open what is meant.
func TestLayouts(t *testing.T) {
	const (
		head  = "LOA 7'4\", bow 17\", stern 15.5\", carry 14\"\n"
		three = "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"
	)
	for _, c := range []struct{ name, body, want string }{
		{"run with a number missing", head + "Hull girth, full girth: 1 ft 30 40.5, 2 ft 36, 3 ft 40 60.5, 4 ft 41.5 63, 5 ft 40 61", "in 88 17 15.5 14 12:30,40.5 36:40,60.5 48:41.5,63 60:40,61 !which-girth(36)"},
		{"run of bare numbers without a word, a row short", head + "1 30 40.5, 2 36 52, 4 40 60.5, 5 41.5 63", "in 88 17 15.5 14 !unplaced-number(1) !unplaced-number(30) !unplaced-number(40.5) !unplaced-number(2) !unplaced-number(36) !unplaced-number(52) !unplaced-number(4) !unplaced-number(40) !unplaced-number(60.5) !unplaced-number(5) !unplaced-number(41.5) !unplaced-number(63)"},
		{"cells on lines with one missing", head + "\nStation\nHull girth\nFull girth\n1 ft\n30\n2 ft\n36\n52\n3 ft\n40\n60.5", "in 88 17 15.5 14 !unplaced-number(1 ft) !unplaced-number(30) !which-girth(36) !which-girth(52) !which-girth(40) !which-girth(60.5)"},
		{"a list that is one short of its series", head + "Hull girth from 1 ft to 4 ft: 30, 36, 40", "in 88 17 15.5 14 !unplaced-number(1 ft) !unplaced-number(4 ft) !unplaced-number(30) !unplaced-number(36) !unplaced-number(40)"},
		{"two places", head + "hull 30, full 40.5 at 1 ft, hull 36, full 52 at 2 ft", "in 88 17 15.5 14 !unclear-sentence(30) !unclear-sentence(40.5) !unclear-sentence(1 ft) !unclear-sentence(36) !unclear-sentence(52) !unclear-sentence(2 ft)"},
		{"a unit that is not used", "I know you work in inches but my tape is metric.\nLength overall (cm): 224\nBow height (cm): 43\n30: hull 76, full 103\n60: hull 91, full 132\n90: hull 102, full 154\n120: hull 105, full 160\n150: hull 102, full 155\n180: hull 93, full 137", "cm 224 43 - - 30:76,103 60:91,132 90:102,154 120:105,160 150:102,155 180:93,137"},

		{"run", head + "Hull girth, full girth: 1 ft 30 40.5, 2 ft 36 52,\n3 ft 40 60.5", three},
		{"run broken in a number", head + "Hull girth, full girth: 1 ft 30 40\n1/2, 2 ft 36 52, 3 ft 40 60.5", three},
		{"letters with the number of the station", head + "H = hull girth, F = full girth, the number is the foot mark\nH1 = 30 F1 = 40.5\nH2 = 36   F2 = 52\nH3 = 40   F3 = 60.5", three},
		{"lists over a series", head + "Hull girth at every foot from 1 ft to 3 ft:\n30, 36, 40\nFull girth at every foot from 1 ft to 3 ft:\n40.5, 52, 60.5", three},
		{"places in centimetres before labels", "LOA 224 cm\n30 cm - tour de coque 76 - tour complet 103\n60 cm - tour de coque 91 - tour complet 132\n90 cm - tour de coque 102 - tour complet 154", "cm 224 - - - 30:76,103 60:91,132 90:102,154"},
		{"headings that explain themselves", head + "Hull girths, open at the top\n1 ft  30\n2 ft  36\n3 ft  40\n\nFull girths, closed loop\n1 ft  40.5\n2 ft  52\n3 ft  60.5", three},
		{"a long heading over short lines", head + "Station - hull girth - full girth (every one of them in inches)\n1 ft - 30 - 40.5\n2 ft - 36 - 52\n3 ft - 40 - 60.5", three},
		{"run with equals signs", head + "1ft=30/40.5, 2ft=36/52, 3ft=40/60.5", three},
		{"run of bare numbers", head + "Stations in feet, then hull girth, then full girth: 1 30 40.5, 2 36 52, 3 40 60.5, 4 41.5 63", three + " 48:41.5,63"},
		{"run of one girth", head + "Hull girth: 1 ft 30, 2 ft 36, 3 ft 40\nFull girth: 1 ft 40.5, 2 ft 52, 3 ft 60.5", three},
		{"run of bare numbers without a word", head + "1 30 40.5, 2 36 52, 3 40 60.5, 4 41.5 63", three + " 48:41.5,63"},
		{"run, and more after it", head + "1 ft 30/40.5, 2 ft 36/52, 3 ft 40/60.5, transom 29/39", "in 88 17 15.5 14 T29,39 12:30,40.5 24:36,52 36:40,60.5"},
		{"greatest girth as a heading", head + "1 ft: 30 / 40.5\n\nGREATEST GIRTH\n distance from bow: 4 ft 2 in\n hull girth: 41.5\n full girth: 63.5\n opening: 22", "in 88 17 15.5 14 G50:41.5,63.5,22 12:30,40.5"},
		{"under the boat and all round it", head + "1 ft: 30 / 40.5\nGreatest girth at 4 ft 2 in: under 41½, all round 63½, opening 22", "in 88 17 15.5 14 G50:41.5,63.5,22 12:30,40.5"},
		{"transom as a heading", head + "1 ft: 30 / 40.5\nTransom\nhull girth 31\nfull girth 44", "in 88 17 15.5 14 T31,44 12:30,40.5"},
		{"letters with a legend", head + "H = hull girth; F = full girth\nSta. 1'   H .... 30\"   F .... 40 1/2\"\nSta. 2'   H .... 36\"   F .... 52\"\nSta. 3'   H .... 40\"   F .... 60 1/2\"", three},
		{"letters, the legend in brackets", head + "hull girth (U), full girth (L)\n1 ft   L 40.5   U 30\n2 ft   L 52   U 36\n3 ft   L 60.5   U 40", three},
		{"numbered items", "1.1  Length overall ......... 7'-4\"\n1.2  Bow height above base line ..... 17\"\n1.3  Stern height ..... 15 1/2\"\n1.4  Carry point, aft of foremost point ....... 14\"", "in 88 17 15.5 14"},
		{"counted lines", head + "hull, then full\n1) 6 in: 24, 30\n2) 1 ft: 30, 40.5\n3) 2 ft: 36, 52\n4) 3 ft: 40, 60.5", "in 88 17 15.5 14 6:24,30 12:30,40.5 24:36,52 36:40,60.5"},
		{"arrows that are no more-than", head + "1ft -> 30 -> 40.5\n2ft -> 36 -> 52\n3ft -> 40 -> 60.5", three},
		{"full girth said to come after", head + "Full girth in brackets after the hull girth\n1 ft: 30 (40.5)\n2 ft: 36 (52)\n3 ft: 40 (60.5)", three},
		{"long entries of a list", head + "Station No. 1 (1 ft from the bow)  hull girth 30 inches  full girth 40 1/2 inches\nStation No. 2 (2 ft from the bow)  hull girth 36 inches  full girth 52 inches\nStation No. 3 (3 ft from the bow)  hull girth 40 inches  full girth 60 1/2 inches", three},
		{"cells on lines of their own", "Length overall\n7 ft 4 in\nBow height\n17 in\nStern height\n15.5 in\nCarry point\n14 in\n\nStation\nHull girth\nFull girth\n1 ft\n30\n40.5\n2 ft\n36\n52\n3 ft\n40\n60.5", three},
		{"place behind", head + "30 hull, 40.5 full @ 1 ft\n36 hull, 52 full @ 2 ft\n40 hull, 60.5 full @ 3 ft", three},
		{"number first", head + "30 in hull girth at 1 ft\n40.5 in full girth at 1 ft\n36 in hull girth at 2 ft\n52 in full girth at 2 ft\n40 in hull girth at 3 ft\n60.5 in full girth at 3 ft", three},
		{"names of a program", "length_overall: 7 ft 4 in\nbow_height: 17 in\nstern_height: 15.5 in\ncarry_point: 14 in\nstations:\n  - at: 1 ft\n    hull_girth: 30\n    full_girth: 40.5\n  - at: 2 ft\n    hull_girth: 36\n    full_girth: 52\n  - at: 3 ft\n    hull_girth: 40\n    full_girth: 60.5", three},
		{"units in labels", "Length overall (in): 88\nBow height, inches: 17\nStern height in inches = 15.5\nCarry point (in): 14\nStation (ft): 1\nhull girth (in): 30\nfull girth (in): 40.5\nStation (ft): 2\nhull girth (in): 36\nfull girth (in): 52\nStation (ft): 3\nhull girth (in): 40\nfull girth (in): 60.5", three},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := shortForm(Read("m.eml", c.body, "")); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}
