package photo

import (
	"testing"

	"fairtape/parse"
)

// Numbers far from their neighbours are doubtful.
func TestDoubtStrays(t *testing.T) {
	var cells [][]freeCell
	for _, text := range []string{"40.5", "43", "455", "47", "46"} {
		cells = append(cells, []freeCell{{text: "1", sure: 1}, {text: text, sure: 1}})
	}
	doubtStrays(cells, 0)
	for i, row := range cells {
		if sure := row[1].sure >= parse.Sure; sure != (i != 2) {
			t.Errorf("%s is sure: %v", row[1].text, sure)
		}
	}
}

// A half that touches the line beside it is lost with the line: its number is not
// sure, nor can the curve make it so. A line alone raises no doubt.
func TestDoubtCut(t *testing.T) {
	const w = 200
	line := box{50, 0, 53, 80}
	for name, c := range map[string]struct {
		large shape
		doubt bool
	}{
		"a line":          {inkOf(w, line), false},
		"and a half":      {inkOf(w, line, box{40, 22, 50, 38}), true},
		"a half far away": {inkOf(w, line, box{53, 62, 63, 78}), false},
	} {
		cells := [][]freeCell{{{text: "43", sure: 0.99, bounds: box{10, 20, 38, 40}}}}
		doubtCut(cells, []shape{c.large}, w, 20)
		if got := cells[0][0].sure; (got <= cutOff) != c.doubt || !c.doubt && got < parse.Sure {
			t.Errorf("%s: %.2f", name, got)
		}
	}
}
