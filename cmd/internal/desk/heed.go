package desk

import (
	"fmt"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/prose"
)

// codeLater is the problem of a number of which a later mail says that it may be
// wrong.
const codeLater parse.Code = "doubted-later"

// laterMail is the file that a notice stands in for numbers of earlier mails,
// which may have stood on a line of the same number.
const laterMail = "a later mail"

// heed tells a job's survey what a new mail says of its numbers: one that takes
// the place of another in plain words does, and any that may be meant by "I am
// not sure about 7 ft in the sheet I sent" is left to a person. Sentences that
// answer what was asked are left out. It returns the sentences that found a
// number, too.
func heed(base parse.Survey, body prose.Mail, asked []parse.Cell) (survey parse.Survey, problems []parse.Problem, heeded []prose.Notice) {
	for _, n := range body.Notices {
		if answered(n, body.Corrections, asked) {
			continue
		}
		later := n
		later.Source.File = laterMail
		doc := parse.Document{Surveys: []parse.Survey{base}}
		doc.Surveys[0].Stations = slices.Clone(base.Stations)
		followed := prose.Heed(&doc, []prose.Notice{later})
		if len(followed)+len(doc.Problems) == 0 {
			continue
		}
		heeded = append(heeded, n)
		for _, cell := range Cells(base) {
			was, is := readingAt(&base, cell), readingAt(&doc.Surveys[0], cell)
			if was.Certain() && !is.Certain() {
				problems = append(problems, parse.Problem{Code: codeLater, Source: is.Source,
					Message: fmt.Sprintf("The customer wrote later that this may be wrong: %q", n.Sentence)})
			}
		}
		base = doc.Surveys[0]
	}
	return base, problems, heeded
}

// answered reports a sentence of which a number was taken for a place that is
// clear.
func answered(n prose.Notice, corrections []prose.Correction, asked []parse.Cell) bool {
	said := parse.Fold(n.Sentence)
	return slices.ContainsFunc(corrections, func(c prose.Correction) bool {
		_, ok := meant(c, asked)
		return ok && len(c.Values) > 0 && strings.Contains(said, parse.Fold(c.Sentence))
	})
}

// withoutHeeded leaves out what a person was to be told of sentences that found
// their number in an earlier mail.
func withoutHeeded(problems []parse.Problem, heeded []prose.Notice) []parse.Problem {
	return slices.DeleteFunc(slices.Clone(problems), func(p parse.Problem) bool {
		return p.Code == prose.CodeSentence && slices.ContainsFunc(heeded, func(n prose.Notice) bool { return n.Source == p.Source })
	})
}
