package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/user"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/validate"
)

type jobsCommand struct {
	List     jobsList     `cmd:"" help:"List the jobs."`
	Show     jobsShow     `cmd:"" help:"Show one job: its survey, its letters, what was decided."`
	Send     jobsSend     `cmd:"" help:"Let a letter go; the running service sends it."`
	Hold     jobsHold     `cmd:"" help:"Hold a letter back."`
	Edit     jobsEdit     `cmd:"" help:"Give a letter other words; it becomes a new letter."`
	Correct  jobsCorrect  `cmd:"" help:"Give a number of a survey; it is final."`
	Own      jobsOwn      `cmd:"" help:"Accept an odd number as the boat's own shape."`
	Tape     jobsTape     `cmd:"" help:"Say what lay under the tape."`
	Received jobsReceived `cmd:"" help:"Say which paper tracings came by post."`
	Cloth    jobsCloth    `cmd:"" help:"Say what a job's cover is made of; the cut sheet follows."`
	Cut      jobsCut      `cmd:"" help:"Say that the cloth was cut by the newest sheet; later changes alarm."`
	Fit      jobsFit      `cmd:"" help:"Say how the cover fitted."`
	Answered jobsAnswered `cmd:"" help:"Say that the customer's question is answered, so that the letter may go."`
	Close    jobsClose    `cmd:"" help:"Close a job."`
	Reopen   jobsReopen   `cmd:"" help:"Open a job again that was closed or held."`
	Join     jobsJoin     `cmd:"" help:"Put two jobs about one boat together."`
	Split    jobsSplit    `cmd:"" help:"Make the last mail of a job a job of its own."`
	Note     jobsNote     `cmd:"" help:"Add a note to a job."`
	Forget   jobsForget   `cmd:"" help:"Erase what is known of a customer."`
	Verify   jobsVerify   `cmd:"" help:"Compare the ledger with the mailbox."`
	Backup   jobsBackup   `cmd:"" help:"Write a copy of the ledger, also while the service runs."`
	Restore  jobsRestore  `cmd:"" help:"Put a backup in the ledger's place."`
	Export   jobsExport   `cmd:"" help:"Write all surveys to a spreadsheet."`
	Import   jobsImport   `cmd:"" help:"Take numbers that were changed in an exported spreadsheet."`
}

// jobLine is a job as scripts read it.
type jobLine struct {
	Job      int               `json:"job"`
	State    ledger.State      `json:"state"`
	Draft    *string           `json:"draft"` // null when no letter waits
	Customer string            `json:"customer"`
	Boat     string            `json:"boat"`
	Verdict  *validate.Verdict `json:"verdict"` // null when there is no survey
	Question *string           `json:"question"`
	Perhaps  *int              `json:"perhaps"` // the job it may belong to
	Reason   *string           `json:"reason"`  // why it is held or set aside
}

// book is an open ledger with the account that the settings name.
type book struct {
	*ledger.Ledger
	account string
	weights validate.Costs
}

// withBook opens the ledger for a command.
func withBook(t *terminal, do func(book) error) error {
	conf, err := t.settings()
	if err != nil {
		return err
	}
	if _, err := os.Stat(conf.Ledger.Path); errors.Is(err, fs.ErrNotExist) {
		return &exit{statusUsage, fmt.Errorf("there is no ledger at %s yet", conf.Ledger.Path), "it is made when the service first runs: fairtape watch"}
	}
	l, err := ledger.Open(t.ctx, conf.Ledger.Path, time.Now)
	if err != nil {
		return err
	}
	return errors.Join(do(book{l, conf.IMAP.Account(), costs(conf)}), l.Close())
}

// line puts a job into one line.
func (b book) line(tx *ledger.Tx, j ledger.Job) (jobLine, error) {
	line := jobLine{Job: j.ID, State: j.State, Customer: j.Customer, Boat: j.Boat}
	draft, err := tx.OpenDraft(b.account, j.ID)
	switch {
	case err == nil:
		id := draft.ID.String()
		line.Draft = &id
	case !errors.Is(err, ledger.ErrNone):
		return line, err
	}
	v, err := tx.Survey(b.account, j.ID)
	switch {
	case err == nil:
		line.Verdict = &v.Verdict
	case !errors.Is(err, ledger.ErrNone):
		return line, err
	}
	if j.Question != "" {
		line.Question = &j.Question
	}
	if j.Perhaps != 0 {
		line.Perhaps = &j.Perhaps
	}
	if j.Reason != "" {
		line.Reason = &j.Reason
	}
	return line, nil
}

type jobsList struct {
	JSON bool `name:"json" help:"One JSON object a line."`
}

// Run lists the jobs.
func (c *jobsList) Run(t *terminal) error {
	return withBook(t, func(b book) error {
		var lines []jobLine
		err := b.View(t.ctx, func(tx *ledger.Tx) error {
			jobs, err := tx.Jobs(b.account)
			for _, j := range jobs {
				line, e := b.line(tx, j)
				err = errors.Join(err, e)
				lines = append(lines, line)
			}
			return err
		})
		if err != nil {
			return err
		}
		if !c.JSON {
			return printJobs(t.out, lines)
		}
		e := json.NewEncoder(t.out)
		for _, l := range lines {
			if err := e.Encode(l); err != nil {
				return err
			}
		}
		return nil
	})
}

type jobsShow struct {
	JSON bool `name:"json" help:"One JSON object."`
	Job  int  `arg:"" help:"Number of the job."`
}

// Run shows one job.
func (c *jobsShow) Run(t *terminal) error {
	return withBook(t, func(b book) error {
		return b.View(t.ctx, func(tx *ledger.Tx) error {
			j, err := tx.Job(b.account, c.Job)
			if err != nil {
				return noSuch(err, "job", strconv.Itoa(c.Job))
			}
			line, err := b.line(tx, j)
			if err != nil {
				return err
			}
			if c.JSON {
				return json.NewEncoder(t.out).Encode(line)
			}
			history, err := readHistory(tx, b.account, j, b.weights)
			if err != nil {
				return err
			}
			return printJob(t.out, j, history)
		})
	})
}

// history is everything that happened in a job.
type history struct {
	messages  []ledger.Message
	surveys   []ledger.Version
	decisions []ledger.Decision
	letters   []ledger.Draft  // oldest first
	sheets    []ledger.Sheet  // oldest first
	cut       int             // number of the sheet that was cut, 0 for none
	report    validate.Report // on the survey as it is now
}

func readHistory(tx *ledger.Tx, account string, j ledger.Job, weights validate.Costs) (h history, err error) {
	if h.messages, err = tx.MessagesOf(account, j.ID); err != nil {
		return h, err
	}
	if h.surveys, err = tx.Surveys(account, j.ID); err != nil {
		return h, err
	}
	if h.sheets, err = tx.Sheets(account, j.ID); err != nil {
		return h, err
	}
	cover, err := tx.Cover(account, j.ID)
	if err != nil {
		return h, err
	}
	h.cut = cover.Cut
	if h.decisions, err = tx.DecisionsOf(account, j.ID); err != nil {
		return h, err
	}
	if n := len(h.surveys); n > 0 {
		h.report = validate.Check(h.surveys[n-1].Survey, h.surveys[n-1].Problems, weights)
	}
	h.letters, err = tx.Drafts(account, j.ID)
	return h, err
}

// noSuch words the ledger's ErrNone for the person who typed the number.
func noSuch(err error, what, which string) error {
	if errors.Is(err, ledger.ErrNone) {
		return usage("see: fairtape jobs list", "there is no %s %s", what, which)
	}
	return err
}

type jobsSend struct {
	Draft string `arg:"" help:"Id of the letter, as in 14-2."`
}

// Run records that a letter may go. The service sends it.
func (c *jobsSend) Run(t *terminal) error { return decideDraft(t, c.Draft, ledger.ChooseSend, "") }

type jobsHold struct {
	Draft   string `arg:"" help:"Id of the letter, as in 14-2."`
	Because string `help:"Why." placeholder:"TEXT"`
	Until   string `help:"The day on which it comes back." placeholder:"YYYY-MM-DD"`
}

// Run records that a letter is held back.
func (c *jobsHold) Run(t *terminal) error {
	words := c.Because
	if c.Until != "" {
		day, err := time.ParseInLocation(time.DateOnly, c.Until, time.Local)
		if err != nil {
			return usage("write it as in 2026-12-01", "%q is no day", c.Until)
		}
		if time.Since(day) > 2*24*time.Hour { // whatever the shop's time zone
			return usage("a letter that is held comes back on a day to come", "%s is over", c.Until)
		}
		words = desk.Until(c.Until, c.Because)
	}
	return decideDraft(t, c.Draft, ledger.ChooseHold, words)
}

type jobsEdit struct {
	Draft string `arg:"" help:"Id of the letter, as in 14-2."`
	File  string `required:"" help:"The whole letter as plain text; - is standard input." placeholder:"TXT"`
}

// mostLetter bounds a letter: it is a letter and not a book.
const mostLetter = 256 << 10

// Run records the words that a person gives a letter.
func (c *jobsEdit) Run(t *terminal) error {
	words, err := loader{in: t.in}.bytes(c.File)
	switch {
	case err != nil:
		return &exit{statusUsage, err, ""}
	case len(words) > mostLetter || !utf8.Valid(words):
		return usage("save it as plain text in UTF-8", "%s is no letter", c.File)
	case strings.TrimSpace(string(words)) == "":
		return usage("", "%s is empty", c.File)
	}
	return decideDraft(t, c.Draft, ledger.ChooseEdit, string(words))
}

// decideDraft records a decision about an open letter.
func decideDraft(t *terminal, id string, choice ledger.Choice, words string) error {
	draft, err := desk.ParseDraftID(id)
	if err != nil {
		return usage("see: fairtape jobs list", "%q is no letter; a letter is named by its job and version, as in 14-2", id)
	}
	return withBook(t, func(b book) error {
		return b.Update(t.ctx, func(tx *ledger.Tx) error {
			d, err := tx.Draft(b.account, draft)
			if err != nil {
				return noSuch(err, "letter", id)
			}
			if d.State != ledger.DraftOpen {
				return usage("see: fairtape jobs show "+strconv.Itoa(draft.Job), "letter %s is %s already", id, d.State)
			}
			if choice == ledger.ChooseSend && d.Question != "" {
				return usage("answer it, then: fairtape jobs answered "+id, "the customer asked something that letter %s does not answer: %q", id, d.Question)
			}
			return record(t, tx, ledger.Decision{Account: b.account, Draft: draft, Choice: choice, Words: words})
		})
	})
}

// decideJob records a decision about a job.
func decideJob(t *terminal, job int, choice ledger.Choice, words string) error {
	return withBook(t, func(b book) error {
		return b.Update(t.ctx, func(tx *ledger.Tx) error {
			if _, err := tx.Job(b.account, job); err != nil {
				return noSuch(err, "job", strconv.Itoa(job))
			}
			return record(t, tx, ledger.Decision{Account: b.account, Draft: reply.DraftID{Job: job}, Choice: choice, Words: words})
		})
	})
}

func record(t *terminal, tx *ledger.Tx, d ledger.Decision) error {
	d.Person = whoami()
	if err := tx.Decide(d); err != nil {
		return err
	}
	about := d.Draft.String()
	if d.Draft.Version == 0 {
		about = strconv.Itoa(d.Draft.Job)
	}
	sayNotice(t.err, "recorded: %s %s; the running service acts on it", d.Choice, about)
	return nil
}

// whoami names the person at the keyboard, for the record.
func whoami() string {
	u, err := user.Current()
	switch {
	case err != nil:
		return "somebody at the terminal"
	case u.Name != "":
		return u.Name
	default:
		return u.Username
	}
}
