package desk

import (
	"errors"
	"fmt"
	"slices"

	"fairtape/cmd/internal/ledger"
	"fairtape/ingest"
	"fairtape/ingest/origin"
	"fairtape/parse"
)

// route is where a mail goes.
type route struct {
	// end is set when the mail leads to no job: ignored, for a reason.
	end    ledger.End
	reason string
	// limited says that this is the first mail of too many.
	limited bool
	// bounced is the job whose letter came back, 0 for none.
	bounced int

	job  ledger.Job   // that it belongs to; ID 0 for a new one
	open ledger.Draft // the job's open letter; ID 0 for none
	base ledger.Version

	// hold is why no letter may be written until a person has looked; "" for
	// nothing.
	hold    string
	perhaps int // the job that it may belong to, 0 for none

	survey   parse.Survey // what this mail alone says
	problems []parse.Problem
}

// route decides where a mail goes. It only reads.
func (d *Desk) route(tx *ledger.Tx, a arrival) (route, error) {
	if a.origin.Kind != origin.Person {
		r := route{end: ledger.Ignored, reason: a.origin.Reason}
		if a.origin.Kind != origin.Bounce {
			return r, nil
		}
		job, err := tx.JobOfMails(d.Account, slices.Concat(a.mail.InReplyTo, a.mail.References, returned(a.mail)))
		if err == nil {
			r.bounced = job.ID
		} else if !errors.Is(err, ledger.ErrNone) {
			return r, err
		}
		return r, nil
	}
	var r route
	end, reason, err := d.twins(tx, a.message)
	switch {
	case err != nil:
		return r, err
	case end == ledger.Ignored:
		return route{end: end, reason: reason}, nil
	case end == ledger.Held:
		r.hold = reason
	}
	r.survey, r.problems = parse.Merge(a.content.Documents()...)
	if slices.ContainsFunc(r.problems, func(p parse.Problem) bool { return p.Code == parse.CodeTwoBoats }) {
		r.hold = "it seems to hold two boats; please tell which numbers belong together"
	}
	job, trusted, err := d.owner(tx, a, r.survey)
	if err != nil {
		return r, err
	}
	if r.hold == "" && trusted && job.ID != 0 {
		if r.hold, err = d.foreignUnit(tx, job, &r); err != nil {
			return r, err
		}
	}
	switch {
	case a.doubt != "":
		// A forged sender learns nothing about a job and changes nothing in it.
		r.hold, r.perhaps = a.doubt, job.ID
	case !trusted && job.ID != 0:
		r.hold, r.perhaps = fmt.Sprintf("it may belong to job %d, but comes from another address", job.ID), job.ID
	case r.hold != "":
		r.perhaps = job.ID
	default:
		r.job = job
	}
	if job.ID == 0 && r.hold == "" && !d.byStaff(a.message.From.Address) {
		like, why, err := d.resembles(tx, a, r.survey)
		if err != nil {
			return r, err
		}
		if like.ID != 0 {
			r.hold, r.perhaps = why, like.ID
		}
	}
	why, first, err := d.overLimit(tx, a.message.From.Address, r.job.ID)
	if err != nil {
		return r, err
	}
	if why != "" {
		return route{end: ledger.Held, reason: why, limited: first, job: r.job}, nil
	}
	if r.job.ID == 0 {
		if job.ID == 0 && r.hold == "" {
			switch a.relation(r) {
			case unrelated:
				return route{end: ledger.Ignored, reason: "there is nothing about a survey in it"}, nil
			case doubtful:
				r.hold = "it is not clear whether it is about a survey"
			}
		}
		return r, nil
	}
	if r.base, err = tx.Survey(d.Account, r.job.ID); err != nil && !errors.Is(err, ledger.ErrNone) {
		return r, err
	}
	if r.open, err = tx.OpenDraft(d.Account, r.job.ID); err != nil && !errors.Is(err, ledger.ErrNone) {
		return r, err
	}
	return r, nil
}

// returned lists the Message-IDs of the letters that a delivery report returns,
// whole or by their header (RFC 3462).
func returned(m ingest.Message) (ids []string) {
	for _, f := range m.Forwarded {
		ids = append(ids, f.ID)
	}
	return ids
}

// mailName is what the mail itself is called in sources; its files are
// "mail/NAME".
const mailName = "mail"

// filesFailed reports that a file could not be read, or not wholly.
func filesFailed(r route) bool {
	return slices.ContainsFunc(r.problems, func(p parse.Problem) bool { return p.Source.File != mailName })
}

// owner returns the job that a mail belongs to, ID 0 for none: the one whose
// letter or mail it answers, else one of the same address about the same boat.
// An answer from another address is not trusted to be the customer's.
func (d *Desk) owner(tx *ledger.Tx, a arrival, survey parse.Survey) (job ledger.Job, trusted bool, err error) {
	ids := slices.Clone(a.mail.InReplyTo)
	for i := len(a.mail.References) - 1; i >= 0; i-- {
		ids = append(ids, a.mail.References[i])
	}
	job, err = d.jobOfMails(tx, ids)
	if err == nil {
		trusted = job.Customer == a.message.From.Address || slices.Contains(job.Others, a.message.From.Address)
		if !trusted {
			return job, false, nil
		}
		same, err := d.sameBoat(tx, job, survey)
		if err != nil || same || answersPart(survey) {
			return job, true, err
		}
		// The customer answered an old mail to begin with another boat.
	} else if !errors.Is(err, ledger.ErrNone) {
		return job, false, err
	}
	jobs, err := tx.JobsOf(d.Account, a.message.From.Address)
	if err != nil {
		return ledger.Job{}, false, err
	}
	// The job that a slip or form was printed for comes first.
	if i := slices.IndexFunc(jobs, func(j ledger.Job) bool { return a.onPaper(j.ID) }); i > 0 {
		own := jobs[i]
		jobs = slices.Insert(slices.Delete(jobs, i, i+1), 0, own)
	}
	for _, j := range jobs {
		if j.Perhaps != 0 || j.Joined != 0 || j.State == ledger.SetAside {
			continue
		}
		same, err := d.sameBoat(tx, j, survey)
		if err != nil || same {
			return j, true, err
		}
	}
	return ledger.Job{}, true, nil
}

// onPaper reports that a paper of ours came with the mail that was printed for a
// job.
func (a arrival) onPaper(job int) bool {
	return slices.ContainsFunc(a.content.Files, func(d parse.Document) bool { return d.Job == job })
}

// fewStations is how many rows an answer has at most; more are a survey.
const fewStations = 3

// answersPart reports a mail with so few numbers that, as an answer, it can only
// be about the boat that was asked about, however much they differ.
func answersPart(survey parse.Survey) bool { return len(survey.Stations) <= fewStations }

// jobOfMails is the ledger's, with a job that was joined to another followed
// there.
func (d *Desk) jobOfMails(tx *ledger.Tx, ids []string) (ledger.Job, error) {
	job, err := tx.JobOfMails(d.Account, ids)
	for err == nil && job.Joined != 0 {
		job, err = tx.Job(d.Account, job.Joined)
	}
	return job, err
}

// sameBoat reports that a survey can be of a job's boat. A mail without numbers
// can belong to any.
func (d *Desk) sameBoat(tx *ledger.Tx, job ledger.Job, survey parse.Survey) (bool, error) {
	known, err := tx.Survey(d.Account, job.ID)
	if errors.Is(err, ledger.ErrNone) {
		return true, nil
	}
	if err != nil {
		return false, err
	}
	// A few rows are an answer, however much they differ: that is what was asked.
	if survey.LengthOverall.Absent() && 2*len(survey.Stations) < len(known.Survey.Stations) {
		return true, nil
	}
	return !parse.TwoBoats(known.Survey, survey), nil
}
