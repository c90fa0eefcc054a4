package desk

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/chat"
)

// help is what the bot answers when it is spoken to and does not understand.
const help = "Say it in the thread of a job, or with the job's number before it: tracings in, bow refused ..., " +
	"correct 7 ft hull 47 1/2, own 7 ft hull, tape nothing was under it, answered ..., cloth NAME COLOUR, cut, fit good, fit tight 7 ft, fit returned, note ..., join 17, split, no, close, reopen. The number alone brings the thread."

// order is what words said to the bot ask for.
type order struct {
	job    int // 0: the job of the thread
	choice ledger.Choice
	words  string
}

var (
	jobBefore = regexp.MustCompile(`^(?:job\s+)?#?(\d{1,6})\s+(\D.*)$`)
	postVerb  = regexp.MustCompile(`(?i)\b(?:in|here|refused|sent back|height)\b`)
	joinWords = regexp.MustCompile(`(?i)^join(?: (?:with|to))?(?: job)? #?(\d{1,6})$`)
)

// parseOrder reads words said to the bot. Words in a thread that only begin
// like an order are people's talk: the short ones have to stand alone.
func parseOrder(text string) (order, bool) {
	text = strings.Join(strings.Fields(text), " ")
	var o order
	if m := jobBefore.FindStringSubmatch(text); m != nil {
		o.job, _ = strconv.Atoi(m[1]) // at most six digits
		text = m[2]
	}
	verb, rest, _ := strings.Cut(text, " ")
	verb, rest = strings.ToLower(strings.Trim(verb, ".!:")), strings.TrimSpace(rest)
	alone := rest == ""
	switch {
	case alone && verb == "close":
		o.choice = ledger.ChooseClose
	case alone && verb == "split":
		o.choice = ledger.ChooseSplit
	case alone && verb == "reopen":
		o.choice = ledger.ChooseReopen
	case alone && verb == "no":
		o.choice = ledger.ChooseNo
	case verb == "answered":
		o.choice, o.words = ledger.ChooseAnswered, rest
	case !alone && verb == "note":
		o.choice, o.words = ledger.ChooseNote, rest
	case !alone && verb == "tape":
		o.choice, o.words = ledger.ChooseTape, rest
	case verb == "correct" || verb == "phone":
		v, ok := splitValue(rest)
		o.choice, o.words = ledger.ChooseCorrect, v.String()
		return o, ok && v.Value != ""
	case verb == "own":
		v, ok := splitValue(rest)
		o.choice, o.words = ledger.ChooseOwn, v.String()
		return o, ok && v.Value == ""
	case verb == "cloth" || verb == "cut" || verb == "fit":
		about, ok := coverOrder(verb, rest)
		o.choice, o.words = about.choice, about.words
		return o, ok
	default:
		if m := joinWords.FindStringSubmatch(text); m != nil {
			o.choice, o.words = ledger.ChooseJoin, m[1]
			return o, true
		}
		post, ok := ParsePost(text)
		o.choice, o.words = ledger.ChooseReceived, post.String()
		return o, ok && postVerb.MatchString(text) // "bow" alone is talk
	}
	return o, true
}

// hearWords takes what is said in a job's thread or to the bot. People talk in
// threads: what is no order and no mention is left alone.
func (d *Desk) hearWords(ctx context.Context, people People, approvers []string, e chat.Event) error {
	if job, ok := asksForThread(e); ok {
		return d.showThread(ctx, people, e, job)
	}
	o, understood := parseOrder(e.Text)
	understood = understood && (e.Mention || o.job != 0 || d.aboutCover(o))
	var thread ledger.Job
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		thread, err = tx.JobOfThread(d.Account, e.Thread.Channel, e.Thread.TS)
		if errors.Is(err, ledger.ErrNone) {
			err = nil
		}
		return err
	})
	if err != nil {
		return err
	}
	meant := e.Mention || thread.ID != 0 && (understood || len(e.Files) > 0)
	if thread.ID == 0 && understood && e.InThread && o.job == 0 && !e.Mention {
		return d.early(ctx, people, e)
	}
	if understood && o.choice == ledger.ChooseNo && !e.Mention && thread.Perhaps == 0 {
		meant = len(e.Files) > 0
	}
	if !meant {
		return nil
	}
	if ok, err := d.mayDecide(ctx, people, approvers, e); err != nil || !ok {
		return err
	}
	if o.job == 0 {
		o.job = thread.ID
	}
	if thread.ID != 0 && len(e.Files) > 0 {
		if err := d.takeFiles(ctx, thread.ID, e); err != nil {
			return err
		}
	}
	switch {
	case understood && o.job != 0:
		return d.obey(ctx, people, e, o)
	case e.Mention && len(e.Files) == 0:
		return people.Whisper(ctx, e.Thread, e.User.ID, help)
	}
	return d.heard(ctx, e.At)
}

// early takes words in a thread that the ledger does not know: they may be
// orders for a job whose thread was begun a moment ago.
func (d *Desk) early(ctx context.Context, people People, e chat.Event) error {
	beginning := false
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		waiting, err := tx.Waiting(d.Account)
		for _, i := range waiting {
			if i.Act != ledger.Show {
				continue
			}
			job, err := tx.Job(d.Account, i.Draft.Job)
			if err != nil {
				return err
			}
			beginning = beginning || job.Thread == ""
		}
		return err
	})
	if err != nil || !beginning {
		return err
	}
	return people.Whisper(ctx, e.Thread, e.User.ID, "That came before the thread was on the ledger, so it was not taken. Please say it once more.")
}

// obey records an order. What comes of it is said in the job's thread.
func (d *Desk) obey(ctx context.Context, people People, e chat.Event, o order) error {
	err := d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		job, err := tx.Job(d.Account, o.job)
		if err != nil {
			return err
		}
		if job.Thread == "" {
			d.crowd.ask(job.ID) // the answer is said there
		}
		return tx.Decide(ledger.Decision{Account: d.Account, Draft: reply.DraftID{Job: o.job}, Choice: o.choice,
			Person: e.User.Name, Words: o.words, Event: e.ID})
	})
	if errors.Is(err, ledger.ErrNone) {
		return people.Whisper(ctx, e.Thread, e.User.ID, fmt.Sprintf("There is no job %d.", o.job))
	}
	if err != nil {
		return err
	}
	d.nudge()
	return d.heard(ctx, e.At)
}

// takeFiles records that files were dropped into a job's thread.
func (d *Desk) takeFiles(ctx context.Context, job int, e chat.Event) error {
	err := d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		for n, f := range e.Files {
			words, err := json.Marshal(dropped{f, e.User.Name, e.At})
			if err != nil {
				return err
			}
			err = tx.Decide(ledger.Decision{Account: d.Account, Draft: reply.DraftID{Job: job}, Choice: ledger.ChooseFile,
				Person: e.User.Name, Words: string(words), Event: fmt.Sprintf("%s/file/%d", e.ID, n)})
			if err != nil {
				return err
			}
		}
		return nil
	})
	d.nudge()
	return err
}
