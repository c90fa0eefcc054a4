package desk

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
)

// heedJoin puts two jobs about one boat together. The older one stays; the
// mails of the younger are read again as part of it, and whoever wrote them
// counts as the customer.
func (d *Desk) heedJoin(tx *ledger.Tx, c ledger.Decision, job ledger.Job) (string, error) {
	number, err := strconv.Atoi(strings.TrimSpace(c.Words))
	if err != nil || number == job.ID {
		return "not joined: name the other job, as in 14 join 17", nil
	}
	other, err := tx.Job(d.Account, number)
	if errors.Is(err, ledger.ErrNone) {
		return fmt.Sprintf("not joined: there is no job %d", number), nil
	}
	if err != nil {
		return "", err
	}
	stays, goes := job, other
	if other.ID < job.ID {
		stays, goes = other, job
	}
	if words, err := d.clear(tx, goes, "joined to job "+strconv.Itoa(stays.ID)); words != "" || err != nil {
		return words, err
	}
	if goes, err = tx.Job(d.Account, goes.ID); err != nil {
		return "", err
	}
	mails, err := tx.MessagesOf(d.Account, goes.ID)
	if err != nil {
		return "", err
	}
	for _, m := range mails {
		if err := d.planReread(tx, stays.ID, m); err != nil {
			return "", err
		}
	}
	stays.Others = gather(stays, goes)
	stays.Perhaps, stays.Reason = 0, ""
	if stays.State == ledger.SetAside || stays.State == ledger.HeldJob {
		stays.State = ledger.WaitingUs
	}
	goes.State, goes.Reason, goes.Joined, goes.Perhaps = ledger.Closed, fmt.Sprintf("joined to job %d", stays.ID), stays.ID, 0
	goes.Summary.State = fmt.Sprintf("joined to job %d by %s", stays.ID, c.Person)
	goes.Summary.Draft, goes.Summary.Question, goes.Summary.Telephone = "", "", false
	goes.Summary.Findings, goes.Summary.Missing, goes.Summary.Problems, goes.Summary.Asks = nil, nil, nil, nil // it is said in the other
	words := fmt.Sprintf("Job %d is joined to job %d; its mail is read as part of it.", goes.ID, stays.ID)
	return words, errors.Join(
		tx.MoveMessages(d.Account, goes.ID, stays.ID),
		tx.SaveJob(stays), tx.SaveJob(goes),
		d.planShow(tx, goes.ID), d.planShow(tx, stays.ID))
}

// gather lists the addresses that belong to a job beside its customer's.
func gather(stays, goes ledger.Job) []string {
	all := slices.Clone(stays.Others)
	for _, a := range append([]string{goes.Customer}, goes.Others...) {
		if a != "" && a != stays.Customer && !slices.Contains(all, a) {
			all = append(all, a)
		}
	}
	return all
}

// clear takes the open letter of a job back. The words say why that cannot be.
func (d *Desk) clear(tx *ledger.Tx, job ledger.Job, by string) (string, error) {
	open, err := tx.OpenDraft(d.Account, job.ID)
	switch {
	case errors.Is(err, ledger.ErrNone):
		return "", nil
	case err != nil:
		return "", err
	case open.State == ledger.DraftSending:
		return fmt.Sprintf("letter %s is being sent: try again after that", open.ID), nil
	}
	return "", d.replace(tx, open, by)
}

// heedSplit takes the last mail out of a job: it becomes a job of its own, and
// the survey is what it was before.
func (d *Desk) heedSplit(tx *ledger.Tx, c ledger.Decision, job ledger.Job, touched bool) (string, error) {
	if job.Perhaps != 0 {
		return d.heedNo(tx, c, job)
	}
	mails, err := tx.MessagesOf(d.Account, job.ID)
	if err != nil {
		return "", err
	}
	if len(mails) < 2 {
		return "not split: the job has only one mail", nil
	}
	last := mails[len(mails)-1]
	versions, err := tx.Surveys(d.Account, job.ID)
	if err != nil {
		return "", err
	}
	cause := fmt.Sprintf("message %d", last.ID)
	at := slices.IndexFunc(versions, func(v ledger.Version) bool { return v.Cause == cause })
	if at >= 0 && slices.ContainsFunc(versions[at:], func(v ledger.Version) bool { return !reflect.DeepEqual(v.Survey, versions[at].Survey) }) {
		return "not split: numbers were changed after the last mail came; close the job and begin anew", nil
	}
	fresh, err := tx.AddJob(ledger.Job{Account: d.Account, Customer: last.From.Address, CustomerName: last.From.Name, Language: job.Language,
		State: ledger.WaitingUs, Subject: last.Subject, MailID: last.MailID})
	if err != nil {
		return "", err
	}
	fresh.Summary = plain(fresh, "split from job "+strconv.Itoa(job.ID))
	if at > 0 {
		back := versions[at-1]
		back.Cause = "split by " + c.Person
		err = tx.AddSurvey(d.Account, job.ID, back)
	}
	err = errors.Join(err, tx.SaveJob(fresh), tx.MoveMessage(last.ID, fresh.ID), d.planReread(tx, fresh.ID, last), d.planShow(tx, fresh.ID))
	if err != nil {
		return "", err
	}
	before := mails[len(mails)-2]
	job.MailID, job.Subject = before.MailID, before.Subject
	more, err := d.remake(tx, &job, "split by "+c.Person, touched, whenReady)
	return strings.TrimSpace(fmt.Sprintf("The last mail is job %d now. %s", fresh.ID, more)), err
}

// heedNo settles "perhaps job 14?": it is not.
func (d *Desk) heedNo(tx *ledger.Tx, c ledger.Decision, job ledger.Job) (string, error) {
	if job.Perhaps == 0 {
		return "there was no question whether this is another job", nil
	}
	was := job.Perhaps
	job.Perhaps, job.Reason, job.State = 0, "", ledger.WaitingUs
	job.Summary.State = fmt.Sprintf("not job %d, says %s", was, c.Person)
	mails, err := tx.MessagesOf(d.Account, job.ID)
	for _, m := range mails {
		err = errors.Join(err, d.planReread(tx, job.ID, m))
	}
	return fmt.Sprintf("Job %d is a boat of its own.", job.ID), errors.Join(err, tx.SaveJob(job), d.planShow(tx, job.ID))
}

// heedReopen opens a job again, also one that was held because nobody could
// tell who wrote: a person says that it may go on.
func (d *Desk) heedReopen(tx *ledger.Tx, c ledger.Decision, job ledger.Job, touched bool) (string, error) {
	switch {
	case job.Joined != 0:
		return fmt.Sprintf("not reopened: it was joined to job %d; split that one", job.Joined), nil
	case job.State != ledger.Closed && job.State != ledger.HeldJob && job.State != ledger.SetAside:
		return "it is open", nil
	}
	aside := job.State == ledger.SetAside
	job.State, job.Reason, job.Until = ledger.WaitingUs, "", time.Time{}
	job.Summary.State = "opened again by " + c.Person
	v, err := tx.Survey(d.Account, job.ID)
	if aside || errors.Is(err, ledger.ErrNone) || err == nil && v.Survey.Readings() == 0 {
		return "open again; there is no survey to write about", errors.Join(tx.SaveJob(job), d.planShow(tx, job.ID))
	}
	if err != nil {
		return "", err
	}
	more, err := d.remake(tx, &job, "opened again by "+c.Person, touched, always)
	return strings.TrimSpace("Open again. " + more), err
}

// planReread plans to read a mail again as part of a job.
func (d *Desk) planReread(tx *ledger.Tx, job int, m ledger.Message) error {
	return tx.Plan(ledger.Intent{Account: d.Account, Draft: reply.DraftID{Job: job}, Act: ledger.Reread, Words: strconv.FormatInt(m.ID, 10)})
}
