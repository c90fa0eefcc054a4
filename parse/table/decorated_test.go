package table

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
)

// decorated lays a survey out in a table that says what its columns are, with
// what people add to one: other columns, rows, words and units.
func (s invented) decorated(r *rand.Rand) string {
	unit := string(s.unit)
	names := []string{"feet from bow", "Station (ft)", "Distance from bow (ft)"}
	if s.unit == parse.Centimetre {
		names = []string{"cm from bow", "Station (cm)", "Distance de l'étrave (cm)", "Repère (cm)"}
	}
	columns := [][]string{
		{names[r.IntN(len(names))]},
		{pick(r, "Hull girth", "Under the hull", "Tour de coque", "Hull") + " (" + unit + ")"},
		{pick(r, "Full girth", "All the way round", "Tour complet", "Full") + " (" + unit + ")"},
	}
	for i := range s.hull {
		at := float64(i+1) * s.step
		if s.unit == parse.Inch {
			at /= 12
		}
		columns[0] = append(columns[0], plain(at))
		columns[1] = append(columns[1], plain(s.hull[i])+s.remark(r))
		columns[2] = append(columns[2], plain(s.full[i])+s.remark(r))
	}
	for range r.IntN(4) {
		columns = s.addColumn(r, columns)
	}
	if r.IntN(4) == 0 {
		for _, c := range columns {
			slices.Reverse(c[1:])
		}
	}
	var lines []string
	for i := range columns[0] {
		var row []string
		for _, c := range columns {
			row = append(row, c[i])
		}
		lines = append(lines, strings.Join(row, "|"))
	}
	return s.around(r, s.between(r, lines))
}

// remark is words beside a number, mostly none.
func (s invented) remark(r *rand.Rand) string {
	if r.IntN(12) > 0 {
		return ""
	}
	return pick(r, " (thwart)", ", at the seat", " checked", " - by the yoke", " (2nd try)")
}

// addColumn adds a column, before the others or behind them, or several tries of
// a girth beside it.
func (s invented) addColumn(r *rand.Rand, columns [][]string) [][]string {
	of := func(heading string, cell func(i int) string) []string {
		c := []string{heading}
		for i := range s.hull {
			c = append(c, cell(i))
		}
		return c
	}
	other, per, places := "cm", 2.54, 10.0
	if s.unit == parse.Centimetre {
		other, per = "in", 1/2.54
	}
	unit := string(s.unit)
	behind := func(more ...[]string) [][]string { return append(columns, more...) }
	if slices.ContainsFunc(columns, func(c []string) bool { return c[0] == "Done" || strings.HasPrefix(c[0], "No.") }) {
		return behind(of("Remarks", func(int) string { return pick(r, "", "", "windy", "rib here", "the dog helped") }))
	}
	switch r.IntN(9) {
	case 0:
		return append([][]string{of("No.", func(i int) string { return fmt.Sprint(i + 1) })}, columns...)
	case 1:
		return append(behind(of("Done", func(int) string { return pick(r, "x", "✓") })), of("By", func(int) string { return pick(r, "AW", "BT") }))
	case 2:
		return behind(of(pick(r, "Opening", "Opening (full less hull)", "Ouverture", "full - hull"), func(i int) string { return plain(s.full[i] - s.hull[i]) }))
	case 3:
		return behind(of("Date", func(i int) string { return fmt.Sprintf("2026-11-%02d", 1+i/4) }))
	case 4:
		return behind(
			of("Hull girth ("+other+"), calculated", func(i int) string { return plain(math.Round(s.hull[i]*per*places) / places) }),
			of("Full girth ("+other+"), calculated", func(i int) string { return plain(math.Round(s.full[i]*per*places) / places) }))
	case 5:
		return behind(
			of("Hull girth ("+other+")", func(i int) string { return plain(math.Round(s.hull[i]*per*places) / places) }),
			of("Full girth ("+other+")", func(i int) string { return plain(math.Round(s.full[i]*per*places) / places) }))
	case 6:
		return behind(of("Hull girth, catalogue", func(i int) string { return plain(s.hull[i] - 1) }), of("Full girth, catalogue", func(i int) string { return plain(s.full[i] + 2) }))
	case 7:
		return behind(of("Change", func(i int) string {
			if i == 0 {
				return ""
			}
			return plain(s.full[i] - s.full[i-1])
		}))
	}
	for i, c := range columns { // tries, and the one that counts
		if c[1] != plain(s.hull[0]) || !strings.HasSuffix(c[0], "("+unit+")") {
			continue
		}
		kept := slices.Clone(c)
		kept[0] += pick(r, " kept", ", final", ", retenu")
		first := of("Hull 1st try", func(i int) string { return plain(s.hull[i] - float64(r.IntN(2))) })
		second := of("Hull 2nd try", func(i int) string { return plain(s.hull[i] + float64(r.IntN(2))) })
		return slices.Insert(slices.Delete(slices.Clone(columns), i, i+1), i, first, second, kept)
	}
	return columns
}

// between puts rows between those of a table.
func (s invented) between(r *rand.Rand, lines []string) []string {
	switch k := 2 + r.IntN(len(lines)-3); r.IntN(6) {
	case 0:
		return slices.Insert(lines, k, "")
	case 1:
		return slices.Insert(lines, k, pick(r, "Middle", "STERN PART", "here it began to rain", "second evening"))
	case 2:
		return slices.Insert(lines, k, "", lines[0])
	}
	return lines
}

// around puts the other measures, and what is no measure, around a table.
func (s invented) around(r *rand.Rand, table []string) string {
	unit := string(s.unit)
	labels := []string{
		"Length overall|" + plain(s.once[parse.LengthOverall]) + " " + unit + pick(r, "", " (twice)"),
		"Bow height|" + plain(s.once[parse.BowHeight]) + " " + unit,
		"Stern height|" + plain(s.once[parse.SternHeight]) + " " + unit,
		"Carry point|" + plain(s.once[parse.CarryPoint]) + " " + unit + pick(r, "", " (thwart)", " from the bow"),
	}
	var lines []string
	for _, l := range []string{"My canoe", "Ada Weir|555 0142", "Beam|34 in", "Built 1987, weighs 52 lb"} {
		if r.IntN(3) == 0 {
			lines = append(lines, l)
		}
	}
	if r.IntN(2) == 0 {
		return strings.Join(slices.Concat(lines, labels, []string{""}, table), "\n")
	}
	return strings.Join(slices.Concat(lines, table, []string{""}, labels), "\n")
}

// A table that says what its columns are is read, whatever stands beside and
// between; and no number is given that was not measured.
func TestDecorated(t *testing.T) {
	rounds := 400
	if testing.Short() {
		rounds = 80
	}
	whole, failed, shown := 0, 0, 0
	for seed := range rounds {
		r := rand.New(rand.NewPCG(uint64(seed), 11))
		s := invent(r)
		text := s.decorated(r)
		doc := Read("x.xlsx", []Grid{grid(text)})
		sure := 0
		for _, got := range doc.Surveys {
			wrong, n := s.sureAndWrong(got)
			sure += n
			if len(wrong) > 0 {
				if failed++; failed < 4 {
					t.Errorf("%d: %s, of\n%s", seed, strings.Join(wrong, "; "), text)
				}
			}
		}
		if sure == 2*len(s.hull)+len(s.once) {
			whole++
		} else if shown++; shown < 6 {
			t.Logf("%d: %d of %d, %v, of\n%s", seed, sure, 2*len(s.hull)+len(s.once), doc.Problems, text)
		}
	}
	t.Logf("%d of %d tables are read in full", whole, rounds)
	if 100*whole < 95*rounds {
		t.Errorf("only %d of %d tables are read in full", whole, rounds)
	}
}
