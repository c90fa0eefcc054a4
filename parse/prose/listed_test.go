package prose

import (
	"strings"
	"testing"
)

// TestListed reads surveys that a program laid out as a list or a sheet, or that
// were pasted from one, and next to them those that leave open what is meant.
func TestListed(t *testing.T) {
	const (
		head  = "LOA 7'4\", bow 17\", stern 15.5\", carry 14\"\n"
		whole = inHead + inRows
		lines = "hull girth 30, full girth 40 1/2|hull girth 36, full girth 52|hull girth 40, full girth 60 1/2|hull girth 41 1/2, full girth 63|hull girth 40, full girth 61|hull girth 36 1/2, full girth 54|hull girth 31, full girth 42"
	)
	counted := func(mark func(n int) string) string {
		body := head
		for i, l := range strings.Split(lines, "|") {
			body += mark(i+1) + l + "\n"
		}
		return body
	}
	for _, c := range []struct{ name, text, html, want string }{
		{"counted from two", head + "2. 30, 40.5\n3. 36, 52\n4. 40, 60.5\n5. 41.5, 63", "", "in 88 17 15.5 14 24:30,40.5 36:36,52 48:40,60.5 60:41.5,63"},
		{"a comma for the decimals too", head + "station,hull,full\n1,30,40,5\n2,36,52\n3,40,60,5\n4,41,63", "", "in 88 17 15.5 14 !unplaced-number(1,30,40,5) !unplaced-number(2,36,52) !unplaced-number(3,40,60,5) !unplaced-number(4,41,63)"},

		{"counted in figures", counted(func(n int) string { return string(rune('0'+n)) + ". " }), "", whole},
		{"counted with brackets", counted(func(n int) string { return "(" + string(rune('0'+n)) + ") " }), "", whole},
		{"counted with a number sign", counted(func(n int) string { return "#" + string(rune('0'+n)) + " " }), "", whole},
		{"counted by the browser", "", "<p>" + head + "</p><p>The number is the foot from the bow.</p><ol>" + counted(func(int) string { return "<li>" })[len(head):] + "</ol>", whole},
		{"pasted with commas", head + "station ft,hull girth in,full girth in\n1,30,40.5\n2,36,52\n3,40,60.5\n4,41.5,63\n5,40,61\n6,36.5,54\n7,31,42\n\nAnn", "", whole},
		{"pasted with semicolons and decimal commas", head + "station (ft);hull girth (in);full girth (in)\n1;30;40,5\n2;36;52\n3;40;60,5\n4;41,5;63\n5;40;61\n6;36,5;54\n7;31;42\n\nAnn", "", whole},
		{"columns between questions", "> What is the length?\n\n7 ft 4 in\n\n> The girths?\n\nStation  Hull  Full\n1 ft     30 1/2 40 1/2\n2 ft     36     52\n3 ft     40     60 1/2", "", "in 88 - - - 12:30.5,40.5 24:36,52 36:40,60.5"},
		{"the number of an entry", "Hull girth at 1 ft (in): 30\nFull girth at 1 ft (in): 40.5\nI agree to the terms: yes\nEntry number: 2048", "", "in - - - - 12:30,40.5"},
		{"a correction asked for", head + "1 ft: 30, 40.5\n2 ft: 36, 58\n3 ft: 40, 60.5\n\nAnn\n\nPS: please correct the full girth at 2 ft: it is 52, not 58.", "", "in 88 17 15.5 14 12:30,40.5 24:36,52 36:40,60.5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := shortForm(Read("m.eml", c.text, c.html)); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

// A letter that was printed to a file begins with the header of its mail.
func TestPrinted(t *testing.T) {
	text := "From: Ann Tern <ann@tern.example>\nSent: 1 May 2026 19:12\nTo: Lena Ferriby\nSubject: canoe\n\nLength overall 7' 4\"\n1 ft - 30 - 40.5\n2 ft - 36 - 52\n3 ft - 40 - 60.5\n"
	got := shortForm(Mail{Document: Printed("m.pdf", text)})
	if want := "in 88 - - - 12:30,40.5 24:36,52 36:40,60.5"; got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
}
