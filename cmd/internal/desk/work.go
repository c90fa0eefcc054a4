package desk

import (
	"context"
	"errors"
	"fmt"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply/chat"
)

const (
	// lookLedger is how often the worker looks for decisions that another
	// process, the command "jobs", has recorded.
	lookLedger = time.Second

	// lookClock is how often the worker looks whether the time of day asks for
	// something.
	lookClock = 20 * time.Second

	firstPause = 30 * time.Second // before an act that failed is tried again; doubled each time
	mostPause  = time.Hour
	// deadline is how long a letter is tried before a person is told: less than
	// the days after which mail servers themselves give up.
	deadline = 48 * time.Hour
)

// The points at which a test may end the program around an act.
const (
	CrashBegun = "begun: " // and the act: it is on the ledger as being tried
	CrashActed = "acted: " // and the act: it happened, and the ledger does not know
	CrashNoted = "noted: " // and the act: its outcome is on the ledger
)

// Run does what stands on the ledger until the context ends: acts on people's
// decisions, carries out intentions, and looks at Drafts and Sent for what
// people did there. The error is nil when the context ended it.
func (d *Desk) Run(ctx context.Context) error {
	look := time.NewTicker(lookLedger)
	defer look.Stop()
	folders := time.NewTicker(d.Poll)
	defer folders.Stop()
	clock := time.NewTicker(lookClock)
	defer clock.Stop()
	due := func() bool { return len(folders.C)+len(clock.C) > 0 }
	d.tick(ctx)
	for {
		if err := d.workUntil(ctx, due); err != nil && ctx.Err() == nil {
			d.Log.Error("work on the ledger", "error", err)
		}
		select {
		case <-ctx.Done():
			return nil
		case <-d.wake:
		case <-look.C:
		case <-clock.C:
			d.tick(ctx)
		case <-folders.C:
			if err := d.LookAround(ctx); err != nil && ctx.Err() == nil {
				d.Log.Error("look at Drafts and Sent", "error", err)
			}
		}
	}
}

func (d *Desk) tick(ctx context.Context) {
	if err := d.Tick(ctx); err != nil && ctx.Err() == nil {
		d.Log.Error("act by the clock", "error", err)
	}
}

// Work acts on the decisions and carries out the intentions that are due now.
func (d *Desk) Work(ctx context.Context) error {
	return d.workUntil(ctx, func() bool { return false })
}

// workUntil works until nothing is due any more, or enough says that there is
// something else to see to first.
func (d *Desk) workUntil(ctx context.Context, enough func() bool) error {
	q := newQueue()
	for !enough() {
		// What a person decides does not wait behind a queue of posts.
		if err := d.decide(ctx); err != nil {
			return err
		}
		if err := q.take(ctx, d); err != nil {
			return err
		}
		i, ok := q.next(d.Now(), &d.crowd)
		if !ok {
			return errors.Join(d.tellCrowd(ctx, q.threads), ctx.Err())
		}
		settled, err := d.carryOut(ctx, i)
		if err != nil {
			return err
		}
		if !settled {
			q.hold(i)
		}
	}
	d.nudge()
	return ctx.Err()
}

// outcome is what came of an act.
type outcome struct {
	state outcomeState
	words string
	// also is recorded together with the outcome.
	also func(*ledger.Tx) error
	// spoke and shut say how the chat took it: all was said, or nothing can be
	// said before a person has acted.
	spoke, shut bool
}

type outcomeState int

const (
	happened    outcomeState = iota
	notWanted                // any more
	later                    // surely not done; again after a pause
	perhapsDone              // again after a pause, with a look for proof
	failed                   // not done, and not to be tried again
)

// carryOut does one act, recorded before and after. Settled says that it need
// not be done again.
func (d *Desk) carryOut(ctx context.Context, i ledger.Intent) (settled bool, err error) {
	begun := false
	err = d.Ledger.Update(ctx, func(tx *ledger.Tx) (err error) {
		begun, err = tx.Begin(i.ID)
		return err
	})
	if err != nil || !begun {
		return true, err
	}
	d.Crash(CrashBegun + string(i.Act))
	o, err := d.act(ctx, i)
	if err != nil {
		return false, err
	}
	if ctx.Err() != nil && o.state != happened {
		return false, ctx.Err() // cut off: the next start looks for proof
	}
	d.Crash(CrashActed + string(i.Act))
	err = d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		if o.also != nil {
			if err := o.also(tx); err != nil {
				return err
			}
		}
		if err := d.noteShut(tx, o); err != nil {
			return err
		}
		switch o.state {
		case happened:
			return tx.Done(i.ID, o.words)
		case notWanted:
			return tx.Drop(i.ID, o.words)
		case failed:
			return tx.Fail(i.ID, o.words)
		default:
			return tx.Again(i.ID, o.state == perhapsDone, d.Now().Add(pause(i.Tries+1)), o.words)
		}
	})
	if err != nil {
		return false, fmt.Errorf("record the outcome of %s for job %d: %w", i.Act, i.Draft.Job, err)
	}
	d.Crash(CrashNoted + string(i.Act))
	if o.state != happened && o.state != notWanted {
		d.Log.Warn("an act has to wait or failed", "act", i.Act, "job", i.Draft.Job, "try", i.Tries+1, "why", o.words)
	}
	return o.state != later && o.state != perhapsDone, nil
}

// pause is how long to wait after so many tries.
func pause(tries int) time.Duration {
	p := firstPause
	for range tries - 1 {
		if p *= 2; p >= mostPause {
			return mostPause
		}
	}
	return p
}

// act does one act. An error is the ledger's; what goes wrong outside is an
// outcome.
func (d *Desk) act(ctx context.Context, i ledger.Intent) (outcome, error) {
	switch i.Act {
	case ledger.FileDraft:
		return d.fileDraft(ctx, i)
	case ledger.DropDraft:
		return d.dropDraft(ctx, i)
	case ledger.Show:
		return d.show(ctx, i)
	case ledger.Say:
		return d.say(ctx, i)
	case ledger.Send:
		return d.send(ctx, i)
	case ledger.FileSent:
		return d.fileSent(ctx, i)
	case ledger.Reread:
		return d.reread(ctx, i)
	case ledger.HandSheet, ledger.HandBlank:
		return d.handSheet(ctx, i)
	case ledger.TakeFile:
		return d.takeFile(ctx, i)
	case ledger.FileNote:
		return d.fileNote(ctx, i)
	case ledger.DropNote:
		return d.dropNote(ctx, i)
	}
	return outcome{state: failed, words: "no such act"}, nil
}

// fileDraft puts a letter into Drafts. A letter that was replaced before it
// lay there is not filed; if it may lie there, dropDraft follows and looks.
func (d *Desk) fileDraft(ctx context.Context, i ledger.Intent) (outcome, error) {
	draft, err := d.draft(ctx, i)
	if err != nil {
		return outcome{}, err
	}
	if draft.State != ledger.DraftOpen {
		return outcome{state: notWanted, words: "the letter is " + string(draft.State)}, nil
	}
	at, err := d.Folders.FileDraft(ctx, draft.MIME, draft.MailID)
	if err != nil {
		return outcome{state: perhapsDone, words: err.Error()}, nil
	}
	return outcome{words: fmt.Sprintf("%s, message %d", at.Mailbox, at.UID)}, nil
}

// dropDraft takes a letter out of Drafts, unless a person has changed it.
func (d *Desk) dropDraft(ctx context.Context, i ledger.Intent) (outcome, error) {
	draft, err := d.draft(ctx, i)
	if err != nil {
		return outcome{}, err
	}
	found, err := d.inDrafts(ctx, draft)
	if err != nil {
		return outcome{state: later, words: err.Error()}, nil
	}
	for _, l := range found {
		// A person's text is never thrown away unsent.
		if !l.sure || !l.ours && draft.State != ledger.DraftSent {
			continue
		}
		if err := d.Folders.DeleteDraft(ctx, l.at); err != nil {
			return outcome{state: perhapsDone, words: err.Error()}, nil
		}
	}
	return outcome{}, nil
}

func (d *Desk) draft(ctx context.Context, i ledger.Intent) (draft ledger.Draft, err error) {
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		draft, err = tx.Draft(d.Account, i.Draft)
		return err
	})
	return draft, err
}

// show brings a job's thread in chat up to date. The thread is kept also when
// only a part of it could be said.
func (d *Desk) show(ctx context.Context, i ledger.Intent) (outcome, error) {
	var job ledger.Job
	var version ledger.Version
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		if job, err = tx.Job(d.Account, i.Draft.Job); err != nil {
			return err
		}
		if version, err = tx.Survey(d.Account, job.ID); errors.Is(err, ledger.ErrNone) {
			err = nil
		}
		return err
	})
	if err != nil {
		return outcome{}, err
	}
	summary := job.Summary
	summary.Picture, summary.Doubts = d.curve(version), d.doubtful(version)
	at, err := d.Chat.Show(ctx, summary, chat.Thread{Channel: job.Channel, TS: job.Thread}, i.Unsure)
	o := spoken(err)
	o.also = func(tx *ledger.Tx) error {
		j, err := tx.Job(d.Account, job.ID)
		if err != nil || at.TS == "" {
			return err
		}
		j.Channel, j.Thread = at.Channel, at.TS
		return tx.SaveJob(j)
	}
	return o, nil
}

// say posts words into a job's thread.
func (d *Desk) say(ctx context.Context, i ledger.Intent) (outcome, error) {
	var at chat.Thread
	if i.Draft.Job != 0 {
		err := d.Ledger.View(ctx, func(tx *ledger.Tx) error {
			job, err := tx.Job(d.Account, i.Draft.Job)
			at = chat.Thread{Channel: job.Channel, TS: job.Thread}
			return err
		})
		if err != nil {
			return outcome{}, err
		}
	}
	_, err := d.Chat.Say(ctx, at, fmt.Sprintf("intent-%d", i.ID), i.Words, i.Unsure)
	return spoken(err), nil
}

// spoken is the outcome of a post.
func spoken(err error) outcome {
	switch {
	case err == nil:
		return outcome{spoke: true}
	case errors.Is(err, chat.ErrShut):
		return outcome{state: later, words: err.Error(), shut: true}
	case errors.Is(err, chat.ErrRefused):
		return outcome{state: failed, words: err.Error()}
	case errors.Is(err, chat.ErrUnsure):
		return outcome{state: perhapsDone, words: err.Error()}
	default:
		return outcome{state: later, words: err.Error()}
	}
}
