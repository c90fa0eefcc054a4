// Package validate judges whether the numbers of a survey can be a real boat.
package validate

import (
	"fairtape/parse"
	"fairtape/validate/fair"
	"fairtape/validate/slip"
)

// Kind says what a finding asks of whom.
type Kind string

// The kinds of finding, worst first.
const (
	Recheck Kind = "recheck" // the customer measures again
	Confirm Kind = "confirm" // a yes-or-no question to the customer, no tape needed
	Missing Kind = "missing" // the customer is asked to supply it
	Note    Kind = "note"    // for the shop only
)

// Rule names the rule that a finding comes from.
type Rule string

// Finding is one thing about the customer's numbers. It is written for the
// shop: Expected and Suggest never reach a customer.
type Finding struct {
	Kind Kind
	Rule Rule
	Cell parse.Cell     // Measure "" for findings about rows
	Rows []parse.Length // stations of a finding about rows, in order
	Slip slip.Kind

	Read        *parse.Length // what the customer wrote
	Expected    *parse.Length
	Low, High   *parse.Length // where the true value most likely lies
	Suggest     *parse.Length // the value that the slip explains
	Probability float64       // that the reading is wrong; calibrated

	Message string // one sentence for a person of the shop
}

// Verdict sums up a survey.
type Verdict string

// The verdicts, first that fits.
const (
	Unreadable  Verdict = "unreadable" // no girth was read
	NeedRecheck Verdict = "recheck"    // any recheck or confirm
	Incomplete  Verdict = "incomplete" // something missing, or a reading in doubt
	Clean       Verdict = "clean"
)

// Costs weighs a needless question against a missed slip; only their ratio
// counts. The settings give them.
type Costs struct {
	Ask  float64 // of asking for a number that is right
	Miss float64 // of passing a number that is wrong
}

// Report is a survey with everything that can be said of it.
type Report struct {
	Survey   parse.Survey
	Problems []parse.Problem
	Findings []Finding  // worst first
	Curve    fair.Curve // nil when there is too little to fit
	Verdict  Verdict
}
