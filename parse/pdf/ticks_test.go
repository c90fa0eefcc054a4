package pdf

import (
	"fmt"
	"testing"

	"fairtape/parse"
)

// TestTicks has a form of another shop, with a box for the half inch that is
// ticked at 2 ft.
func TestTicks(t *testing.T) {
	const right, left = 250, 218
	tests := []struct {
		name  string
		x     int // of the box's name
		label string
		hull  string
		want  float64
		code  parse.Code // why the number is not sure, "" when it is
	}{
		{"for what, is not said", right, "sure", "38", 38, CodeTick},
		{"for one of two parts", right, "1/4 1/2", "38", 38, CodeTick},
		{"half an inch of nothing", right, "1/2", "", 0, parse.CodeUnplaced},
		{"a half beside a half", right, "1/2", "38 1/2", 0, parse.CodeSeveralNumbers},
		{"named to the right", right, "1/2", "38", 38.5, ""},
		{"named to the left", left, "½", "38", 38.5, ""},
		{"named over the column", 0, "", "38", 38.5, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			m := halfBoxes(test.hull, test.x, test.label)
			doc := read(t, m.bytes())
			got := hull(t, doc, 24)
			if got.Value.In(parse.Inch) != test.want || got.Certain() != (test.code == "") {
				t.Errorf("hull girth at 2 ft is %+v, want %v; problems %v", got, test.want, doc.Problems)
			}
			if test.code != "" && !has(doc, test.code) {
				t.Errorf("problems are %v, want %s", doc.Problems, test.code)
			}
			if got := hull(t, doc, 36); got.Value.In(parse.Inch) != 40 || !got.Certain() {
				t.Errorf("hull girth at 3 ft, where nothing is ticked, is %+v", got)
			}
		})
	}
}

// halfBoxes is a form whose fields have names of others', with a named box
// behind each hull girth.
func halfBoxes(hull string, x int, name string) *made {
	m := &made{}
	m.text(60, 740, "Bow height (in)")
	m.fields = []madeField{{name: "bow_height", value: "18", shown: "18", x: 160, y: 736}}
	m.text(60, 700, "Station")
	m.text(140, 700, "Hull (in)")
	if name == "" {
		m.text(220, 700, "Tick for 1/2")
	}
	m.text(320, 700, "Full (in)")
	for i, row := range [][2]string{{"35", "42"}, {hull, "52"}, {"40", "60"}, {"41", "63"}} {
		y := 680 - 20*i
		m.text(60, y, fmt.Sprintf("%d ft", i+1))
		m.text(x, y, name)
		tick := madeField{name: fmt.Sprintf("half_%d", i), x: 234, y: y - 2, tick: true}
		if i == 1 {
			tick.value = "Yes"
		}
		m.fields = append(m.fields, tick,
			madeField{name: fmt.Sprintf("hull_%d", i), value: row[0], shown: row[0], x: 140, y: y - 4},
			madeField{name: fmt.Sprintf("full_%d", i), value: row[1], shown: row[1], x: 320, y: y - 4})
	}
	return m
}
