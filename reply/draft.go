// Package reply composes what the shop says: the letter to the customer and the
// summary for the shop's chat.
package reply

import (
	"strconv"
	"time"

	"fairtape/ingest"
)

// DraftID names one text of one job's letter, "14-2". Every new text has a new
// version.
type DraftID struct {
	Job, Version int
}

// String returns the id as drafts, buttons and commands carry it.
func (id DraftID) String() string {
	return strconv.Itoa(id.Job) + "-" + strconv.Itoa(id.Version)
}

// Draft is a letter that waits for a person's yes.
type Draft struct {
	ID         DraftID
	MessageID  string // of its own, without angle brackets
	From       ingest.Address
	To         ingest.Address
	Subject    string
	InReplyTo  string
	References []string
	Language   string // "en", "fr"
	Date       time.Time
	Text       string // stands alone
	HTML       string // equal in content
	Pictures   []Picture
	Files      []File
	// Question is what the customer asked and a person has to answer before the
	// letter may go; "" when nothing was asked.
	Question string
}

// Picture is a PNG that the HTML part shows by its content id.
type Picture struct {
	ContentID string
	Name      string
	Alt       string
	PNG       []byte
}

// File is an attachment.
type File struct {
	Name, MediaType string
	Data            []byte
}

// Summary is a job at a glance, for the shop's chat or a terminal. Its texts
// are plain; whoever shows them escapes them for the place they go to.
type Summary struct {
	Job      int
	Draft    string   // id of the open draft, "" when there is none
	Headline string   // one line: job, boat, verdict, count
	Facts    []string // who, length, rows read
	Findings []string // what is odd, with expected value and likely slip
	Missing  []string
	Problems []string
	Asks     []string // what the letter asks
	Letter   string   // the whole letter as text
	Picture  *Picture // the curve, for the shop only
	Doubts   *Picture // what the papers show where a number is in doubt
	Question string   // a question that a person has to answer first
	// Telephone says that Asks is a list to telephone with: no letter asks.
	Telephone bool
	State     string // "waits for you", "sent by Ann, 14:02", ...
}
