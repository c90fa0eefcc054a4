package parse

// Document is what one file, or the body of one mail, says.
//
// A file that holds one boat has one survey, however few of its numbers it
// gives; a file with two lengths overall or two full tables has two, and a
// person has to say which is meant. A file without numbers has none.
type Document struct {
	File     string
	Surveys  []Survey
	Problems []Problem
	Tracings []Tracing `json:",omitempty"` // of photographed tracing sheets
	// Job is the shop's own number that a paper of the shop's carries, 0 for
	// none.
	Job int
	// Remarks are what the file tells in sentences beside its numbers, for
	// whoever reads sentences.
	Remarks []Source `json:"-"`
}
