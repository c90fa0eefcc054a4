package main

import (
	"errors"
	"strconv"
	"strings"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
)

type jobsAnswered struct {
	Draft string `arg:"" help:"Id of the letter, as in 14-2."`
	With  string `help:"The answer, for the letter to give." placeholder:"TEXT"`
}

// Run records that the customer's question is answered.
func (c *jobsAnswered) Run(t *terminal) error {
	return decideDraft(t, c.Draft, ledger.ChooseAnswered, c.With)
}

type jobsClose struct {
	Job int `arg:"" help:"Number of the job."`
}

// Run records that a job is closed.
func (c *jobsClose) Run(t *terminal) error { return decideJob(t, c.Job, ledger.ChooseClose, "") }

type jobsNote struct {
	Job  int      `arg:"" help:"Number of the job."`
	Text []string `arg:"" help:"The note."`
}

// Run records a note.
func (c *jobsNote) Run(t *terminal) error {
	if strings.TrimSpace(strings.Join(c.Text, " ")) == "" {
		return usage("see: fairtape jobs note --help", "the note is empty")
	}
	return decideJob(t, c.Job, ledger.ChooseNote, strings.Join(c.Text, " "))
}

type jobsReopen struct {
	Job int `arg:"" help:"Number of the job."`
}

// Run records that a job is open again.
func (c *jobsReopen) Run(t *terminal) error { return decideJob(t, c.Job, ledger.ChooseReopen, "") }

type jobsJoin struct {
	Job   int `arg:"" help:"Number of the job."`
	Other int `arg:"" name:"job2" help:"Number of the other job; the older one stays."`
}

// Run records that two jobs are one.
func (c *jobsJoin) Run(t *terminal) error {
	if c.Job == c.Other {
		return usage("", "a job cannot be joined to itself")
	}
	return withBook(t, func(b book) error {
		return b.Update(t.ctx, func(tx *ledger.Tx) error {
			for _, job := range []int{c.Job, c.Other} {
				if _, err := tx.Job(b.account, job); err != nil {
					return noSuch(err, "job", strconv.Itoa(job))
				}
			}
			return record(t, tx, ledger.Decision{Account: b.account, Draft: reply.DraftID{Job: c.Job}, Choice: ledger.ChooseJoin, Words: strconv.Itoa(c.Other)})
		})
	})
}

type jobsSplit struct {
	Job int `arg:"" help:"Number of the job. Of one that may belong to another it says that it does not."`
}

// Run records that the last mail of a job is another boat's.
func (c *jobsSplit) Run(t *terminal) error { return decideJob(t, c.Job, ledger.ChooseSplit, "") }

type jobsCorrect struct {
	Job     int    `arg:"" help:"Number of the job."`
	Place   string `arg:"" help:"The station, as in \"7 ft\"; - for a measure that the boat has once."`
	Measure string `arg:"" help:"hull_girth, full_girth, length_overall, bow_height, ..."`
	Value   string `arg:"" help:"The number, as in \"47 1/2\"."`
}

// Run records a number that a person gives.
func (c *jobsCorrect) Run(t *terminal) error {
	return decideValue(t, c.Job, desk.Value{Place: c.Place, Measure: c.Measure, Value: c.Value}, ledger.ChooseCorrect)
}

type jobsOwn struct {
	Job     int    `arg:"" help:"Number of the job."`
	Place   string `arg:"" help:"The station, as in \"7 ft\"; - for a measure that the boat has once."`
	Measure string `arg:"" help:"hull_girth, full_girth, length_overall, bow_height, ..."`
}

// Run records that an odd number is the boat's own.
func (c *jobsOwn) Run(t *terminal) error {
	return decideValue(t, c.Job, desk.Value{Place: c.Place, Measure: c.Measure}, ledger.ChooseOwn)
}

type jobsTape struct {
	Job  int      `arg:"" help:"Number of the job."`
	Text []string `arg:"" help:"What lay under the tape, or that nothing did."`
}

// Run records what lay under the tape.
func (c *jobsTape) Run(t *terminal) error {
	if strings.TrimSpace(strings.Join(c.Text, " ")) == "" {
		return usage("see: fairtape jobs tape --help", "say what lay under the tape, or that nothing did")
	}
	return decideJob(t, c.Job, ledger.ChooseTape, strings.Join(c.Text, " "))
}

type jobsReceived struct {
	Job      int    `arg:"" help:"Number of the job."`
	What     string `arg:"" enum:"tracings" help:"tracings."`
	End      string `arg:"" optional:"" help:"bow or stern; both when left out."`
	Refused  string `help:"Why they cannot be used; the letter says so." placeholder:"REASON"`
	SentBack bool   `help:"They have been sent back."`
	Height   string `help:"The height of that end on the paper." placeholder:"LENGTH"`
}

// Run records what came by post.
func (c *jobsReceived) Run(t *terminal) error {
	p := desk.Post{Bow: c.End != "stern", Stern: c.End != "bow", Refused: strings.TrimSpace(c.Refused), SentBack: c.SentBack, Height: c.Height}
	switch {
	case c.End != "" && c.End != "bow" && c.End != "stern":
		return usage("tracings are of the bow or of the stern", "there is no tracing of the %q", c.End)
	case c.Height != "" && c.End == "":
		return usage("fairtape jobs received 14 tracings bow --height 18", "say of which end the height is")
	case c.Height != "" && p.Refused != "":
		return usage("a tracing that cannot be used gives no height", "either --height or --refused")
	}
	if c.Height != "" {
		if _, fault := parse.ParseLength(c.Height); fault.Some() {
			return usage("write it as in 18 1/2", "height %q is not clear: %s", c.Height, fault.Message)
		}
	}
	return decideJob(t, c.Job, ledger.ChooseReceived, p.String())
}

// decideValue records a decision about one number of a survey, once it is clear
// which.
func decideValue(t *terminal, job int, v desk.Value, choice ledger.Choice) error {
	if v.Place == "-" {
		v.Place = ""
	}
	return withBook(t, func(b book) error {
		return b.Update(t.ctx, func(tx *ledger.Tx) error {
			if _, err := tx.Job(b.account, job); err != nil {
				return noSuch(err, "job", strconv.Itoa(job))
			}
			version, err := tx.Survey(b.account, job)
			if err != nil && !errors.Is(err, ledger.ErrNone) {
				return err
			}
			if err := v.Check(version.Survey); err != nil {
				return usage("see: fairtape jobs correct --help", "%v", err)
			}
			return record(t, tx, ledger.Decision{Account: b.account, Draft: reply.DraftID{Job: job}, Choice: choice, Words: v.String()})
		})
	})
}
