package table

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fairtape/parse"
)

var digitRun = regexp.MustCompile(`\d+`)

// emptyStation is the name of a row, which is no number where nothing is in it.
var emptyStation = regexp.MustCompile(`^(?:station )?\d(?: ft)?:?$`)

// unaccounted returns the cells of a sheet with a survey whose digits end in no
// value, no problem and no station.
func unaccounted(g Grid) []string {
	doc := Read("m.xlsx", []Grid{g})
	if len(doc.Surveys) == 0 {
		return nil
	}
	said := map[string]bool{}
	say := func(s string) {
		for _, d := range digitRun.FindAllString(parse.Plain(s), -1) {
			said[d] = true
		}
	}
	for _, s := range doc.Surveys {
		for _, r := range []parse.Reading{s.LengthOverall, s.BowHeight, s.SternHeight, s.CarryPoint, s.Greatest.At, s.Greatest.HullGirth,
			s.Greatest.FullGirth, s.Greatest.Opening, s.Transom.HullGirth, s.Transom.FullGirth} {
			say(r.Source.Raw)
		}
		say(s.Boat + " " + s.Customer)
		for _, st := range s.Stations {
			say(st.HullGirth.Source.Raw + " " + st.FullGirth.Source.Raw)
			if st.HullGirth.Known && st.FullGirth.Known { // an opening that agrees says nothing new
				say(strconv.FormatFloat((st.FullGirth.Value - st.HullGirth.Value).In(s.Unit), 'f', -1, 64))
			}
			say(fmt.Sprint(int(st.At.In(parse.Inch))/12, int(st.At.In(parse.Inch))%12))
			for _, n := range []float64{st.At.In(parse.Inch), st.At.In(parse.Inch) / 12, st.At.In(parse.Centimetre)} {
				say(strconv.FormatFloat(n, 'f', -1, 64))
			}
		}
	}
	for _, s := range doc.Surveys {
		say(strconv.FormatFloat((s.Transom.FullGirth.Value - s.Transom.HullGirth.Value).In(s.Unit), 'f', -1, 64))
	}
	for _, p := range doc.Problems {
		say(p.Source.Raw + " " + p.Message)
	}
	var lost []string
	for _, row := range g.Rows {
		for _, c := range row {
			it := newItem(c, 0, 0)
			if it.word() && !numberInWords.MatchString(it.folded) || emptyStation.MatchString(it.folded) {
				continue // a label, or words with a number that nobody measured
			}
			for _, d := range digitRun.FindAllString(parse.Plain(c.Text), -1) {
				if !said[d] {
					lost = append(lost, fmt.Sprintf("%q (%s)", c.Text, c.Place))
				}
			}
		}
	}
	return lost
}

// TestAccount holds that every number of a sheet ends as a value or in a
// problem, also when cells are moved, emptied or strewn with other things.
func TestAccount(t *testing.T) {
	cases := sheetCases()
	for _, c := range cases {
		for _, lost := range unaccounted(grid(c.grid)) {
			t.Errorf("%s: %s is lost", c.name, lost)
		}
	}
	strew := []string{"", "hull", "93.25", "about 97", "Notes", "station", "Average", "Greatest girth", "98 in", "3 ft", "94 / 95", "same", "full 96", "transom", "n/a", "Bow", "Opening"}
	r := rand.New(rand.NewPCG(5, 6))
	failed := 0
	rounds := 1200
	if testing.Short() {
		rounds = 120
	}
	for range rounds {
		c := cases[r.IntN(len(cases))]
		if c.name == "a running number" {
			continue // running numbers are passed over
		}
		g := grid(c.grid)
		for range 1 + r.IntN(4) {
			row := g.Rows[r.IntN(len(g.Rows))]
			if len(row) == 0 {
				continue
			}
			switch i := r.IntN(len(row)); r.IntN(3) {
			case 0:
				other := g.Rows[r.IntN(len(g.Rows))]
				if j := r.IntN(len(other) + 1); j < len(other) {
					row[i].Text, other[j].Text = other[j].Text, row[i].Text
				}
			default:
				row[i].Text = strew[r.IntN(len(strew))]
			}
		}
		for _, lost := range unaccounted(g) {
			if failed++; failed < 15 {
				t.Errorf("%s: %s is lost of\n%s", c.name, lost, show(g))
			}
		}
	}
}

func show(g Grid) string {
	var b strings.Builder
	for _, row := range g.Rows {
		for _, c := range row {
			b.WriteString(c.Text + " | ")
		}
		b.WriteByte('\n')
	}
	return b.String()
}
