package prose

import (
	"fmt"
	"strings"
	"testing"

	"fairtape/parse"
)

// shortForm writes a survey in one line, doubtful readings with a question
// mark, and the codes of the problems after it.
func shortForm(m Mail) string {
	var b strings.Builder
	one := func(r parse.Reading, unit parse.Unit) string {
		switch {
		case r.Absent():
			return "-"
		case !r.Known:
			return "?"
		case !r.Certain():
			return fmt.Sprintf("%g?", r.Value.In(unit))
		}
		return fmt.Sprintf("%g", r.Value.In(unit))
	}
	for _, s := range m.Document.Surveys {
		f := func(r parse.Reading) string { return one(r, s.Unit) }
		fmt.Fprintf(&b, "%s %s %s %s %s", s.Unit, f(s.LengthOverall), f(s.BowHeight), f(s.SternHeight), f(s.CarryPoint))
		if g := s.Greatest; !g.At.Absent() || !g.HullGirth.Absent() || !g.FullGirth.Absent() || !g.Opening.Absent() {
			fmt.Fprintf(&b, " G%s:%s,%s,%s", f(g.At), f(g.HullGirth), f(g.FullGirth), f(g.Opening))
		}
		if !s.Transom.HullGirth.Absent() || !s.Transom.FullGirth.Absent() {
			fmt.Fprintf(&b, " T%s,%s", f(s.Transom.HullGirth), f(s.Transom.FullGirth))
		}
		for _, st := range s.Stations {
			fmt.Fprintf(&b, " %g:%s,%s", st.At.In(s.Unit), f(st.HullGirth), f(st.FullGirth))
		}
	}
	for _, p := range m.Document.Problems {
		if p.Code != parse.CodeUnitGuessed {
			fmt.Fprintf(&b, " !%s(%s)", p.Code, p.Source.Raw)
		}
	}
	return strings.TrimSpace(b.String())
}

// The stations of one small boat, as most bodies below give them.
const (
	inHead = "in 88 17 15.5 14"
	inRows = " 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63 60:40,61 72:36.5,54 84:31,42"
)

// TestBodies reads bodies in ways that people write: whole where the words
// settle everything, and in doubt or in a problem where they do not.
func TestBodies(t *testing.T) {
	for _, c := range []struct{ name, body, want string }{
		{"rough heights", "LOA 7'4\"\nBow height about 17\nStern height: 15 or 16\n1 ft: 30 / 40.5", "in 88 ? - - 12:30,40.5 !approximate(about 17) !unclear-sentence(15 or 16)"},
		{"one girth a station, not said which", "LOA 7'4\"\n1 ft 40.5\n2 ft 52\n3 ft 60.5", "in 88 - - - !which-girth(40.5) !which-girth(52) !which-girth(60.5)"},
		{"key and value", "loa = 7 ft 4 in\nbow = 17\nstern = 15.5\ncarry = 14\n\n1ft = 30 / 40.5\n2ft = 36 / 52\n3ft = 40 / 60.5\n4ft = 41.5 / 63\n5ft = 40 / 61\n6ft = 36.5 / 54\n7ft = 31 / 42", inHead + inRows},
		{"h and f", "Length 7'4\", bow 17\", stern 15 1/2\", carry 14\".\n1': h 30 f 40 1/2\n2': h 36 f 52\n3': h 40 f 60 1/2\n4': h 41 1/2 f 63\n5': h 40 f 61\n6': h 36 1/2 f 54\n7': h 31 f 42", inHead + inRows},
		{"numbered list with stations", "Overall length: 7'4\"\nBow: 17\nStern: 15.5\nCarry point: 14\n\n1. 1 ft - hull 30, full 40.5\n2. 2 ft - hull 36, full 52\n3. 3 ft - hull 40, full 60.5\n4. 4 ft - hull 41.5, full 63\n5. 5 ft - hull 40, full 61\n6. 6 ft - hull 36.5, full 54\n7. 7 ft - hull 31, full 42", inHead + inRows},
		{"two runs of numbers, one of them short", "LOA 7 ft 4, bow 17 in, stern 15.5 in, carry 14 in\nHull girths: 30, 36, 40, 41.5\nFull girths: 40.5, 52, 60.5", inHead + " !unplaced-number(30) !unplaced-number(36) !unplaced-number(40) !unplaced-number(41.5) !unplaced-number(40.5) !unplaced-number(52) !unplaced-number(60.5)"},
		{"two runs of numbers, as many as stations", "LOA 7 ft 4, bow 17 in, stern 15.5 in, carry 14 in\nHull girths every foot: 30, 36, 40, 41.5, 40, 36.5, 31\nFull girths every foot: 40.5, 52, 60.5, 63, 61, 54, 42", inHead + inRows},
		{"columns of blanks", "Length overall  7 ft 4 in\nBow height      17\nStern height    15.5\nCarry point     14\n\nFt    Hull    Full\n1     30      40.5\n2     36      52\n3     40      60.5\n4     41.5    63\n5     40      61\n6     36.5    54\n7     31      42", inHead + inRows},
		{"commas and a heading", "length overall, 7 ft 4 in\nbow height, 17\nstern height, 15.5\ncarry point, 14\nstation, hull, full\n1, 30, 40.5\n2, 36, 52\n3, 40, 60.5\n4, 41.5, 63\n5, 40, 61\n6, 36.5, 54\n7, 31, 42", inHead + inRows},
		{"sentence for each", "She measures 7 ft 4 in overall. Bow height is 17 in, stern height is 15 1/2 in, and the carry point is 14 in from the bow.\nAt 1 ft the hull girth is 30 and the full girth 40 1/2.\nAt 2 ft the hull girth is 36 and the full girth 52.\nAt 3 ft the hull girth is 40 and the full girth 60 1/2.\nAt 4 ft the hull girth is 41 1/2 and the full girth 63.\nAt 5 ft the hull girth is 40 and the full girth 61.\nAt 6 ft the hull girth is 36 1/2 and the full girth 54.\nAt 7 ft the hull girth is 31 and the full girth 42.", inHead + inRows},
		{"parentheses", "LOA: 7'4\" (measured twice)\nbow height: 17\" (to the tip)\nstern height: 15.5\" (no fitting)\ncarry point: 14\" (thwart)\n1 ft: 30 (40.5)\n2 ft: 36 (52)\n3 ft: 40 (60.5)\n4 ft: 41.5 (63)\n5 ft: 40 (61)\n6 ft: 36.5 (54)\n7 ft: 31 (42)", inHead + inRows},
		{"sections", "Length overall 7'4\"\nBow 17, stern 15.5\nCarry point 14\n\nHull girth:\n1 ft 30\n2 ft 36\n3 ft 40\n4 ft 41.5\n5 ft 40\n6 ft 36.5\n7 ft 31\n\nFull girth:\n1 ft 40.5\n2 ft 52\n3 ft 60.5\n4 ft 63\n5 ft 61\n6 ft 54\n7 ft 42", inHead + inRows},
		{"blocks of three lines", "LOA 7'4\"\nbow 17\nstern 15.5\ncarry 14\n\n1 ft\nhull 30\nfull 40.5\n\n2 ft\nhull 36\nfull 52\n\n3 ft\nhull 40\nfull 60.5\n\n4 ft\nhull 41.5\nfull 63\n\n5 ft\nhull 40\nfull 61\n\n6 ft\nhull 36.5\nfull 54\n\n7 ft\nhull 31\nfull 42", inHead + inRows},
		{"greatest block", "LOA 7'4\"\n1 ft: 30 / 40.5\n2 ft: 36 / 52\n3 ft: 40 / 60.5\n4 ft: 41.5 / 63\nGreatest girth at 4 ft 2 in\nhull there 41.5\nfull there 63.5\nopening there 22", "in 88 - - - G50:41.5,63.5,22 12:30,40.5 24:36,52 36:40,60.5 48:41.5,63"},
		{"greatest in a sentence", "LOA 7'4\"\nThe greatest girth is at 4 ft 2 in: hull 41 1/2, full 63 1/2, opening 22 in.\n1 ft: 30 / 40.5\n2 ft: 36 / 52", "in 88 - - - G50:41.5,63.5,22 12:30,40.5 24:36,52"},
		{"opening at greatest girth", "LOA 7'4\"\ngreatest girth at: 4 ft 2 in\nhull girth at greatest girth: 41.5\nfull girth at greatest girth: 63.5\nopening at greatest girth: 22\n1 ft: 30 / 40.5\n2 ft: 36 / 52", "in 88 - - - G50:41.5,63.5,22 12:30,40.5 24:36,52"},
		{"transom", "LOA 7'4\"\n1 ft: 30 / 40.5\n2 ft: 36 / 52\n3 ft: 40 / 60.5\nTransom: hull 31, full 44", "in 88 - - - T31,44 12:30,40.5 24:36,52 36:40,60.5"},
		{"metres", "Length overall 2.24 m\nBow height 0.43 m\nStern height 0.39 m\nCarry point 0.36 m\n30 cm: 76 / 103\n60 cm: 91 / 132\n90 cm: 102 / 154\n120 cm: 105 / 160\n150 cm: 102 / 155\n180 cm: 93 / 137\n210 cm: 79 / 107", "cm 224 43 39 36 30:76,103 60:91,132 90:102,154 120:105,160 150:102,155 180:93,137 210:79,107"},
		{"centimetres with decimal commas", "Longueur hors tout : 2,24 m\nHauteur avant : 43 cm\nHauteur arrière : 39,5 cm\nPoint de portage : 36 cm\n\n30 cm : coque 76, complet 103,5\n60 cm : coque 91,5, complet 132\n90 cm : coque 102, complet 154", "cm 224 43 39.5 36 30:76,103.5 60:91.5,132 90:102,154"},
		{"French list", "Bonjour,\nlongueur totale 7 pi 4 po, hauteur de l'étrave 17 po, hauteur de la poupe 15 1/2 po, poignée à 14 po de l'étrave.\n- à 1 pi : 30 po / 40 1/2 po\n- à 2 pi : 36 po / 52 po\n- à 3 pi : 40 po / 60 1/2 po\n- à 4 pi : 41 1/2 po / 63 po\n- à 5 pi : 40 po / 61 po\n- à 6 pi : 36 1/2 po / 54 po\n- à 7 pi : 31 po / 42 po", inHead + inRows},
		{"text message", "loa 7ft4 bow 17 stern 15.5 carry 14\n1ft 30 40.5\n2ft 36 52\n3ft 40 60.5\n4ft 41.5 63\n5ft 40 61\n6ft 36.5 54\n7ft 31 42\nsent from my phone", inHead + inRows},
		{"all on one line", "1ft: 30/40.5; 2ft: 36/52; 3ft: 40/60.5; 4ft: 41.5/63; 5ft: 40/61; 6ft: 36.5/54; 7ft: 31/42. LOA 7'4\". Bow height 17, stern height 15.5, carry point 14.", inHead + inRows},
		{"stars and bold", "*Length overall:* 7'4\"\n*Bow height:* 17\"\n*Stern height:* 15.5\"\n*Carry point:* 14\"\n\n*1 ft:* 30 / 40.5\n*2 ft:* 36 / 52\n*3 ft:* 40 / 60.5\n*4 ft:* 41.5 / 63\n*5 ft:* 40 / 61\n*6 ft:* 36.5 / 54\n*7 ft:* 31 / 42", inHead + inRows},
		{"arrows", "LOA -> 7'4\"\nbow height -> 17\nstern height -> 15.5\ncarry point -> 14\n1 ft -> hull 30, full 40.5\n2 ft -> hull 36, full 52\n3 ft -> hull 40, full 60.5\n4 ft -> hull 41.5, full 63\n5 ft -> hull 40, full 61\n6 ft -> hull 36.5, full 54\n7 ft -> hull 31, full 42", inHead + inRows},
		{"inches said once", "All in inches. Length overall 88. Bow height 17. Stern height 15.5. Carry point 14.\nStation 12: hull 30, full 40.5\nStation 24: hull 36, full 52\nStation 36: hull 40, full 60.5\nStation 48: hull 41.5, full 63\nStation 60: hull 40, full 61\nStation 72: hull 36.5, full 54\nStation 84: hull 31, full 42", inHead + inRows},
		{"markdown table", "| ft | hull | full |\n|---|---|---|\n| 1 | 30 | 40.5 |\n| 2 | 36 | 52 |\n| 3 | 40 | 60.5 |\n| 4 | 41.5 | 63 |\n| 5 | 40 | 61 |\n| 6 | 36.5 | 54 |\n| 7 | 31 | 42 |\n\nLOA 7'4\", bow 17\", stern 15.5\", carry point 14\"", inHead + inRows},
		{"a remark between", "LOA 7'4\", bow 17\", stern 15.5\", carry point 14\"\n1 ft: 30 / 40.5\n2 ft: 36 / 52\n3 ft: 40 / 60.5 (seat was in the way, measured over it)\n4 ft: 41.5 / 63\n5 ft: 40 / 61 - my son held the tape\n6 ft: 36.5 / 54\n7 ft: 31 / 42", inHead + inRows},
		{"a skipped station", "LOA 7'4\"\n1 ft: 30 / 40.5\n2 ft: could not reach\n3 ft: 40 / 60.5\n4 ft: -\n5 ft: 40 / 61", "in 88 - - - 12:30,40.5 36:40,60.5 60:40,61 !unplaced-number(2 ft)"},
		{"corrected in place", "LOA 7'4\"\n1 ft: 30 / 40.5\n2 ft: 36 / 52, sorry, 53\n3 ft: 40 / 60.5", "in 88 - - - 12:30,40.5 24:36,? 36:40,60.5 !several-numbers(52, sorry, 53)"},
		{"feet in girths", "LOA 7' 4\"\n1 ft: 2'6\" / 3'4.5\"\n2 ft: 3' / 4'4\"\n3 ft: 3'4\" / 5'.5\"", "in 88 - - - 12:30,40.5 24:36,52 36:40,60.5"},
		{"spelled units", "Length overall: seven feet four\nBow height: 17 inches\n1 foot: hull girth 30 inches, full girth 40 and a half inches\n2 feet: hull girth 36 inches, full girth 52 inches", "in - 17 - - 12:30,40.5 24:36,52"},
		{"labels like sentences", "All lengths are in inches unless I say feet.\n\nLength overall. 7 feet 4 inches.\nBow height. 17.\nStern height. 15 and one half.\nCarry point. 14.\n\nStation at 1 foot. Hull girth, 30. Full girth, 40 and one half.\nStation at 2 feet. Hull girth, 36. Full girth, 52.\nStation at 3 feet. Hull girth, 40. Full girth, 60 and one half.", "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"},
		{"under the questions of a mail", "Hi, answers below.\n\nOn Mon, 4 May 2026, Pinfold Cover Loft wrote:\n> Please measure your boat and answer here.\n>\n> 1. Length overall, tip to tip?\n\n7 ft 4 in\n\n> 2. Bow height?\n\n17 in\n\n> 3. Stern height?\n\n15 1/2 in\n\n> 4. At every foot: hull girth, then full girth (inches)?\n\n1 ft: 30 / 40 1/2\n2 ft: 36 / 52\n3 ft: 40 / 60 1/2\n\n> 5. Greatest girth: where?\n\n4 ft 2 in\n\n> Thank you!", "in 88 17 15.5 - G50:-,-,- 12:30,40.5 24:36,52 36:40,60.5"},
		{"a date and a phone number", "Measured 14 June 2026, call 902 555 0143.\nLOA 7'4\"\n1 ft: 30 / 40.5\n2 ft: 36 / 52", "in 88 - - - 12:30,40.5 24:36,52"},
		{"hull and full in capitals", "L.O.A. 7'4\"\nBOW HT 17\nSTERN HT 15.5\nCARRY PT 14\nSTA 1' HULL 30 FULL 40.5\nSTA 2' HULL 36 FULL 52\nSTA 3' HULL 40 FULL 60.5", "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"},
		{"another boat's length in the talk", "We also have a 16 ft canoe, but this is for the small one.\nLOA 7'4\"\n1 ft: 30 / 40.5\n2 ft: 36 / 52", "in 88 - - - 12:30,40.5 24:36,52"},
		{"underscores of a form", "Length overall ____7'4\"____\nBow height __17__\nStern height __15.5__\nCarry point __14__\n1 ft  hull __30__ full __40.5__\n2 ft  hull __36__ full __52__\n3 ft  hull __40__ full __60.5__", "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"},
		{"numbers and units apart", "LOA: 7 ft. 4 in.\nBow height: 17 in.\nStern height: 15.5 in.\nCarry point: 14 in.\nStation 1 ft.: hull 30 in., full 40.5 in.\nStation 2 ft.: hull 36 in., full 52 in.\nStation 3 ft.: hull 40 in., full 60.5 in.", "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"},
		{"height of the bow", "Total length 7'4\". Height at bow 17, height at stern 15.5. Carry thwart 14 from bow.\n1' 30 40.5\n2' 36 52\n3' 40 60.5", "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := shortForm(Read("m.eml", c.body, "")); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}
