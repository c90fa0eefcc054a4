package parse

import "fmt"

// Of a file that is no survey, hardly a number says something of a boat. A survey
// has some forty, in finer steps twice as many.
const (
	fewProblems  = 20  // up to so many each is told
	nearLeast    = 0.2 // the share of numbers that may be girths, from which all are told
	manyProblems = 100 // no survey makes more
	readLeast    = 0.1 // the share of readings to those, from which they are no chance
)

// CodeOther is a file with many numbers of which none was recognised.
const CodeOther Code = "no-survey"

// OtherMatter makes one problem of a file or text that is no survey: a report, a
// log, a list of parts.
func OtherMatter(file string, doc Document) Document {
	readings := 0
	for i := range doc.Surveys {
		sure := false
		doc.Surveys[i].Each(func(r *Reading) { sure = sure || r.Certain() })
		if sure {
			return doc
		}
		readings += doc.Surveys[i].Readings()
	}
	near := readings
	var numbers, rest []Problem
	for _, p := range doc.Problems {
		switch {
		case p.Code == CodeUnitGuessed: // of what was read
			continue
		case p.Source.Raw == "": // of the file
			rest = append(rest, p)
			continue
		case p.Code != CodeUnplaced:
			near++
		}
		numbers = append(numbers, p)
	}
	all := len(numbers)
	if (all <= fewProblems || share(near, all) >= nearLeast) && (all <= manyProblems || share(readings, all) >= readLeast) {
		return doc
	}
	doc.Surveys = nil
	doc.Problems = append(rest, Problem{
		Code: CodeOther, Source: Source{File: file},
		Message: fmt.Sprintf("%d places here have numbers, but nothing was recognised as a survey.", all),
	})
	return doc
}

func share(part, all int) float64 { return float64(part) / float64(all) }
