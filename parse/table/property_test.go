package table

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fairtape/parse"
)

// plainLayouts are layouts without a problem that makes a reading doubtful.
func plainLayouts() []string {
	var texts []string
	for _, l := range layouts {
		if (l.codes == "" || l.codes == "unit-guessed") && !strings.Contains(l.want, "?") {
			texts = append(texts, l.text)
		}
	}
	return texts
}

func read(t *testing.T, g Grid) string {
	t.Helper()
	doc := Read("x", []Grid{g})
	if len(doc.Surveys) != 1 {
		return "none"
	}
	return brief(doc.Surveys[0])
}

// A table laid on its side says the same.
func TestTransposed(t *testing.T) {
	for _, text := range plainLayouts() {
		if strings.Contains(text, "1st try") || !strings.Contains(text, "Station") {
			continue
		}
		g := grid(tableOf(text))
		if got, want := read(t, transpose(g)), read(t, g); got != want {
			t.Errorf("on its side:\n%s\ngot  %s\nwant %s", text, got, want)
		}
	}
}

// tableOf drops what stands around the table of stations.
func tableOf(text string) string {
	lines := strings.Split(strings.Trim(text, "\n"), "\n")
	start := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "Station|Hull") })
	if start < 0 {
		return "Station|Hull (in)|Full (in)\n1 ft|35.5|42\n2 ft|40|55"
	}
	end := start + 1
	for end < len(lines) && strings.Contains(lines[end], "ft|") {
		end++
	}
	return strings.Join(lines[start:end], "\n")
}

func transpose(g Grid) Grid {
	var out Grid
	for c := range g.Rows[0] {
		var row []Cell
		for _, r := range g.Rows {
			if c < len(r) {
				row = append(row, r[c])
			} else {
				row = append(row, Cell{})
			}
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// The order of the whole-boat lines does not matter, nor do blank lines.
func TestShuffledLines(t *testing.T) {
	lines := []string{"Units|in", "Length overall|6 ft 3 in", "Bow height|18 1/2", "Stern height|17", "Carry point|19 1/2", "Opening there|23", "Customer|Ada Weir"}
	rows := "\nStation|Hull|Full\n1 ft|35.5|42\n2 ft|40|55\n"
	want := read(t, grid(strings.Join(lines, "\n")+rows))
	random := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		mixed := slices.Clone(lines)
		random.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		if random.IntN(2) == 0 {
			mixed = slices.Insert(mixed, random.IntN(len(mixed)), "")
		}
		if got := read(t, grid(strings.Join(mixed, "\n")+rows)); got != want {
			t.Fatalf("%q:\ngot  %s\nwant %s", mixed, got, want)
		}
	}
}

// Numbers with their unit read the same in every unit.
func TestUnits(t *testing.T) {
	for _, unit := range []string{"cm", "mm", "m"} {
		per := map[string]float64{"cm": 1, "mm": 10, "m": 0.01}[unit]
		g := grid("Station (" + unit + ")|Hull (" + unit + ")|Full (" + unit + ")\na|b|c\na|b|c\na|b|c")
		for i, row := range g.Rows[1:] {
			for j, cm := range []float64{30 * float64(i+1), 90 + 7*float64(i), 107 + 25*float64(i)} {
				row[j].Text = strconv.FormatFloat(math.Round(cm*per*100)/100, 'f', -1, 64)
			}
		}
		if got, want := read(t, g), "cm loa=- bow=- stern=- carry=- greatest=-,-,-,- 30:90,107 60:97,132 90:104,157"; got != want {
			t.Errorf("%s: got %s, want %s", unit, got, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, l := range layouts {
		f.Add(l.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 3000 {
			return
		}
		doc := Read("x", []Grid{grid(text)})
		for _, s := range doc.Surveys {
			if _, err := s.MarshalJSON(); err != nil {
				t.Fatal(err)
			}
		}
		checkDoubts(t, doc)
	})
}

// checkDoubts holds that every doubtful reading has a problem at its place.
func checkDoubts(t *testing.T, doc parse.Document) {
	t.Helper()
	places := map[string]bool{}
	for _, p := range doc.Problems {
		places[p.Source.Place] = true
	}
	for _, s := range doc.Surveys {
		for _, st := range s.Stations {
			for _, r := range []parse.Reading{st.HullGirth, st.FullGirth} {
				if r.Doubtful() && !places[r.Source.Place] {
					t.Errorf("%q at %s is doubted without a problem", r.Source.Raw, r.Source.Place)
				}
			}
		}
	}
}
