package prose

import (
	"strings"
	"testing"
)

// The greatest girth may be told under a sentence that leads to it, or under a
// question of an earlier mail.
func TestLeads(t *testing.T) {
	const (
		head = "LOA 7'4\", bow 17, stern 15 1/2, carry point 14\n\n"
		rows = "1 ft: hull 30 full 40.5\n2 ft: hull 36 full 52\n3 ft: hull 40 full 60.5\n4 ft: hull 41.5 full 63\n5 ft: hull 40 full 61\n6 ft: hull 36.5 full 54\n7 ft: hull 31 full 42\n\n"
		want = "in 88 17 15.5 14 G43:42,64,23" + inRows
	)
	for name, body := range map[string]string{
		"a colon":        head + rows + "Then we looked for the greatest girth:\nat 3 ft 7 in, hull girth 42, full girth 64, opening 23\n",
		"blank between":  head + rows + "The widest point, for which you asked:\n\nIt is at 3 ft 7 in, hull girth 42, full girth 64, opening 23.\n",
		"one paragraph":  head + rows + "We also looked for the widest place. It is at 3 ft 7 in, hull girth 42, full girth 64, opening 23.\n",
		"a question":     head + rows + "Where is the greatest girth, and what is the opening there?\nat 3 ft 7 in, hull girth 42, full girth 64, opening 23\n",
		"of another":     head + rows + "> Where is the greatest girth, and what is the opening there?\n\nat 3 ft 7 in, hull girth 42, full girth 64, opening 23\n",
		"with initials":  "BQ: LOA 7'4\", bow 17, stern 15 1/2, carry point 14\nBQ: " + strings.ReplaceAll(strings.TrimSpace(rows), "\n", "\nBQ: ") + "\n> Where is the greatest girth, and what is the opening there?\n\nBQ: at 3 ft 7 in, hull girth 42, full girth 64, opening 23\n",
		"French":         head + rows + "J'ai cherché ensuite le plus grand tour :\nà 3 pi 7 po de l'étrave, tour de coque 42 po, tour complet 64 po, ouverture 23 po.\n",
		"heads the list": head + "All girths, and the greatest girth at the end:\n" + rows + "Greatest girth at 3 ft 7 in: hull girth 42, full girth 64, opening 23\n",
	} {
		if got := shortForm(Read("m", body, "")); got != want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, want)
		}
	}
}

// Two corrections in one list are two, and a number that is said to be wrong is
// never sure, whatever else the sentence names.
func TestCorrectionsInLists(t *testing.T) {
	const (
		head = "LOA 7'4\"\nBow height 17\nStern height 20\n\n"
		rows = "1 ft: hull 30 full 40.5\n2 ft: hull 36 full 52\n3 ft: hull 40 full 70.5\n4 ft: hull 41.5 full 63\n5 ft: hull 40 full 61\n\n"
	)
	for _, c := range []struct{ said, stern, full string }{
		{"Correction!\n- stern height is 17, not 20 as I put above (the straight edge was resting on the skid)\n- at 3 ft the full girth should be 60.5 instead of 70.5\n", "17", "60.5"},
		{"The full girth at 3 ft should be 60.5 and not 70.5, and the other one at the end is 17, not 20.\n", "20?", "70.5?"},
	} {
		got := shortForm(Read("m", head+rows+c.said, ""))
		want := "in 88 17 " + c.stern + " - 12:30,40.5 24:36,52 36:40," + c.full + " 48:41.5,63 60:40,61"
		if !strings.HasPrefix(got, want) {
			t.Errorf("%s:\n got %s\nwant %s", c.said, got, want)
		}
	}
}
