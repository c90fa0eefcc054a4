package reply

import (
	"math"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// Action is what a plan leads to.
type Action string

// The actions.
const (
	Write     Action = "write"     // a letter
	Telephone Action = "telephone" // no letter: the shop calls, with the plan as its list
	Leave     Action = "leave"     // nothing to say by letter; a person of the shop looks
)

// Plan is what a letter asks for and says, decided before a word is written.
// It holds no number that the shop expects.
type Plan struct {
	Action Action
	Thanks bool // the survey is clean: nothing is asked but what comes by post

	Again     []Place // to be measured again, worst first, at most five
	Rest      []Place // at most three more, while the tape is out
	AllAgain  bool    // every station again; Again then holds measures of the whole boat only
	Questions []Question
	Missing   []Gap
	Files     []parse.Problem // files that could not be read and are asked for in another form

	Unit     parse.Unit     // the customer's own
	Customer string         // as the survey names them, "" when it does not
	Boat     string         // make and model, "" when not written
	At       []parse.Length // the stations the boat has, for writing all of them again
	Done     int            // of those, the ones with both girths
	Minutes  int            // what the customer's part takes, about; 0 when there is none to tell
}

// Place is a station or a single measure of the boat, with the numbers asked
// for there. Both girths of one station are one place.
type Place struct {
	Asked []Asked // at least one
}

// Asked is one number to be measured.
type Asked struct {
	Cell parse.Cell     // its Measure is never a pair
	Read *parse.Reading // what the customer wrote; nil when nothing was
}

// Question is one that is answered without a tape.
type Question struct {
	Slip slip.Kind       // None for a question about the boat itself
	Cell parse.Cell      // Measure "" for a question about rows
	Rows []parse.Length  // in order; nil for a question about one cell
	Read []parse.Reading // what was read at Cell; for a pair hull girth, then full girth
}

// Gap is one line of what is missing: a measure that the boat has once, or
// girths at a run of neighbouring stations.
type Gap struct {
	Measure  parse.Measure
	From, To parse.Length // of a run; equal for one station
	Stations int          // how many; 0 for a measure that the boat has once
}

// Asks reports whether the customer has anything to do at the boat or the
// desk. Tracings do not count: they come by post.
func (p Plan) Asks() bool {
	return len(p.Again)+len(p.Questions)+len(p.Missing)+len(p.Files) > 0 || p.AllAgain
}

// Ringed returns the cells that the plan asks to be measured again, for the
// picture of the boat.
func (p Plan) Ringed() []parse.Cell {
	var cells []parse.Cell
	for _, places := range [][]Place{p.Again, p.Rest} {
		for _, place := range places {
			for _, asked := range place.Asked {
				cells = append(cells, asked.Cell)
			}
		}
	}
	if p.AllAgain {
		for _, at := range p.At {
			cells = append(cells, parse.Cell{At: at, Measure: parse.HullGirth}, parse.Cell{At: at, Measure: parse.FullGirth})
		}
	}
	return cells
}

const (
	// minutesToFetch is what fetching the tape and finding the marks takes, and
	// minutesPerTry one reading: some 20 minutes for the 34 of a whole boat
	// (a first-timer's time; common practice, no source).
	minutesToFetch = 5
	minutesPerTry  = 0.6
	// triesPerNumber is how often a number is measured when it is asked again.
	triesPerNumber = 2
	// minutesPerQuestion is for a question answered at the desk (estimate).
	minutesPerQuestion = 1
)

// minutes is what the plan asks of the customer's day, in whole minutes.
func (p Plan) minutes() int {
	tries := 0
	for _, places := range [][]Place{p.Again, p.Rest} {
		for _, place := range places {
			tries += triesPerNumber * len(place.Asked)
		}
	}
	if p.AllAgain {
		tries += 2 * len(p.At)
	}
	for _, gap := range p.Missing {
		tries += gap.numbers()
	}
	if tries == 0 {
		return minutesPerQuestion * len(p.Questions)
	}
	// Ten tries are 11 minutes, not 12 for the sake of a binary fraction.
	return int(math.Ceil(minutesToFetch + minutesPerTry*float64(tries) - 1e-9))
}

// numbers is how many numbers the gap lacks.
func (g Gap) numbers() int {
	each := 1
	switch g.Measure {
	case parse.MeasurePair, parse.GreatestPair, parse.TransomPair:
		each = 2
	}
	return each * max(1, g.Stations)
}
