package prose

import (
	"fmt"
	"strings"
	"testing"

	"fairtape/parse"
)

func TestOtherMatter(t *testing.T) {
	var log, versions, vague, survey strings.Builder
	for i := range 120 {
		fmt.Fprintf(&log, "The copy of part %d is complete after %d tries.\n", i+100, i%7+2)
	}
	for i := range 30 {
		fmt.Fprintf(&versions, "Version %d of the program\n\nIt starts in %d places.\n\nIt knows 3%d words.\n\n", i+2, i+3, i)
	}
	survey.WriteString("Girths in inches.\n")
	for i := range 14 {
		fmt.Fprintf(&vague, "%d ft: about %d.\n", i+1, 30+i)
		fmt.Fprintf(&survey, "%d ft: hull girth %d, full girth %d\n", i+1, 35+i, 45+2*i)
	}
	for _, test := range []struct {
		name, text string
		one        bool
		surveys    int
	}{
		{"a log", log.String(), true, 0},
		{"what is new in a program", versions.String(), true, 0},
		{"girths of which it is not said which they are", vague.String(), false, -1},
		{"a survey under a log", log.String() + "\n" + survey.String(), false, 1},
	} {
		doc := Read("x.txt", test.text, "").Document
		one := len(doc.Problems) == 1 && doc.Problems[0].Code == parse.CodeOther
		if one != test.one || test.surveys >= 0 && len(doc.Surveys) != test.surveys {
			t.Errorf("%s: %d surveys, %d problems, the first %+v", test.name, len(doc.Surveys), len(doc.Problems), doc.Problems[:min(1, len(doc.Problems))])
		}
	}
}
