package reply

import (
	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

// Rounds is the round from which the shop telephones: two letters that did not
// settle a boat will not be helped by a third (domain practice, no source).
const Rounds = 3

const (
	// mostPlaces is how many places one letter asks for: short forms come back
	// more often (BMJ 2002;324:1183, odds 1.86; the number is practice).
	mostPlaces = 5
	// mostWithRest is up to how many places the ones beyond mostPlaces are asked
	// for "while the tape is out"; with more, all stations are measured again.
	mostWithRest = 8
)

// Action is what a plan leads to.
type Action string

// The actions.
const (
	Write     Action = "write"     // a letter
	Telephone Action = "telephone" // no letter: the shop calls, with the list
	Leave     Action = "leave"     // nothing to say to the customer by letter
)

// Plan is what a letter asks for and says, decided before a word is written.
// It holds no number that the shop expects.
type Plan struct {
	Action Action

	Again     []Place // to be measured again, worst first, at most five
	Rest      []Place // at most three more, while the tape is out
	AllAgain  bool    // every station again; Again then holds measures of the whole boat only
	Questions []Question
	Missing   []Gap
	Files     []parse.Problem // files that could not be read and are asked for in another form

	Thanks bool // the survey is clean: nothing is asked but what comes by post
	Form   bool // a blank form is sent because it was asked for

	Done, Stations int // stations with both girths, and how many the boat should have; 0 when not known
	Minutes        int // what the customer's part takes, about
}

// Place is a station or a single measure of the boat, with the numbers asked
// for there. Both girths of one station are one place.
type Place struct {
	At       parse.Length // meaningless for measures that the boat has once
	Measures []Asked      // one or two
}

// Asked is one number to be measured, with what was read for it.
type Asked struct {
	Cell  parse.Cell // Measure is never a pair
	Wrote string     // as the customer wrote it; "" when nothing was
}

// Question is one that is answered without a tape.
type Question struct {
	Slip slip.Kind      // None for a question about the boat itself
	Cell parse.Cell     // Measure "" for a question about rows
	Rows []parse.Length // in order
	// Wrote holds what was read, for a pair hull girth then full girth.
	Wrote []string
}

// Gap is one line of what is missing: a measure of the whole boat, or girths at
// a run of neighbouring stations.
type Gap struct {
	Measure  parse.Measure
	From, To parse.Length // equal for one station; zero for a measure of the whole boat
	Stations int          // how many; 0 for a measure of the whole boat
}

// Decide says what to ask the customer and how. It is the one place where
// findings become questions: which of them do, how they are merged into
// places, and how many fit into a letter.
func Decide(report validate.Report, job Job) Plan {
	return Plan{}
}

// Ringed returns the cells that the plan asks to be measured again, for the
// picture of the boat.
func (p Plan) Ringed() []parse.Cell {
	var cells []parse.Cell
	for _, places := range [][]Place{p.Again, p.Rest} {
		for _, place := range places {
			for _, asked := range place.Measures {
				cells = append(cells, asked.Cell)
			}
		}
	}
	return cells
}
