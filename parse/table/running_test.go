package table

import (
	"fmt"
	"strings"
	"testing"
)

// What people count, photograph and date beside their numbers, and what they
// measured twice.
func TestBesideTheNumbers(t *testing.T) {
	hull, full := []string{"31", "37", "41.5", "43", "41"}, []string{"39", "52.5", "62", "67", "60"}
	rows := func(head, line string) string {
		out := head + "\n"
		for i := range hull {
			out += strings.NewReplacer("#", fmt.Sprint(i+1), "%", fmt.Sprint(i+5), "H", hull[i], "F", full[i]).Replace(line) + "\n"
		}
		return out
	}
	less := func(line string) string { // another measuring, half an inch less
		out := ""
		for i, h := range []string{"30.5", "36.5", "41", "42.5", "40.5"} {
			out += strings.NewReplacer("#", fmt.Sprint(i+1), "L", h, "H", hull[i], "F", full[i], "K", []string{"38.5", "52", "61.5", "66.5", "59.5"}[i]).Replace(line) + "\n"
		}
		return out
	}
	halves := func(head, last string) string {
		return head + "\n1 ft|15.5|15.5|31|39\n2 ft|18|19|37|52.5\n3 ft|21|20.5|41.5|62\n4 ft|21.5|21.5|43|67\n5 ft|20.5|" + last + "\n"
	}
	const once = "in loa=73 bow=18 stern=17 carry=21 greatest=-,-,-,-"
	const ends = "Length overall|6 ft 1 in\nBow height|18 in\nStern height|17 in\nCarry point|21 in\n\n"
	const stations = " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:41,60"
	for _, c := range []struct{ name, grid, want string }{
		{"neither sum nor halves", ends + halves("Station|Port|Starboard|Sum|Full girth (in)", "19|38|60\n6 ft|20|17|40|50"),
			once + " 12:-,39 24:-,52.5 36:-,62 48:-,67 60:-,60 72:-,50"},
		{"a sum that is none", ends + halves("Station|Port|Starboard|Sum|Full girth (in)", "20.5|42|60"), once + strings.Replace(stations, ":41,", ":?,", 1)},
		{"two sides and their sum", ends + halves("Station|Port|Starboard|Sum|Full girth (in)", "20.5|41|60"), once + stations},
		{"openings, and nobody says that they make the full girths", ends + "Station|Hull (in)|Opening (in)\n1 ft|31|8\n2 ft|37|15.5\n3 ft|41.5|20.5\n4 ft|43|24\n5 ft|41|19\n",
			once + " 12:31,39? 24:37,52.5? 36:41.5,62? 48:43,67? 60:41,60?"},
		{"openings that do", "Full girth = hull girth + opening at every station.\n" + ends + "Station|Hull (in)|Opening (in)\n1 ft|31|8\n2 ft|37|15.5\n3 ft|41.5|20.5\n4 ft|43|24\n5 ft|41|19\n", once + stations},
		{"another sum", "Full girth = hull girth + hem.\n" + ends + "Station|Hull (in)|Opening (in)\n1 ft|31|8\n2 ft|37|15.5\n3 ft|41.5|20.5\n4 ft|43|24\n5 ft|41|19\n",
			once + " 12:31,39? 24:37,52.5? 36:41.5,62? 48:43,67? 60:41,60?"},
		{"a heading over the wrong column", ends + "Station|Full girth (in)|\n1 ft|31|39\n2 ft|37|52.5\n3 ft|41.5|62\n4 ft|43|67\n5 ft|41|60\n", once + " 12:-,31? 24:-,37? 36:-,41.5? 48:-,43? 60:-,41?"},
		{"lines counted beside places", "No.|What|Hull girth|Full girth|Value|Unit\n1|Length overall|||73|in\n2|Bow height|||18|in\n3|Stern height|||17|in\n4|Carry point|||21|in\n" +
			strings.TrimPrefix(rows("", "%|Station at # ft|H|F||in"), "\n"), once + stations},
		{"dates beside them", "No.|Date|What|Hull girth|Full girth|Value|Unit\n1|14/08/2026|Length overall|||73|in\n2|14/08/2026|Bow height|||18|in\n3|14/08/2026|Stern height|||17|in\n4|14/08/2026|Carry point|||21|in\n" +
			strings.TrimPrefix(rows("", "%|14/08/2026|Station at # ft|H|F||in"), "\n"), once + stations},
		{"places in words", ends + rows("What I measured|Hull girth (in)|Full girth (in)", "Girths at # ft from the bow|H|F"), once + stations},
		{"photographs", "Length overall|6 ft 1 in (IMG_2038)\nBow height|18 in (photo 3)\nStern height|17 in\nCarry point|21 in\n\n" +
			rows("Photo|Station|Hull girth (in)|Full girth (in)", "IMG_204#|# ft|H|F"), once + stations},
		{"photographs by number", ends + rows("Photo no.|Station (ft)|Hull girth (in)|Full girth (in)", "204#|#|H|F"), once + stations},
		{"tolerances", "Item|Value|±\nLength overall|6 ft 1 in|0.5\nBow height|18 in|0.25\nStern height|17 in|0.25\nCarry point|21 in|0.25\n\n" +
			rows("Station (ft)|Hull girth (in)|±|Full girth (in)|±", "#|H|0.25|F|0.5"), once + stations},
		{"a line between the rows", ends + strings.Replace(rows("Station|Hull girth (in)|Full girth (in)", "# ft|H|F"), "4 ft", "yoke||\n4 ft", 1), once + stations},
		{"the second counts, by its heading", ends + "|First measuring||Second measuring (this one counts)|\nStation|Hull (in)|Full (in)|Hull (in)|Full (in)\n" + less("# ft|L|K|H|F"), once + stations},
		{"the second counts, by a sentence", ends + "The second measuring counts, it rained before.\nStation|Hull 1 (in)|Full 1 (in)|Hull 2 (in)|Full 2 (in)\n" + less("# ft|L|K|H|F"), once + stations},
		{"nobody says which counts", ends + "Station|Hull 1 (in)|Full 1 (in)|Hull 2 (in)|Full 2 (in)\n" + less("# ft|L|K|H|F"), once + " 12:?,? 24:?,? 36:?,? 48:?,? 60:?,?"},
		{"two tables, one not to be used", ends + "First measuring (do not use)\nStation|Hull (in)|Full (in)\n" + less("# ft|L|K") + "\nSecond measuring\n" + rows("Station|Hull (in)|Full (in)", "# ft|H|F"), once + stations},
	} {
		doc := Read("x", []Grid{grid(c.grid)})
		if len(doc.Surveys) != 1 {
			t.Errorf("%s: %d surveys, problems %v", c.name, len(doc.Surveys), doc.Problems)
			continue
		}
		if got := brief(doc.Surveys[0]); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

// A sheet that lists a club's boats with their lengths is no survey of any.
func TestFleet(t *testing.T) {
	fleet := grid("No.|Name|Kind|Length|Cover?\n1|Kingfisher|canoe|16 ft|yes\n2|Dipper|canoe|see next sheet|no\n3|Grebe|kayak|14 ft|no")
	fleet.Name = "Fleet"
	boat := grid("Length overall|6 ft 1 in\nStation|Hull girth (in)|Full girth (in)\n1 ft|31|39\n2 ft|37|52.5\n3 ft|41.5|62\n4 ft|43|67")
	members := grid("No.|Member|Boat length|Fee\n1|Ada Finch|14 ft|40\n2|Peg Hanlon|12 ft|25")
	members.Name = "Members"
	doc := Read("x", []Grid{fleet, members, boat})
	if len(doc.Surveys) != 1 || brief(doc.Surveys[0]) != "in loa=73 bow=- stern=- carry=- greatest=-,-,-,- 12:31,39 24:37,52.5 36:41.5,62 48:43,67" {
		t.Errorf("got %+v", doc)
	}
}

// Of two sheets of one boat the names may say which counts.
func TestReplacedSheets(t *testing.T) {
	const head = "Length overall|6 ft 1 in\nStation|Hull girth (in)|Full girth (in)\n"
	was := grid(head + "1 ft|30|38\n2 ft|36|51.5\n3 ft|40.5|61\n4 ft|42|66")
	is := grid(head + "1 ft|31|39\n2 ft|37|52.5\n3 ft|41.5|62\n4 ft|43|67")
	more := grid("Station|Hull girth (in)|Full girth (in)\n5 ft|41|60\n6 ft|35|44")
	const read = "in loa=73 bow=- stern=- carry=- greatest=-,-,-,- 12:31,39 24:37,52.5 36:41.5,62 48:43,67"
	for _, c := range []struct {
		first, second string
		grids         [2]Grid
		want          string // "" where nobody can tell
	}{
		{"Saturday", "Sunday", [2]Grid{was, is}, ""},
		{"Old", "Measured", [2]Grid{was, is}, ""},
		{"Old", "New", [2]Grid{was, is}, read},
		{"First try", "Second try (use this)", [2]Grid{was, is}, read},
		{"Saturday (wrong)", "Sunday", [2]Grid{was, is}, read},
		{"First half", "Second half", [2]Grid{is, more}, read + " 60:41,60 72:35,44"},
		{"Draft", "Corrections", [2]Grid{is, more}, read + " 60:41,60 72:35,44"},
	} {
		c.grids[0].Name, c.grids[1].Name = c.first, c.second
		doc := Read("x", c.grids[:])
		got := ""
		if len(doc.Surveys) == 1 {
			got = brief(doc.Surveys[0])
		}
		if got != c.want {
			t.Errorf("%s, %s:\ngot  %s\nwant %s", c.first, c.second, got, c.want)
		}
	}
}
