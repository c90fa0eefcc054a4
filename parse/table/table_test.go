package table

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
)

// grid makes a grid of lines whose cells are divided by bars.
func grid(text string) Grid {
	var g Grid
	for r, line := range strings.Split(strings.Trim(text, "\n"), "\n") {
		var row []Cell
		for c, cell := range strings.Split(line, "|") {
			row = append(row, Cell{Text: strings.TrimSpace(cell), Place: fmt.Sprintf("%c%d", 'A'+c, r+1)})
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// brief writes a survey in one line, doubtful readings with a question mark.
func brief(s parse.Survey) string {
	one := func(r parse.Reading) string {
		switch {
		case r.Absent():
			return "-"
		case !r.Known:
			return "?"
		case !r.Certain():
			return fmt.Sprintf("%g?", r.Value.In(s.Unit))
		}
		return fmt.Sprintf("%g", r.Value.In(s.Unit))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s loa=%s bow=%s stern=%s carry=%s greatest=%s,%s,%s,%s", s.Unit, one(s.LengthOverall), one(s.BowHeight),
		one(s.SternHeight), one(s.CarryPoint), one(s.Greatest.At), one(s.Greatest.HullGirth), one(s.Greatest.FullGirth), one(s.Greatest.Opening))
	if !s.Transom.HullGirth.Absent() || !s.Transom.FullGirth.Absent() {
		fmt.Fprintf(&b, " transom=%s,%s", one(s.Transom.HullGirth), one(s.Transom.FullGirth))
	}
	if s.Decked {
		b.WriteString(" decked")
	}
	if s.Stern == parse.Square {
		b.WriteString(" square")
	}
	for _, st := range s.Stations {
		fmt.Fprintf(&b, " %g:%s,%s", st.At.In(s.Unit), one(st.HullGirth), one(st.FullGirth))
	}
	return b.String()
}

func TestSmoke(t *testing.T) {
	doc := Read("x", []Grid{grid(`
unit|in
length overall|15 ft 9 in
bow height|18 1/2
stern height|17
carry point|19 1/2
greatest girth at|8 ft 1 in|52 1/2|83
opening there|30 1/2
transom||
station|hull girth|full girth
1 ft|35 1/2|42
2 ft|38|52
`)})
	for _, s := range doc.Surveys {
		t.Log(brief(s))
	}
	p, _ := json.Marshal(doc.Problems)
	t.Log(string(p))
}

func sortWords(words []string) string {
	words = slices.Clone(words)
	slices.Sort(words)
	return strings.Join(words, " ")
}
