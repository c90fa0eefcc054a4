package table

import (
	"strings"
	"testing"
)

// Words of doubt reach the numbers of which they speak, wherever they stand, and
// no others.
func TestDoubts(t *testing.T) {
	const head = "Station|Hull girth (in)|Full girth (in)"
	table := func(heading string, at int, remark string) string {
		rows := []string{"1 ft|31|39|", "2 ft|37|52.5|", "3 ft|41.5|62|", "4 ft|43|67|", "5 ft|41|60|"}
		rows[at] += remark
		return head + "|" + heading + "\n" + strings.Join(rows, "\n") + "\n"
	}
	const ends = "Length overall|6 ft 1 in\nBow height|18 in\nStern height|17 in\nCarry point|21 in\n\n"
	sure := "loa=73 bow=18 stern=17 carry=21"
	rows := " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:41,60"
	third := " 12:31,39 24:37,52.5 36:41.5?,62? 48:43,67 60:41,60"
	for _, c := range []struct{ name, grid, once, stations string }{
		{"a mark alone", ends + table("", 2, "?"), sure, third},
		{"a column that asks", ends + table("Sure?", 2, "no"), sure, third},
		{"a column of doubts", ends + table("Doubtful", 2, "x"), sure, third},
		{"a column of trust", ends + table("Confidence", 2, "low"), sure, third},
		{"how it went", ends + table("Remarks", 2, "tape slipped"), sure, third},
		{"another number", ends + table("Remarks", 2, "could be 42"), sure, third},
		{"what is right", ends + table("Remarks", 2, "should be 64, tape was caught on the seat"), sure, strings.Replace(rows, "62", "64", 1)},
		{"right of which girth", ends + strings.Replace(table("Remarks", 2, "should be 44"), "31|39|", "40|42|should be 44", 1), sure,
			" 12:40?,42? 24:37,52.5 36:44,62 48:43,67 60:41,60"},
		{"right, or not", ends + table("Remarks", 2, "should be 64 or 65"), sure, third},
		{"French", ends + table("Remarques", 2, "à revoir"), sure, third},
		{"put right", ends + table("Remarks", 2, "tape slipped, done again"), sure, rows},
		{"a box that nobody ticked", ends + table("OK?", 2, "FALSE"), sure, rows},
		{"where it was", ends + table("Remarks", 2, "widest about here"), sure, rows},
		{"beside what a boat has once", "Length overall|6 ft 1 in|not sure\nBow height|18 in|?\nStern height|17 in|ok\nCarry point|21 in|a guess\n\n" + table("", 0, ""),
			"loa=73? bow=18? stern=17 carry=21?", rows},
		{"below, a station by its number", ends + table("", 0, "") + "\nStation 3: the tape slipped", sure, third},
		{"below, a station by its place", ends + table("", 0, "") + "\nI am not certain of the hull at 3 ft", sure, strings.Replace(rows, "41.5", "41.5?", 1)},
		{"below, the last rows", ends + table("", 0, "") + "\nThe last two rows were done in the dark and may be wrong", sure,
			" 12:31,39 24:37,52.5 36:41.5,62 48:43?,67? 60:41?,60?"},
		{"below, a column", ends + table("", 0, "") + "\nThe full girths are rough, I was alone", sure,
			" 12:31,39? 24:37,52.5? 36:41.5,62? 48:43,67? 60:41,60?"},
		{"below, a height", ends + table("", 0, "") + "\nThe bow height is only approximate", "loa=73 bow=18? stern=17 carry=21", rows},
		{"above, everything", "Everything here is rough, sorry\n" + ends + table("", 0, ""), "loa=73? bow=18? stern=17? carry=21?",
			" 12:31?,39? 24:37?,52.5? 36:41.5?,62? 48:43?,67? 60:41?,60?"},
		{"how fine it was", "All numbers are rounded to the nearest 1/2 in, so only approximate\n" + ends + table("", 0, ""), sure, rows},
		{"labels", "Length overall (from the brochure)|6 ft 1 in\nApprox. bow height|18 in\nStern height (guess)|17 in\nCarry point|21 in\n\n" + table("", 0, ""),
			"loa=73? bow=18? stern=17? carry=21", rows},
		{"other lengths", "Length (keel)|6 ft 1 in\nBow height|18 in\nStern height|17 in\nCarry thwart from the middle|21 in\n\n" + table("", 0, ""),
			"loa=- bow=18 stern=17 carry=-", rows},
		{"a heading", ends + strings.Replace(table("", 0, ""), "Full girth (in)", "Full girth (in), approx.", 1), sure, " 12:31,39? 24:37,52.5? 36:41.5,62? 48:43,67? 60:41,60?"},
		{"a share", ends + table("Confidence", 2, "60 %"), sure, third},
		{"between two columns", ends + "Station|Hull girth (in)||Full girth (in)\n1 ft|31||39\n2 ft|37||52.5\n3 ft|41.5|?|62\n4 ft|43||67\n5 ft|41||60\n", sure, third},
		{"between two rows", ends + strings.Replace(table("", 0, ""), "4 ft", "^ not sure of this one|||\n4 ft", 1), sure, third},
		{"interpolated", ends + table("Remarks", 2, "interpolated"), sure, third},
		{"from a station on", ends + table("", 0, "") + "\nFrom station 3 on I was in a hurry, only rough", sure, " 12:31,39 24:37,52.5 36:41.5?,62? 48:43?,67? 60:41?,60?"},
		{"where the tape begins", ends + "My tape begins at 1 inch\n\n" + table("", 0, ""), "loa=73? bow=18? stern=17? carry=21?",
			" 12:31?,39? 24:37?,52.5? 36:41.5?,62? 48:43?,67? 60:41?,60?"},
		{"halves", ends + "The hull girths are half girths\n\n" + table("", 0, ""), sure, " 12:31?,39 24:37?,52.5 36:41.5?,62 48:43?,67 60:41?,60"},
		{"headed as halves, and too large", ends + strings.Replace(table("", 0, ""), "Hull girth (in)", "Half girth (in)", 1), sure, rows},
		{"headed as halves", ends + strings.NewReplacer("Hull girth (in)", "Half girth (in)", "|31|", "|15.5|", "|37|", "|18.5|", "|41.5|", "|21|", "|43|", "|21.5|", "|41|", "|20.5|").Replace(table("", 0, "")), sure,
			" 12:31?,39 24:37?,52.5 36:42?,62 48:43?,67 60:41?,60"},
		{"the whole hull", ends + "Hull girths go from gunwale to keel to the other gunwale\n\n" + table("", 0, ""), sure, rows},
		{"columns that changed places", ends + "The two columns are the wrong way round\n\n" + table("", 0, ""), sure, " 12:31?,39? 24:37?,52.5? 36:41.5?,62? 48:43?,67? 60:41?,60?"},
		{"ends that did", ends + "I mixed up the bow and stern heights above\n\n" + table("", 0, ""), "loa=73 bow=18? stern=17? carry=21", rows},
		{"from the stern", ends + "Stations are measured from the stern\n\n" + table("", 0, ""), sure, " 13:41,60 25:43,67 37:41.5,62 49:37,52.5 61:31,39"},
		{"a key in cells", ends + table("flag", 2, "E") + "\nE|estimated\nM|measured", sure, third},
	} {
		doc := Read("x", []Grid{grid(c.grid)})
		if len(doc.Surveys) != 1 {
			t.Errorf("%s: %d surveys", c.name, len(doc.Surveys))
			continue
		}
		if got, want := brief(doc.Surveys[0]), "in "+c.once+" greatest=-,-,-,-"+c.stations; got != want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, want)
		}
	}
}
