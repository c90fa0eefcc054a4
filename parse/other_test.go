package parse

import (
	"fmt"
	"testing"
)

func TestOtherMatter(t *testing.T) {
	numbers := func(n int, code Code) (problems []Problem) {
		for i := range n {
			problems = append(problems, Problem{Code: code, Source: Source{Place: fmt.Sprint(i), Raw: "12"}})
		}
		return problems
	}
	readings := func(n int, confidence float64) []Survey {
		s := Survey{}
		for i := range n {
			s.Stations = append(s.Stations, Station{At: Inches(float64(12 * i)), Pair: Pair{HullGirth: Reading{Value: Inches(40), Known: true, Confidence: confidence}}})
		}
		return []Survey{s}
	}
	whole := []Problem{{Code: "pdf-pages"}}
	for _, test := range []struct {
		name string
		doc  Document
		want int // problems that are left
	}{
		{"a list of parts", Document{Problems: numbers(30, CodeUnplaced)}, 1},
		{"pages that were not read are still told", Document{Problems: append(numbers(30, CodeUnplaced), whole...)}, 2},
		{"a book in which words of girths stand", Document{Problems: append(numbers(200, "which-girth"), Problem{Code: CodeUnitGuessed}), Surveys: readings(3, 0.5)}, 1},
		{"a few numbers", Document{Problems: numbers(fewProblems, CodeUnplaced)}, fewProblems},
		{"girths of which it is not said which they are", Document{Problems: numbers(40, "which-girth")}, 40},
		{"a survey whose unit is not known", Document{Problems: numbers(120, "unit-unclear"), Surveys: readings(40, 0.5)}, 120},
		{"one sure number", Document{Problems: numbers(200, CodeUnplaced), Surveys: readings(1, Typed)}, 200},
	} {
		got := OtherMatter("x", test.doc)
		if len(got.Problems) != test.want {
			t.Errorf("%s: %d problems, want %d", test.name, len(got.Problems), test.want)
		}
		if test.want <= 2 && len(got.Surveys) != 0 {
			t.Errorf("%s: a survey is left", test.name)
		}
	}
}
