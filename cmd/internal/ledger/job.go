package ledger

import (
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"

	"fairtape/parse"
	"fairtape/reply"
	"fairtape/validate"
)

// State says who has to act on a job.
type State string

// The states of a job, as the JSON of "jobs" names them.
const (
	WaitingUs       State = "waiting-us"
	WaitingCustomer State = "waiting-customer"
	HeldJob         State = "held"
	Ready           State = "ready"
	Closed          State = "closed"
	SetAside        State = "set-aside" // its mail could not be worked off
)

// Job is a boat of a customer, from the first mail until it is settled.
type Job struct {
	Account      string
	ID           int
	Customer     string // address, lower case
	CustomerName string
	Boat         string
	Language     string // "en", "fr"
	State        State
	Reason       string // why it is held or set aside
	Perhaps      int    // the job that it may belong to, 0 for none
	Question     string // what the customer asked and nobody has answered

	// Of the customer's last message, for the letter that answers it.
	Subject    string
	MailID     string
	References []string

	Rounds  int           // letters sent that asked for something
	Summary reply.Summary // the job at a glance for chat; pictures are made when they are shown
	Channel string        // the chat thread, "" before the first post
	Thread  string

	Tracings  Tracings
	WantsForm bool
	Answer    string    // a person's answer to the customer's question, for the letter
	UnderTape string    // what lay under the tape, as the customer said it
	Own       []Own     // odd numbers that are the boat's own
	Others    []string  // further addresses of the customer, lower case
	Joined    int       // the job that this one went into, 0 for none
	Until     time.Time // when a held letter comes back, zero for never

	Created, Updated time.Time
}

const jobColumns = `account, id, customer, customer_name, boat, language, state, reason, perhaps, question,
	subject, message_id, refs, rounds, summary, channel, thread, created, updated,
	tracings, form, answer, under_tape, own, others, joined, until`

func scanJob(row interface{ Scan(...any) error }) (Job, error) {
	var j Job
	var refs, summary, tracings, own, others string
	var created, updated, until int64
	err := row.Scan(&j.Account, &j.ID, &j.Customer, &j.CustomerName, &j.Boat, &j.Language, &j.State, &j.Reason, &j.Perhaps, &j.Question,
		&j.Subject, &j.MailID, &refs, &j.Rounds, &summary, &j.Channel, &j.Thread, &created, &updated,
		&tracings, &j.WantsForm, &j.Answer, &j.UnderTape, &own, &others, &j.Joined, &until)
	if err != nil {
		return j, none(err)
	}
	j.References, j.Others = strings.Fields(refs), strings.Fields(others)
	j.Created, j.Updated, j.Until = moment(created), moment(updated), moment(until)
	return j, errors.Join(
		json.Unmarshal([]byte(summary), &j.Summary),
		json.Unmarshal([]byte(tracings), &j.Tracings),
		json.Unmarshal([]byte(own), &j.Own))
}

// Job returns one job, or ErrNone.
func (t *Tx) Job(account string, id int) (Job, error) {
	return scanJob(t.tx.QueryRowContext(t.ctx, `SELECT `+jobColumns+` FROM jobs WHERE account = ? AND id = ?`, account, id))
}

// Jobs returns an account's jobs, oldest first.
func (t *Tx) Jobs(account string) ([]Job, error) {
	return t.jobs(`WHERE account = ? ORDER BY id`, account)
}

// JobsOf returns a customer's jobs, newest first.
func (t *Tx) JobsOf(account, address string) ([]Job, error) {
	return t.jobs(`WHERE account = ?1 AND (customer = ?2 OR instr(' ' || others || ' ', ' ' || ?2 || ' ') > 0)
		ORDER BY id DESC`, account, strings.ToLower(address))
}

// JobOfThread returns the job that is talked about in a thread of the chat, or
// ErrNone.
func (t *Tx) JobOfThread(account, channel, thread string) (Job, error) {
	return scanJob(t.tx.QueryRowContext(t.ctx, `SELECT `+jobColumns+` FROM jobs
		WHERE account = ? AND channel = ? AND thread = ? AND thread <> ''`, account, channel, thread))
}

func (t *Tx) jobs(where string, args ...any) ([]Job, error) {
	return collect(t, func(row *sql.Rows) (Job, error) { return scanJob(row) }, `SELECT `+jobColumns+` FROM jobs `+where, args...)
}

// JobOfMails returns the job that any of these Message-IDs belongs to: a
// customer's message or a letter of ours. The error is ErrNone when there is
// none.
func (t *Tx) JobOfMails(account string, ids []string) (Job, error) {
	for _, id := range ids {
		if id == "" {
			continue
		}
		j, err := scanJob(t.tx.QueryRowContext(t.ctx, `SELECT `+jobColumns+` FROM jobs WHERE account = ?1 AND id IN (
			SELECT job FROM drafts WHERE account = ?1 AND (message_id = ?2 OR outgoing_id = ?2)
			UNION SELECT job FROM messages WHERE account = ?1 AND message_id = ?2 AND job <> 0)`, account, id))
		if !errors.Is(err, ErrNone) {
			return j, err
		}
	}
	return Job{}, ErrNone
}

// AddJob opens a job and returns it with its number.
func (t *Tx) AddJob(j Job) (Job, error) {
	first, err := t.number(firstJobMark)
	if err == nil {
		err = t.tx.QueryRowContext(t.ctx, `SELECT MAX(COALESCE(MAX(id), 0) + 1, ?) FROM jobs WHERE account = ?`, first, j.Account).Scan(&j.ID)
	}
	if err != nil {
		return j, fmt.Errorf("number a job: %w", err)
	}
	j.Created = t.now
	return j, t.SaveJob(j)
}

// SaveJob records a job as it is now.
func (t *Tx) SaveJob(j Job) error {
	j.Customer = strings.ToLower(j.Customer)
	summary, err1 := json.Marshal(j.Summary)
	tracings, err2 := json.Marshal(j.Tracings)
	own, err3 := json.Marshal(j.Own)
	if err := errors.Join(err1, err2, err3); err != nil {
		return fmt.Errorf("record job: %w", err)
	}
	return t.exec("job", `INSERT INTO jobs (`+jobColumns+`) VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)
		ON CONFLICT DO UPDATE SET customer = excluded.customer, customer_name = excluded.customer_name, boat = excluded.boat,
		language = excluded.language, state = excluded.state, reason = excluded.reason, perhaps = excluded.perhaps,
		question = excluded.question, subject = excluded.subject, message_id = excluded.message_id, refs = excluded.refs,
		rounds = excluded.rounds, summary = excluded.summary, channel = excluded.channel, thread = excluded.thread, updated = excluded.updated,
		tracings = excluded.tracings, form = excluded.form, answer = excluded.answer, under_tape = excluded.under_tape,
		own = excluded.own, others = excluded.others, joined = excluded.joined, until = excluded.until`,
		j.Account, j.ID, j.Customer, j.CustomerName, j.Boat, j.Language, j.State, j.Reason, j.Perhaps, j.Question,
		j.Subject, j.MailID, strings.Join(j.References, " "), j.Rounds, string(summary), j.Channel, j.Thread, millis(j.Created), millis(t.now),
		string(tracings), j.WantsForm, j.Answer, j.UnderTape, string(own), strings.Join(j.Others, " "), j.Joined, millis(j.Until))
}

// Version is one state of a job's survey.
type Version struct {
	Version  int
	Cause    string // what made it: "message 17", "correction by Ann"
	Survey   parse.Survey
	Problems []parse.Problem
	Verdict  validate.Verdict
	Created  time.Time
}

// AddSurvey records a new state of a job's survey.
func (t *Tx) AddSurvey(account string, job int, v Version) error {
	survey, err := json.Marshal(v.Survey)
	if err != nil {
		return fmt.Errorf("record survey: %w", err)
	}
	problems, err := json.Marshal(v.Problems)
	if err != nil {
		return fmt.Errorf("record survey: %w", err)
	}
	return t.exec("survey", `INSERT INTO surveys (account, job, version, cause, survey, problems, verdict, created)
		VALUES (?1, ?2, (SELECT COALESCE(MAX(version), 0) + 1 FROM surveys WHERE account = ?1 AND job = ?2), ?3, ?4, ?5, ?6, ?7)`,
		account, job, v.Cause, string(survey), string(problems), v.Verdict, millis(t.now))
}

// Surveys returns every state that a job's survey was in, oldest first.
func (t *Tx) Surveys(account string, job int) ([]Version, error) {
	return collect(t, func(row *sql.Rows) (Version, error) {
		var v Version
		var survey, problems string
		var created int64
		if err := row.Scan(&v.Version, &v.Cause, &survey, &problems, &v.Verdict, &created); err != nil {
			return v, err
		}
		v.Created = moment(created)
		if err := json.Unmarshal([]byte(survey), &v.Survey); err != nil {
			return v, err
		}
		return v, json.Unmarshal([]byte(problems), &v.Problems)
	}, `SELECT version, cause, survey, problems, verdict, created FROM surveys WHERE account = ? AND job = ? ORDER BY version`, account, job)
}

// Survey returns the state that a job's survey is in, or ErrNone.
func (t *Tx) Survey(account string, job int) (Version, error) {
	all, err := t.Surveys(account, job)
	if err != nil {
		return Version{}, err
	}
	if len(all) == 0 {
		return Version{}, ErrNone
	}
	return all[len(all)-1], nil
}
