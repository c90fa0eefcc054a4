package reply

import (
	"time"

	"fairtape/ingest"
	"fairtape/validate/history"
)

// Job is what a letter has to know beside the numbers of the survey.
type Job struct {
	ID        DraftID
	MessageID string    // the draft's own, without angle brackets
	Now       time.Time // in the shop's time zone; dates the letter

	// AnswerDays is how many days from Now the shop would like its answer.
	AnswerDays int

	Shop     Shop
	Customer ingest.Address // whom the letter goes to
	Answers  ingest.Message // the message that is answered; zero when there is none
	Language string         // "en" or "fr"; any other counts as "en"

	// Round counts the letters of this job that ask for something, this one
	// included: 1 for the first. From Rounds on there is no letter.
	Round int
	// Reminder counts the reminders of this letter: 1 for the first, 0 for the
	// letter itself.
	Reminder int

	Request    Request
	Bow, Stern Tracing

	// Like is the boat nearest to the survey's among those whose covers fit, nil
	// for none. It is for the shop alone.
	Like *history.Likeness

	// Picture is the boat from the side with the asked places ringed; nil for
	// none. ContentID, Name and an empty Alt are filled in here.
	Picture *Picture
	Form    *File // a blank form, attached where one was asked for or all is measured again; nil for none
	Slip    *File // a page to measure again on; nil for none
}

// Shop is who writes.
type Shop struct {
	Name      string
	From      ingest.Address
	Telephone string // "" leaves it out of the signature
	Post      string // where tracings are sent, one line; "" leaves it out
}

// Request is what the customer's mail asks of the shop.
type Request struct {
	Form     bool   // a blank form
	Question string // words of the customer that a person has to answer; "" when there is no question
	Answer   string // the person's answer, which the letter then gives
}

// Tracing is how far the paper tracing of one end of the boat has come. The
// zero Tracing has not arrived.
type Tracing struct {
	In      bool
	Refused string // why it had to be sent back, in words for the customer; "" when it was not
}
