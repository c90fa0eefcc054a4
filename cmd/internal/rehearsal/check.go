package rehearsal

import (
	"context"
	"fmt"
	"slices"

	"github.com/emersion/go-imap/v2"

	"fairtape/cmd/internal/ledger"
	ingesteml "fairtape/ingest/eml"
	"fairtape/reply/chat/chattest"
)

// Check lists what must never be, whatever happened on the way: a letter or a
// post twice, a letter that nobody decided about, a mail without an end.
func (f *Floor) Check(ctx context.Context) (wrong []string, err error) {
	say := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	sent := map[string]int{}
	for _, l := range f.Server.Letters() {
		m, err := ingesteml.Parse(l.Raw)
		if err != nil {
			return nil, err
		}
		sent[m.ID]++
	}
	for id, n := range sent {
		if n > 1 {
			say("a letter went out %d times: %s", n, id)
		}
	}
	posts := map[string]int{}
	threads := 0
	for _, m := range f.Chat.Messages() {
		if m.User != chattest.BotUser && m.BotID == "" {
			continue
		}
		if m.ThreadTS == "" || m.ThreadTS == m.TS {
			threads++
		}
		text := m.Text
		for _, file := range m.Files {
			text += " " + file.Name
		}
		posts[text]++
	}
	if threads > 1 {
		say("the job has %d threads", threads)
	}
	for text, n := range posts {
		if n > 1 {
			say("said %d times: %.80q", n, text)
		}
	}
	inbox, err := f.Box.Messages("INBOX")
	if err != nil {
		return nil, err
	}
	for _, m := range inbox {
		if slices.Contains(m.Flags, imap.FlagSeen) {
			say("mail %d is marked as seen", m.UID)
		}
	}
	err = f.View(ctx, func(tx *ledger.Tx) error {
		messages, err := tx.MessagesOf(Account, 1)
		for _, m := range messages {
			if m.End == ledger.New {
				say("mail %d has no end", m.At.UID)
			}
		}
		if len(messages) != len(inbox) {
			say("%d mails in the inbox, %d in the job", len(inbox), len(messages))
		}
		if err != nil {
			return err
		}
		decisions, err := tx.DecisionsOf(Account, 1)
		drafts, err2 := tx.Drafts(Account, 1)
		if err2 != nil {
			return err2
		}
		for _, d := range drafts {
			decided := slices.ContainsFunc(decisions, func(c ledger.Decision) bool { return c.Draft == d.ID && c.Choice == ledger.ChooseSend })
			if sent[d.OutgoingID] > 0 && !decided {
				say("letter %s went out, and nobody had decided so", d.ID)
			}
		}
		return err
	})
	return wrong, err
}
