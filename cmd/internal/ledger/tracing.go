package ledger

import "fairtape/parse"

// Tracings says how far the paper tracings of a boat have come.
type Tracings struct {
	Bow, Stern Tracing
}

// Both reports that nothing more is to come by post.
func (t Tracings) Both() bool { return t.Bow.In && t.Stern.In }

// Tracing is the paper of one end of the boat.
type Tracing struct {
	In       bool
	Refused  string // why it could not be used, "" when it was not refused
	SentBack bool   // the refused paper is on its way to the customer
}

// Own is an odd number that a person accepted as the boat's own shape. It
// counts as long as the number stays.
type Own struct {
	Cell   parse.Cell
	Value  parse.Length
	Person string
}
