package prose

import (
	"fmt"
	"strings"
	"testing"

	"fairtape/parse"
)

// rowsSaid are four rows of a boat, divided in the given way.
func rowsSaid(divider string, second string) string {
	rows := []string{"1 ft|30|40 1/2", second, "3 ft|40|60 1/2", "4 ft|41 1/2|63"}
	return "Hull girth and full girth, inches:\n" + strings.ReplaceAll(strings.Join(rows, "\n"), "|", divider)
}

// TestDividedRows holds that something beside a number, or in its place, is a
// doubt about that number alone.
func TestDividedRows(t *testing.T) {
	for _, c := range []struct {
		name, text string
		sureHull   bool // of the second row
		sureFull   bool
	}{
		{"two numbers", rowsSaid(" ... ", "2 ft|36 or 37|52"), false, true},
		{"two numbers with a remark", rowsSaid(" ... ", "2 ft|36|52 (or 43, the tape slipped)"), true, false},
		{"the same", rowsSaid(" ... ", "2 ft|same|52"), false, true},
		{"the same, with strokes", rowsSaid(" / ", "2 ft|same|52"), false, true},
		{"a question mark", rowsSaid(" / ", "2 ft|36|52?"), true, false},
		{"nothing odd", rowsSaid(" ... ", "2 ft|36|52"), true, true},
		{"a question mark in words", "1': hull girth 30\", full girth 40 1/2\"\n2': hull girth 36\", full girth 52? hard to hold the tape\n3': hull girth 40\", full girth 60 1/2\"", true, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := Read("m.txt", c.text, "").Document
			if len(doc.Surveys) != 1 {
				t.Fatalf("%d surveys, want 1", len(doc.Surveys))
			}
			for _, s := range doc.Surveys[0].Stations {
				second := s.At == parse.Inches(24)
				if got, want := s.HullGirth.Certain(), !second || c.sureHull; got != want {
					t.Errorf("hull girth at %v: sure %v, want %v", s.At.In(parse.Inch), got, want)
				}
				if got, want := s.FullGirth.Certain(), !second || c.sureFull; got != want {
					t.Errorf("full girth at %v: sure %v, want %v", s.At.In(parse.Inch), got, want)
				}
			}
		})
	}
}

func fields(kind string) string {
	var b strings.Builder
	for _, row := range []string{"1 ft 30 40.5", "2 ft 36 52", "3 ft 40 60.5"} {
		f := strings.Fields(row)
		fmt.Fprintf(&b, "<tr><td>%s %s<td><input type=%s value='%s'><td><input type=%s value='%s'>", f[0], f[1], kind, f[2], kind, f[3])
	}
	return b.String()
}

// TestTypedTables reads tables that are drawn, set in fixed print, or passed on.
func TestTypedTables(t *testing.T) {
	const plain = "station  hull girth (in)  full girth (in)\n1 ft     30               40.5\n2 ft     36               52\n3 ft     40               60.5"
	const drawn = "┌─────────┬─────────────────┬─────────────────┐\n│ Station │ Hull girth (in) │ Full girth (in) │\n├─────────┼─────────────────┼─────────────────┤\n│ 1 ft    │ 30              │ 40.5            │\n│ 2 ft    │ 36              │ 52              │\n│ 3 ft    │ 40              │ 60.5            │\n└─────────┴─────────────────┴─────────────────┘"
	marked := "> From: Wim <wim@quillon.example>\n> Date: Sun, 31 May 2026 at 18:20\n> Subject: canoe\n>\n> " + strings.ReplaceAll(plain, "\n", "\n> ")
	for _, c := range []struct {
		name, text, html string
		stations         int
	}{
		{"an answer to an earlier mail", "On Sun, 31 May 2026 Wim wrote:\n" + marked, "", 0},
		{"quoted in what was passed on", "Begin forwarded message:\n" + strings.ReplaceAll(marked, "> ", "> > "), "", 0},
		{"passed on", "Here it is.\n\nBegin forwarded message:\n" + marked, "", 3},
		{"drawn", drawn, "", 3},
		{"in fixed print", "", "<p>Canoe</p><pre>" + plain + "</pre>", 3},
		{"in the fields of a form", "", "<table><tr><th>Station<th>Hull girth (in)<th>Full girth (in)" + fields("text") + "</table>", 3},
		{"in hidden fields", "", "<table><tr><th>Station<th>Hull girth (in)<th>Full girth (in)" + fields("hidden") + "</table>", 0},
		{"hidden in fixed print", "", "<p>Canoe</p><pre><span hidden>" + plain + "</span></pre>", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := Read("m.txt", c.text, c.html).Document
			got := 0
			for _, s := range doc.Surveys {
				for _, st := range s.Stations {
					if st.HullGirth.Certain() && st.FullGirth.Certain() {
						got++
					}
				}
			}
			if got != c.stations {
				t.Errorf("%d stations, want %d", got, c.stations)
			}
		})
	}
}
