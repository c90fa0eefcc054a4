package table

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fairtape/parse"
)

// Of a table in two units the measured one is read, whichever columns come first
// and whichever way the stations are laid off; where nothing tells, none is sure.
func TestTwoUnits(t *testing.T) {
	const none = " loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	for _, c := range []struct{ name, text, want string }{
		{"nothing tells", `
Station no.|Hull (in)|Hull (cm)|Full (in)|Full (cm)
1|35.43|90.1|42.05|106.9
2|40.02|101.7|55.03|139.9
3|44.1|112.1|66.07|167.9
4|45.01|114.4|68.2|173.1`, "in" + none + " 12:35.43?,42.05? 24:40.02?,55.03? 36:44.1?,66.07? 48:45.01?,68.2?"},
		{"said, though not round", `
The centimetres are converted.
Station (ft)|Hull (cm)|Hull (in)|Full (cm)|Full (in)
1|90|35.43|107|42.13
2|102|40.16|140|55.12
3|112|44.09|168|66.14
4|114|44.88|173|68.11`, "in" + none + " 12:35.43,42.13 24:40.16,55.12 36:44.09,66.14 48:44.88,68.11"},
		{"by the stations", `
Station|Hull (cm)|Hull (in)|Full (cm)|Full (in)
1 ft|90|35.5|107|42
2 ft|102|40|140|55
3 ft|112|44|168|66
4 ft|114|45|173|68`, "in" + none + " 12:35.5,42 24:40,55 36:44,66 48:45,68"},
		{"a slip in the other unit", `
Station|Hull (in)|Hull (cm)|Full (in)|Full (cm)
1 ft|35.5|90.2|42|106.7
2 ft|40|101.6|55|193.7
3 ft|44|111.8|66|167.6
4 ft|45|114.3|68|172.7`, "in" + none + " 12:35.5,42 24:40,? 36:44,66 48:45,68"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := read(t, grid(c.text)); got != c.want {
				t.Errorf("\n got %s\nwant %s", got, c.want)
			}
		})
	}
}

// Whatever is measured and whatever is worked out from it, no number is given
// that was not measured.
func TestTwoUnitsDrawn(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	settled := 0
	const rounds = 100
	for range rounds {
		metric := r.IntN(2) == 0
		part, decimals := []float64{1, 0.5, 0.25}[r.IntN(3)], r.IntN(3)
		if metric {
			part = []float64{1, 0.5}[r.IntN(2)]
		}
		n := 6 + r.IntN(12)
		cmFirst, order := r.IntN(2) == 0, "Station no.|Hull (in)|Hull (cm)|Full (in)|Full (cm)"
		if cmFirst {
			order = "Station no.|Hull (cm)|Hull (in)|Full (cm)|Full (in)"
		}
		text := order
		measured := map[float64]bool{}
		for i := range n {
			text += fmt.Sprintf("\n%d", i+1)
			for _, inches := range []float64{35 + 9*r.Float64(), 50 + 17*r.Float64()} {
				a := math.Round(inches/part) * part
				b := a * perInch
				if metric {
					a = math.Round(inches*perInch/part) * part
					b = a / perInch
				}
				measured[a] = true
				scale := math.Pow(10, float64(decimals))
				cells := []string{fmt.Sprint(a), fmt.Sprint(math.Round(b*scale) / scale)}
				if metric != cmFirst {
					cells[0], cells[1] = cells[1], cells[0]
				}
				text += "|" + strings.Join(cells, "|")
			}
		}
		doc := Read("x", []Grid{grid(text)})
		unit := parse.Inch
		if metric {
			unit = parse.Centimetre
		}
		for _, s := range doc.Surveys {
			for _, st := range s.Stations {
				for _, g := range []parse.Reading{st.HullGirth, st.FullGirth} {
					if !g.Certain() {
						continue
					}
					if settled++; !measured[g.Value.In(unit)] {
						t.Fatalf("%g %s is no number of\n%s", g.Value.In(unit), unit, text)
					}
				}
			}
		}
	}
	if settled < rounds*8 {
		t.Errorf("only %d numbers are sure", settled)
	}
}
