package reply

import (
	"errors"
	"io/fs"

	"fairtape/validate"
)

// ErrNoLetter says that a plan leads to no letter: the shop telephones, or
// there is nothing to say.
var ErrNoLetter = errors.New("no letter is to be written")

// Texts holds the words of the letters, checked and ready.
type Texts struct{}

// LoadTexts returns the built-in texts, with those of the shop's own folder in
// place of the ones they name; own may be nil. A text of the shop's own that
// cannot be used - a sentence that no letter has, a field that does not exist -
// is an error that names file and line.
func LoadTexts(own fs.FS) (*Texts, error) {
	return &Texts{}, nil
}

// Compose writes the letter that the plan asks for. Errors: ErrNoLetter when
// the plan's action is not Write.
func (t *Texts) Compose(plan Plan, job Job) (Draft, error) {
	if plan.Action != Write {
		return Draft{}, ErrNoLetter
	}
	return Draft{ID: job.ID, MessageID: job.MessageID, From: job.Shop.From, To: job.Customer, Date: job.Now}, nil
}

// Summarise puts a job at a glance for the shop. The draft is nil when there
// is no letter. Picture and State are left to the caller.
func Summarise(report validate.Report, job Job, plan Plan, draft *Draft) Summary {
	return Summary{Job: job.ID.Job}
}
