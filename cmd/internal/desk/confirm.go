package desk

import (
	"fmt"
	"slices"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/validate"
)

// confirm takes the answers to yes-or-no questions of our letters. What follows
// from a yes for the number is never filled in by us: the number is in doubt
// until the customer, or a person of the shop, has said it. After a no the
// number stands as written, and a person decides how to go on.
func confirm(survey parse.Survey, answers []prose.Confirmation) (parse.Survey, []parse.Problem) {
	survey.Stations = slices.Clone(survey.Stations)
	var problems []parse.Problem
	for _, c := range answers {
		source := c.Source
		source.Raw = c.Text
		says := "answers"
		switch {
		case c.Yes:
			says = "says yes"
		case c.No:
			says = "says no"
		}
		problem := parse.Problem{Code: codeAnswered, Source: source,
			Message: fmt.Sprintf("The customer %s to %q. ", says, c.Question)}
		switch {
		case c.Boat:
			problem.Message += "If that is why the number is odd, accept it as the boat's own; if not, ask for it again."
		case c.Yes:
			problem.Message += "Give the right number, or ask the customer for it."
			doubt(&survey, c, source)
		default:
			problem.Message += "The number stays odd: accept it as the boat's own, or ask for it again."
		}
		problems = append(problems, problem)
	}
	return survey, problems
}

// doubt leaves the numbers that a confirmed question is about open, with what
// was written as what they may be.
func doubt(survey *parse.Survey, c prose.Confirmation, source parse.Source) {
	if atStation(c.Cell.Measure) && !c.Placed || c.Cell.Measure == parse.MeasurePair && !c.Placed {
		return // a question about rows: a person sees to it
	}
	for _, cell := range both(c.Cell) {
		r := readingAt(survey, cell)
		// A number that came with the answer counts, not the one asked about.
		if !r.Known || r.Source.File == source.File && r.Source.Place == source.Place {
			continue
		}
		*r = parse.Reading{Source: source, Alternatives: []parse.Candidate{{Value: r.Value, Probability: 1}}}
	}
}

// codeWorse is the problem of a number that fitted before a mail changed it.
const codeWorse parse.Code = "worse"

// worse leaves numbers open that nobody had asked for, that fitted, and that do
// not since a mail changed them: it may have been read at the wrong place. A
// new survey as a whole is judged as it is.
func (d *Desk) worse(before validate.Report, survey parse.Survey, problems []parse.Problem, own []ledger.Own, asked []parse.Cell) (parse.Survey, []parse.Problem) {
	report := d.judge(survey, problems, own)
	changed := 0
	var open []parse.Cell
	for _, cell := range Cells(survey) {
		was, is := ReadingAt(before.Survey, cell), ReadingAt(survey, cell)
		if !was.Certain() || !is.Certain() || was.Value == is.Value {
			continue
		}
		changed++
		if !slices.Contains(asked, cell) && asksAbout(report, cell) && !asksAbout(before, cell) {
			open = append(open, cell)
		}
	}
	if changed > fewChanged {
		return survey, problems
	}
	survey.Stations = slices.Clone(survey.Stations)
	for _, cell := range open {
		r := readingAt(&survey, cell)
		was, is := ReadingAt(before.Survey, cell), *r
		*r = parse.Reading{Source: is.Source, Alternatives: []parse.Candidate{{Value: was.Value, Probability: 0.5}, {Value: is.Value, Probability: 0.5}}}
		problems = append(problems, parse.Problem{Code: codeWorse, Source: is.Source,
			Message: fmt.Sprintf("By this mail %s would be %s, which fits less well than %s before. Please say which counts.",
				numberName(cell, survey.Unit), written(is.Value, survey.Unit), written(was.Value, survey.Unit))})
	}
	return survey, problems
}

// fewChanged is how many numbers an answer changes at most; what changes more is
// a survey of its own.
const fewChanged = 8
