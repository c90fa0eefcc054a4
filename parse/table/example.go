package table

import (
	"regexp"
	"slices"

	"fairtape/parse"
)

// A form may bring a sheet that is filled in to show how: "EXAMPLE". Another may
// say that it is not meant.

var (
	exampleName = regexp.MustCompile(`\b(?:examples?|samples?|exemples?|how[ -]to)\b`)
	exampleSaid = regexp.MustCompile(`^(?:this is an? |an? |filled |un )?(?:examples?|samples?|exemples?)\b`)
	passedOver  = regexp.MustCompile(`\b(?:ignore|disregard)(?: (?:this|it)(?: (?:one|sheet|tab|page|boat))?)?(?:[.,;!]|$)|\bnot this (?:one|boat|sheet)\b|\b(?:ne pas (?:en )?tenir compte|pas celui-ci)\b`)
	otherBoat   = regexp.MustCompile(`\b(?:examples? only|not (?:our|my|your|a real) boat|pas (?:notre|mon|votre) bateau)\b`)
)

// exampleLines is in how many of its first lines a sheet says what it is.
const exampleLines = 3

// ofExamples parts the sheets that are examples from the others. The name of a
// sheet, or a first word, counts only beside other sheets with numbers.
func ofExamples(grids []Grid) (rest, examples []Grid) {
	kept := 0 // how many numbers stand in a sheet that counts before others
	for _, g := range grids {
		if keptName(g) {
			kept = max(kept, numbersOf(g))
		}
	}
	others := len(grids) > 1 && slices.ContainsFunc(grids, func(g Grid) bool { return !calledExample(g) && holdsNumbers(g) })
	for _, g := range grids {
		if others && calledExample(g) || opensWith(g, otherBoat) || len(grids) > 1 && replacedName(g, kept) {
			examples = append(examples, g)
		} else {
			rest = append(rest, g)
		}
	}
	return rest, examples
}

func calledExample(g Grid) bool {
	return exampleName.MatchString(parse.Fold(g.Name)) || opensWith(g, exampleSaid) || opensWith(g, passedOver)
}

// opensWith reports a sheet that says so in one of its first lines.
func opensWith(g Grid, what *regexp.Regexp) bool {
	lines := 0
	for _, row := range g.Rows {
		first := firstWritten(row)
		if first < 0 {
			continue
		}
		if lines++; lines > exampleLines {
			return false
		}
		if what.MatchString(parse.Fold(row[first].Text)) && firstDigit(row[first].Text) < 0 {
			return true
		}
	}
	return false
}

func holdsNumbers(g Grid) bool { return numbersOf(g) >= fewRows }

func numbersOf(g Grid) (n int) {
	for _, row := range g.Rows {
		for _, c := range row {
			if _, f := parse.ParseLength(c.Text); !f.Some() && c.Text != "" {
				n++
			}
		}
	}
	return n
}

// exampleProblem says that a sheet was not read, and why.
func exampleProblem(file string, g Grid) parse.Problem {
	return parse.Problem{
		Code:    parse.CodeUnplaced,
		Source:  parse.Source{File: file, Place: g.Name},
		Message: "This sheet says that it is an example, or replaced, or of another boat, and was not read.",
	}
}
