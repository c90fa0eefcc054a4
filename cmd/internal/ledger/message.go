package ledger

import (
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"

	"fairtape/ingest"
)

// End says where a message ended.
type End string

// The ends. Every message reaches exactly one of the last three.
const (
	New      End = "new"      // not worked off yet
	Answered End = "answered" // a letter was drafted for it, or the post in chat is the answer
	Held     End = "held"     // a person has to look at it
	Ignored  End = "ignored"  // it wants nothing from the shop
)

// Message is a message that was seen, with the raw facts of it, and what came
// of it. Bodies stay in the mailbox.
type Message struct {
	ID       int64
	At       ingest.Location
	MailID   string // Message-ID, "" when the mail has none
	Hash     string // of the raw bytes
	From     ingest.Address
	Subject  string
	Received time.Time
	Size     int64

	End     End
	Reason  string
	Job     int // 0 for none
	Tries   int
	Failure string // of the last try
}

const messageColumns = `id, account, mailbox, uid_validity, uid, message_id, hash, sender, sender_name,
	subject, received, size, state, reason, job, tries, failure`

func scanMessage(row interface{ Scan(...any) error }) (Message, error) {
	var m Message
	var received int64
	err := row.Scan(&m.ID, &m.At.Account, &m.At.Mailbox, &m.At.UIDValidity, &m.At.UID, &m.MailID, &m.Hash,
		&m.From.Address, &m.From.Name, &m.Subject, &received, &m.Size, &m.End, &m.Reason, &m.Job, &m.Tries, &m.Failure)
	m.Received = moment(received)
	return m, none(err)
}

// none turns the driver's "no rows" into the ledger's own error.
func none(err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return ErrNone
	}
	return err
}

// MessageAt returns the message at a place of a mailbox, or ErrNone.
func (t *Tx) MessageAt(at ingest.Location) (Message, error) {
	return scanMessage(t.tx.QueryRowContext(t.ctx, `SELECT `+messageColumns+` FROM messages
		WHERE account = ? AND mailbox = ? AND uid_validity = ? AND uid = ?`, at.Account, at.Mailbox, at.UIDValidity, at.UID))
}

// Twins returns the other messages of the account that are the same mail by
// their Message-ID or, where there is none, by their hash, oldest first.
func (t *Tx) Twins(m Message) ([]Message, error) {
	return t.messages(`WHERE account = ?1 AND id <> ?2 AND message_id = ?3 AND (?3 <> '' OR hash = ?4 AND ?4 <> '') ORDER BY id`,
		m.At.Account, m.ID, m.MailID, m.Hash)
}

// MessagesOf returns a job's messages, oldest first.
func (t *Tx) MessagesOf(account string, job int) ([]Message, error) {
	return t.messages(`WHERE account = ? AND job = ? ORDER BY id`, account, job)
}

// Message returns one message, or ErrNone.
func (t *Tx) Message(id int64) (Message, error) {
	return scanMessage(t.tx.QueryRowContext(t.ctx, `SELECT `+messageColumns+` FROM messages WHERE id = ?`, id))
}

// Messages returns every message of a mailbox under one numbering, by number.
func (t *Tx) Messages(account, mailbox string, validity uint32) ([]Message, error) {
	return t.messages(`WHERE account = ? AND mailbox = ? AND uid_validity = ? ORDER BY uid`, account, mailbox, validity)
}

// CountMessages returns how many messages of a sender, and how many of a job,
// were seen since a moment and led to something.
func (t *Tx) CountMessages(account, sender string, job int, since time.Time) (ofSender, ofJob int, err error) {
	err = t.tx.QueryRowContext(t.ctx, `SELECT
		COALESCE(SUM(sender = ?2), 0), COALESCE(SUM(job = ?3 AND job <> 0), 0)
		FROM messages WHERE account = ?1 AND seen >= ?4 AND state IN ('answered', 'held')`,
		account, strings.ToLower(sender), job, millis(since)).Scan(&ofSender, &ofJob)
	return ofSender, ofJob, err
}

// MoveMessages gives the messages of a job to another.
func (t *Tx) MoveMessages(account string, from, to int) error {
	return t.exec("move", `UPDATE messages SET job = ? WHERE account = ? AND job = ?`, to, account, from)
}

// MoveMessage gives one message to another job.
func (t *Tx) MoveMessage(id int64, to int) error {
	return t.exec("move", `UPDATE messages SET job = ? WHERE id = ?`, to, id)
}

func (t *Tx) messages(where string, args ...any) ([]Message, error) {
	return collect(t, func(row *sql.Rows) (Message, error) { return scanMessage(row) },
		`SELECT `+messageColumns+` FROM messages `+where, args...)
}

// collect runs a query and gathers its rows.
func collect[T any](t *Tx, scan func(*sql.Rows) (T, error), query string, args ...any) (all []T, err error) {
	rows, err := t.tx.QueryContext(t.ctx, query, args...)
	if err != nil {
		return nil, fmt.Errorf("look on the ledger: %w", err)
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		v, err := scan(rows)
		if err != nil {
			return nil, fmt.Errorf("look on the ledger: %w", err)
		}
		all = append(all, v)
	}
	return all, rows.Err()
}

// exec runs a change.
func (t *Tx) exec(what, query string, args ...any) error {
	if _, err := t.tx.ExecContext(t.ctx, query, args...); err != nil {
		return fmt.Errorf("record %s: %w", what, err)
	}
	return nil
}

// AddMessage records a message that has just been seen and returns its number.
func (t *Tx) AddMessage(m Message) (int64, error) {
	if m.End == "" {
		m.End = New
	}
	r, err := t.tx.ExecContext(t.ctx, `INSERT INTO messages (account, mailbox, uid_validity, uid, message_id, hash,
		sender, sender_name, subject, received, size, state, reason, job, tries, failure, seen)
		VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)`,
		m.At.Account, m.At.Mailbox, m.At.UIDValidity, m.At.UID, m.MailID, m.Hash,
		m.From.Address, m.From.Name, m.Subject, millis(m.Received), m.Size, m.End, m.Reason, m.Job, m.Tries, m.Failure, millis(t.now))
	if err != nil {
		return 0, fmt.Errorf("record message: %w", err)
	}
	return r.LastInsertId()
}

// DescribeMessage records what is known of a message once it has been read.
func (t *Tx) DescribeMessage(m Message) error {
	return t.exec("message", `UPDATE messages SET message_id = ?, hash = ?, sender = ?, sender_name = ?, subject = ? WHERE id = ?`,
		m.MailID, m.Hash, m.From.Address, m.From.Name, m.Subject, m.ID)
}

// TryMessage counts a try, before it is made.
func (t *Tx) TryMessage(id int64) error {
	return t.exec("try", `UPDATE messages SET tries = tries + 1 WHERE id = ?`, id)
}

// UntryMessage takes a counted try back: it failed through no fault of the mail.
func (t *Tx) UntryMessage(id int64) error {
	return t.exec("try", `UPDATE messages SET tries = tries - 1 WHERE id = ?`, id)
}

// FailMessage records why a try failed.
func (t *Tx) FailMessage(id int64, failure string) error {
	return t.exec("failure", `UPDATE messages SET failure = ? WHERE id = ?`, failure, id)
}

// EndMessage records where a message ended. A message that has ended may only
// change its end from Held, when a person decides.
func (t *Tx) EndMessage(id int64, end End, reason string, job int) error {
	r, err := t.tx.ExecContext(t.ctx, `UPDATE messages SET state = ?, reason = ?, job = ?
		WHERE id = ? AND state IN ('new', 'held')`, end, reason, job, id)
	if err != nil {
		return fmt.Errorf("record a message's end: %w", err)
	}
	n, err := r.RowsAffected()
	if err == nil && n != 1 {
		err = fmt.Errorf("record a message's end: message %d had ended before", id)
	}
	return err
}

// Cursor returns how far a mailbox has been read; the zero position when it
// never was.
func (t *Tx) Cursor(account, mailbox string) (ingest.Cursor, error) {
	c := ingest.Cursor{Account: account, Mailbox: mailbox}
	err := t.tx.QueryRowContext(t.ctx, `SELECT uid_validity, last_uid FROM cursors WHERE account = ? AND mailbox = ?`,
		account, mailbox).Scan(&c.UIDValidity, &c.LastUID)
	if errors.Is(none(err), ErrNone) {
		return c, nil
	}
	return c, err
}

// SetCursor records how far a mailbox has been read.
func (t *Tx) SetCursor(c ingest.Cursor) error {
	return t.exec("cursor", `INSERT INTO cursors (account, mailbox, uid_validity, last_uid) VALUES (?,?,?,?)
		ON CONFLICT DO UPDATE SET uid_validity = excluded.uid_validity, last_uid = excluded.last_uid`,
		c.Account, c.Mailbox, c.UIDValidity, c.LastUID)
}
