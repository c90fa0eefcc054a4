// Package prose reads what a customer typed into the body of a mail: numbers in
// sentences, lists and columns, corrections to an earlier survey, and the other
// things that people write beside numbers. Nothing is fetched, and what a mail
// program would not show is not read.
package prose

import "fairtape/parse"

// Mail is what the body of one mail says.
type Mail struct {
	Document    parse.Document // the numbers that can be placed by the mail alone
	Corrections []Correction   // what answers an earlier question, in the order written
	Language    string         // "en" or "fr"; "" when the words do not tell

	Questions   []string // sentences that ask the shop something, as written
	WantsForm   bool     // asks for a blank form
	Sold        bool     // the boat is sold, or the order is off
	Tracings    Tracings // paper tracings that are said to be on their way
	UnderTape   string   // the sentence that says what was, or was not, under the tape
	Unchanged   bool     // says of something that it is the same as before, without a number
	AutoWording bool     // reads like an automatic answer, whatever its headers say
}

// Tracings tells which paper tracings the customer says have been sent.
type Tracings struct {
	Bow, Stern bool
}

// Correction is one answer to a question about one number: "hull at 9 ft should
// be 41, not 51". What the sentence leaves out stays zero, and whoever asked the
// question knows the rest.
type Correction struct {
	Cell     parse.Cell      // Measure "" when the sentence names none
	Placed   bool            // the sentence names a station, so Cell.At counts
	Values   []parse.Reading // every try in the order written; usually one
	Was      *parse.Reading  // the number that is said to be wrong, when it is repeated
	Same     bool            // "still", "same as before"
	Sentence string
	Source   parse.Source
}

// Read says what a mail's body holds. Either text may be "". Where both are
// given they say the same, and the one that keeps its columns is read. Places
// are lines of that text: "line 12".
func Read(file, text, html string) Mail {
	return Mail{Document: parse.Document{File: file}}
}
