package pdf

import (
	"fmt"
	"testing"

	"fairtape/parse"
)

// TestPagesLaidOut reads pages on which things stand as a person sees them, and
// not in the order of the file.
func TestPagesLaidOut(t *testing.T) {
	raised := func(m *made, x, y int, whole, over, under string) {
		m.text(x, y, whole)
		m.content += fmt.Sprintf("BT /F1 7 Tf %d %d Td (%s) Tj ET\n", x+14, y+4, over)
		m.content += fmt.Sprintf("BT /F1 11 Tf %d %d Td (/) Tj ET\n", x+18, y)
		m.content += fmt.Sprintf("BT /F1 7 Tf %d %d Td (%s) Tj ET\n", x+21, y-2, under)
	}
	for _, c := range []struct {
		name string
		make func(m *made)
		want float64 // the hull girth at 2 ft, 0 where it must not be sure
	}{
		{"a raised mark behind a number", func(m *made) {
			m.text(60, 700, "Station")
			m.text(160, 700, "Hull girth")
			m.text(260, 700, "Full girth")
			for i, row := range [][3]string{{"1 ft", "35", "42"}, {"2 ft", "38", "52"}, {"3 ft", "41", "60"}} {
				for j, s := range row {
					m.text(60+100*j, 684-16*i, s)
				}
			}
			m.content += "BT /F1 6 Tf 172 672 Td (3) Tj ET\n"
		}, 0},
		{"printed sideways", func(m *made) { m.content = "0 1 -1 0 612 0 cm 1 0 0 1 0 -180 cm " + typed().content }, 38},
		{"small figures of fractions", func(m *made) {
			m.text(60, 700, "Station")
			m.text(160, 700, "Hull girth (in)")
			m.text(260, 700, "Full girth (in)")
			for i, row := range [][2]string{{"35", "42"}, {"38", "52"}, {"41", "60"}, {"44", "66"}} {
				m.text(60, 684-18*i, fmt.Sprintf("%d ft", i+1))
				raised(m, 160, 684-18*i, row[0], "1", "2")
				m.text(260, 684-18*i, row[1])
			}
		}, 38.5},
		{"stations told in two columns", func(m *made) {
			for i := range 5 {
				m.text(60, 700-16*i, fmt.Sprintf("At %d ft: hull girth %d in, full girth %d in", i+1, 35+3*i, 42+9*i))
				m.text(330, 700-16*i, fmt.Sprintf("At %d ft: hull girth %d in, full girth %d in", i+6, 46-3*i, 77-8*i))
			}
		}, 38},
		{"lines to write on", func(m *made) {
			for i := range 4 {
				m.text(60, 700-16*i, fmt.Sprintf("Hull girth at %d ft ___ %d in ___ Full girth at %d ft __ %d in __", i+1, 35+3*i, i+1, 42+9*i))
			}
		}, 38},
		{"a table beside the boat", func(m *made) {
			for i, s := range []string{"Length overall 15 ft 9 in", "Bow height 18 in", "Stern height 17 in", "Carry point 20 in"} {
				m.text(60, 700-20*i, s)
			}
			for i, row := range [][3]string{{"Station", "Hull girth", "Full girth"}, {"1 ft", "35", "42"}, {"2 ft", "38", "52"}, {"3 ft", "41", "60"}, {"4 ft", "44", "66"}} {
				for j, s := range row {
					m.text(300+90*j, 707-17*i, s)
				}
			}
		}, 38},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := &made{}
			c.make(m)
			got := hull(t, read(t, m.bytes()), 24)
			if c.want == 0 && got.Certain() || c.want != 0 && (!got.Certain() || got.Value.In(parse.Inch) != c.want) {
				t.Errorf("the hull girth at 2 ft is %v, want %g", got, c.want)
			}
		})
	}
}

// TestUnitsOfForm puts numbers together with the units printed behind them, and
// takes the unit that is ticked.
func TestUnitsOfForm(t *testing.T) {
	for _, c := range []struct {
		name string
		tick string
		want float64 // bow height in inches, 0 where it must not be sure
	}{
		{"none", "", 0}, {"inches", "in", 30}, {"centimetres", "cm", 30 / 2.54},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := &made{}
			for i, unit := range []string{"in", "cm"} {
				value := ""
				if unit == c.tick {
					value = "Yes"
				}
				m.fields = append(m.fields, madeField{name: unit, tick: true, value: value, x: 120 + 80*i, y: 738})
				m.text(136+80*i, 740, []string{"inches", "centimetres"}[i])
			}
			m.text(60, 740, "Units:")
			m.text(60, 714, "Length overall")
			m.fields = append(m.fields, madeField{name: "a", value: "5", shown: "5", x: 150, y: 710}, madeField{name: "b", value: "13", shown: "13", x: 240, y: 710}, madeField{name: "c", value: "30", shown: "30", x: 150, y: 690})
			m.text(222, 714, "m")
			m.text(312, 714, "cm")
			m.text(60, 694, "Bow height")
			doc := read(t, m.bytes())
			if len(doc.Surveys) != 1 {
				t.Fatalf("%d surveys, %v", len(doc.Surveys), doc.Problems)
			}
			if got := doc.Surveys[0].LengthOverall; !got.Certain() || got.Value.In(parse.Centimetre) != 513 {
				t.Errorf("length overall is %v", got)
			}
			got := doc.Surveys[0].BowHeight
			if c.want == 0 && got.Certain() && got.Value.In(parse.Inch) == 30 || c.want != 0 && (!got.Certain() || got.Value != parse.Inches(c.want)) {
				t.Errorf("bow height is %v, want %g", got, c.want)
			}
		})
	}
}
