package rehearsal

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	ingesteml "fairtape/ingest/eml"
	"fairtape/reply/chat/chattest"
)

// Audit is what came of many mails.
type Audit struct {
	Ends    map[ledger.End]int
	Jobs    int
	Letters map[ledger.DraftState]int
	Left    int      // acts that wait for another try
	Wrong   []string // what must never be
}

// String sums it up in one line.
func (a Audit) String() string {
	return fmt.Sprintf("%d answered, %d held, %d ignored, %d without an end; %d jobs, %d letters sent, %d not known to have left, %d open; %d acts wait",
		a.Ends[ledger.Answered], a.Ends[ledger.Held], a.Ends[ledger.Ignored], a.Ends[ledger.New],
		a.Jobs, a.Letters[ledger.DraftSent], a.Letters[ledger.DraftUnsure], a.Letters[ledger.DraftOpen], a.Left)
}

// Unfinished counts the mails out of so many that have no end yet, and the acts
// that wait.
func (f *Floor) Unfinished(ctx context.Context, mails int) (left int, err error) {
	ended, err := f.Ended(ctx)
	err2 := f.View(ctx, func(tx *ledger.Tx) error {
		waiting, err := tx.Waiting(Account)
		left = max(0, mails-ended) + len(waiting)
		return err
	})
	return left, errors.Join(err, err2)
}

// Ended counts the mails that have an end.
func (f *Floor) Ended(ctx context.Context) (ended int, err error) {
	err = f.View(ctx, func(tx *ledger.Tx) error {
		counts, err := tx.Counts()
		ended = counts.Messages[string(ledger.Answered)] + counts.Messages[string(ledger.Held)] + counts.Messages[string(ledger.Ignored)]
		return err
	})
	return ended, err
}

// Watched reports that the inbox has been read once to its end.
func (f *Floor) Watched(ctx context.Context) (watched bool) {
	err := f.View(ctx, func(tx *ledger.Tx) error {
		cursor, err := tx.Cursor(Account, "INBOX")
		watched = cursor.UIDValidity != 0
		return err
	})
	return err == nil && watched
}

// InOrder reports that the mails of the inbox were worked off oldest first.
func (f *Floor) InOrder(ctx context.Context) (ordered bool, err error) {
	err = f.View(ctx, func(tx *ledger.Tx) error {
		known, err := messages(tx) // by their number in the mailbox
		ordered = slices.IsSortedFunc(known, func(a, b ledger.Message) int { return cmp.Compare(a.ID, b.ID) })
		return err
	})
	return ordered, err
}

// since is the setting of that name, as the service has it when nothing is
// said: older mail is left alone at the first start.
const since = 72 * time.Hour

// Audit looks at any number of mails and jobs as Check does at one: every mail
// of the inbox ended once, no letter went out twice or unasked, no job has two
// threads.
func (f *Floor) Audit(ctx context.Context) (a Audit, err error) {
	a = Audit{Ends: map[ledger.End]int{}, Letters: map[ledger.DraftState]int{}}
	say := func(format string, args ...any) { a.Wrong = append(a.Wrong, fmt.Sprintf(format, args...)) }
	sent := map[string]int{} // letters by Message-ID
	for _, l := range f.Server.Letters() {
		m, err := ingesteml.Parse(l.Raw)
		if err != nil {
			return a, err
		}
		if sent[m.ID]++; sent[m.ID] == 2 {
			say("a letter went out twice: %s", m.ID)
		}
	}
	threads := map[string]int{} // by their first line
	for _, m := range f.Chat.Messages() {
		if (m.User == chattest.BotUser || m.BotID != "") && (m.ThreadTS == "" || m.ThreadTS == m.TS) {
			first, _, _ := strings.Cut(m.Text, "\n")
			name, _, isJob := strings.Cut(first, ":")
			if threads[name]++; isJob && strings.HasPrefix(name, "Job ") && threads[name] == 2 {
				say("%s has two threads", name)
			}
		}
	}
	inbox, err := f.Box.Messages("INBOX")
	if err != nil {
		return a, err
	}
	return a, f.View(ctx, func(tx *ledger.Tx) error {
		known, err := messages(tx)
		if err != nil {
			return err
		}
		for _, m := range inbox {
			if time.Since(m.Received) > since {
				continue
			}
			if !slices.ContainsFunc(known, func(k ledger.Message) bool { return k.At.UID == m.UID }) {
				say("mail %d is not on the ledger", m.UID)
			}
		}
		for _, m := range known {
			if a.Ends[m.End]++; m.End == ledger.New {
				say("mail %d has no end", m.At.UID)
			}
			if m.Job == 0 && (m.End == ledger.Answered || m.End == ledger.Held) {
				say("mail %d is %s, and no job holds it", m.At.UID, m.End)
			}
		}
		waiting, err := tx.Waiting(Account)
		a.Left = len(waiting)
		jobs, err2 := tx.Jobs(Account)
		if err := errors.Join(err, err2); err != nil {
			return err
		}
		a.Jobs = len(jobs)
		for _, j := range jobs {
			if threads[fmt.Sprintf("Job %d", j.ID)] == 0 && !slices.ContainsFunc(waiting, func(i ledger.Intent) bool { return i.Draft.Job == j.ID }) {
				say("job %d stands nowhere in chat, and is not about to", j.ID)
			}
			if err := f.auditLetters(tx, j.ID, sent, &a); err != nil {
				return err
			}
		}
		return nil
	})
}

// messages are the mails of the inbox that the ledger knows.
func messages(tx *ledger.Tx) ([]ledger.Message, error) {
	cursor, err := tx.Cursor(Account, "INBOX")
	if err != nil {
		return nil, err
	}
	return tx.Messages(Account, "INBOX", cursor.UIDValidity)
}

// auditLetters looks at the letters of one job.
func (f *Floor) auditLetters(tx *ledger.Tx, job int, sent map[string]int, a *Audit) error {
	drafts, err := tx.Drafts(Account, job)
	decisions, err2 := tx.DecisionsOf(Account, job)
	for _, d := range drafts {
		a.Letters[d.State]++
		decided := slices.ContainsFunc(decisions, func(c ledger.Decision) bool { return c.Draft == d.ID && c.Choice == ledger.ChooseSend })
		id := d.OutgoingID
		if id == "" {
			id = d.MailID
		}
		if sent[id] > 0 && !decided {
			a.Wrong = append(a.Wrong, fmt.Sprintf("letter %s went out, and nobody had decided so", d.ID))
		}
		if d.State == ledger.DraftSent && sent[id] == 0 {
			a.Wrong = append(a.Wrong, fmt.Sprintf("letter %s counts as sent, and never left", d.ID))
		}
	}
	return errors.Join(err, err2)
}

// FreeAddress returns an address of this machine on which nobody listens now.
func FreeAddress() (string, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", err
	}
	defer l.Close() //nolint:errcheck // it is closed on purpose
	return l.Addr().String(), nil
}
