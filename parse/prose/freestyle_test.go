package prose

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// freestyle types a survey in a way drawn at random: how stations are named,
// which girth comes first and how it is called, what stands between, how the
// numbers flow over the lines, and what else is in the mail. It returns the body
// and a name of the way.
func freestyle(r *rand.Rand, b boat) (body, name string) {
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	number := []func(float64) string{fraction, decimal, glyphs, func(x float64) string { return fraction(x) + `"` }, func(x float64) string { return decimal(x) + " in" }}[r.IntN(5)]
	head := []func(boat, func(float64) string) string{keyed, sentencesHead, inline, suffixed}[r.IntN(4)](b, func(x float64) string { return strings.TrimRight(number(x), ` "in`) })
	station := pick("%d ft", "%d'", "%d", "Station %d", "#%d", "%d ft from the bow", "At %d feet", "%d foot mark", "St. %d", "S%d", "")
	labels := [][2]string{{"", ""}, {"", ""}, {"hull", "full"}, {"hull girth", "full girth"}, {"under", "around"}, {"open", "closed"}, {"bottom", "total"}, {"h", "f"}, {"the wrap below", "the whole loop"}, {"first tape", "second tape"}}[r.IntN(10)]
	swapped := r.IntN(4) == 0
	after := r.IntN(3) == 0 // labels stand behind their numbers
	joint := pick(", ", " / ", " - ", "   ", "\t", " | ", " and ", "; ", " & ", " then ")
	colon := pick(": ", " - ", "  ", " = ", ", ", " ")
	heading := pick("", "", "hull / full", "station, hull girth, full girth", "First the hull girth, then the full girth:", "Girths:", "The numbers in inches:")
	if swapped {
		heading = strings.NewReplacer("hull / full", "full / hull", "hull girth, full girth", "full girth, hull girth", "First the hull girth, then the full girth", "First the full girth, then the hull girth").Replace(heading)
	}
	flow := pick("lines", "lines", "lines", "paragraph", "lists", "across", "two a line", "spread", "cards", "numbered", "lists of places", "places twice")
	girth := func(which, i int) string {
		v := []float64{b.hull[i], b.full[i]}[which]
		switch {
		case labels[which] == "":
			return number(v)
		case after:
			return number(v) + " " + labels[which]
		}
		return labels[which] + " " + number(v)
	}
	order := []int{0, 1}
	if swapped {
		order = []int{1, 0}
	}
	var rows []string
	for i := range b.hull {
		at := ""
		if station != "" {
			at = fmt.Sprintf(station, i+1) + colon
		}
		rows = append(rows, at+girth(order[0], i)+joint+girth(order[1], i))
	}
	var text strings.Builder
	text.WriteString(pick("Hello,\n\n", "Hi there, here is the canoe.\n\n", ""))
	text.WriteString(head)
	list := func(which int, sep string) string {
		var all []string
		for i := range b.hull {
			all = append(all, number([]float64{b.hull[i], b.full[i]}[which]))
		}
		return strings.Join(all, sep)
	}
	if flow != "lists" && flow != "across" && heading != "" {
		text.WriteString(heading + "\n")
	}
	switch flow {
	case "lines":
		text.WriteString(strings.Join(rows, "\n"))
	case "spread":
		text.WriteString(strings.Join(rows, "\n\n"))
	case "paragraph":
		text.WriteString(strings.Join(rows, pick(", ", "; ", ". ", " ... ")))
	case "two a line":
		for i, row := range rows {
			text.WriteString(row)
			if i%2 == 0 {
				text.WriteString(pick("    ", "        "))
			} else {
				text.WriteString("\n")
			}
		}
	case "cards": // in rows of so many, both girths of each below its place
		for size, i := 2+r.IntN(3), 0; i < len(b.hull); i += size {
			var places, numbers []string
			for k := i; k < min(i+size, len(b.hull)); k++ {
				places = append(places, fmt.Sprintf("%d ft", k+1))
				numbers = append(numbers, girth(order[0], k), girth(order[1], k))
			}
			text.WriteString(strings.Join(places, "      ") + "\n" + strings.Join(numbers, "   ") + "\n" + pick("", "\n"))
		}
	case "numbered": // a number and a distance for each
		form := pick("Station %d (%s)%s", "%d. at %s%s", "No. %d, %s from the bow%s", "#%d [%s]%s")
		for i := range b.hull {
			text.WriteString(fmt.Sprintf(form, i+1, fmt.Sprintf("%d ft", i+1), colon) + girth(order[0], i) + joint + girth(order[1], i) + "\n")
		}
	case "lists of places":
		for _, which := range order {
			text.WriteString(pick("", "Next the other one:", []string{"Hull girth", "Full girth"}[which]) + "\n")
			for i := range b.hull {
				text.WriteString(fmt.Sprintf("%d ft%s%s\n", i+1, colon, number([]float64{b.hull[i], b.full[i]}[which])))
			}
		}
	case "places twice":
		for i := range b.hull {
			text.WriteString(fmt.Sprintf("%d ft%s%s%s%d ft%s%s\n", i+1, colon, girth(order[0], i), pick("    ", "      "), i+1, colon, girth(order[1], i)))
		}
	case "lists":
		names := [][2]string{{"Hull girths", "Full girths"}, {"Hull", "Full"}, {"Hull girth from 1 ft on", "Full girth from 1 ft on"}, {"Hull girths bow to stern", "Full girths bow to stern"}}[r.IntN(4)]
		sep := pick(", ", "  ", " / ", "\n", "; ")
		for _, which := range order {
			text.WriteString(names[which] + pick(":\n", ": ") + list(which, sep) + "\n" + pick("", "\n"))
		}
	case "across":
		sep := pick(", ", "  ", " | ", "\t")
		form := pick("%d", "%d ft")
		var stations []string
		for i := range b.hull {
			stations = append(stations, fmt.Sprintf(form, i+1))
		}
		text.WriteString(pick("Station", "Feet", "ft") + pick(": ", sep) + strings.Join(stations, sep) + "\n")
		for _, which := range order {
			text.WriteString([]string{"Hull", "Full"}[which] + pick(": ", sep) + list(which, sep) + "\n")
		}
	}
	text.WriteString("\n\n" + pick("Thanks,\nAnn Tern\n12 Wharf Road\n902 555 0143\n", "Ann", "Cheers, Ann\nSent from my phone"))
	return text.String(), fmt.Sprintf("%s|%s|%s|%v|after %v|joint %q|colon %q|%q", flow, station, labels, swapped, after, joint, colon, heading)
}

// TestFreestyle holds that a survey typed in any way is read rightly or left to
// a person: no number is sure and wrong. Most are read whole.
func TestFreestyle(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	whole, n := 0, 200
	if testing.Short() {
		n = 30
	}
	for range n {
		b := madeBoat(r)
		body, name := freestyle(r, b)
		missed := compare(t, b, Read("m.eml", body, ""))
		if t.Failed() {
			t.Fatalf("%s\n%s\n%s", name, body, describe(Read("m.eml", body, "")))
		}
		if len(missed) == 0 {
			whole++
		}
	}
	if 3*whole < 2*n {
		t.Errorf("%d of %d are read whole", whole, n)
	}
}
