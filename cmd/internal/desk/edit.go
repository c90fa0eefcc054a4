package desk

import (
	"errors"
	"fmt"
	"html"
	"strings"

	"fairtape/cmd/internal/ledger"
	ingesteml "fairtape/ingest/eml"
	"fairtape/reply"
	"fairtape/reply/eml"
)

// heedEdit puts a letter with a person's words in the place of the old one.
// What stands in the way of the old one stands in the way of the new.
func (d *Desk) heedEdit(tx *ledger.Tx, c ledger.Decision, old ledger.Draft) (string, error) {
	if strings.TrimSpace(c.Words) == "" {
		return "an empty letter is none: nothing was changed", nil
	}
	id, err := tx.NextDraft(d.Account, old.ID.Job)
	if err != nil {
		return "", err
	}
	raw, mailID, err := d.rewrite(old, id, c.Words)
	if err != nil {
		return "", err
	}
	job, err := tx.Job(d.Account, old.ID.Job)
	if err != nil {
		return "", err
	}
	job.Summary.Draft, job.Summary.Letter = id.String(), c.Words
	job.Summary.State = "edited by " + c.Person + ", waits for you"
	if err := d.replace(tx, old, "edited by "+c.Person); err != nil {
		return "", err
	}
	fresh := old
	fresh.ID, fresh.MailID, fresh.MIME, fresh.Letter, fresh.Edited = id, mailID, raw, c.Words, c.Person
	return "edited: letter " + id.String(), errors.Join(
		tx.AddDraft(fresh),
		tx.SaveJob(job),
		tx.Plan(ledger.Intent{Account: d.Account, Draft: id, Act: ledger.FileDraft}),
		d.planShow(tx, job.ID))
}

// rewrite returns the mail of a letter with other words, and its Message-ID.
func (d *Desk) rewrite(old ledger.Draft, id reply.DraftID, words string) (raw []byte, mailID string, err error) {
	m, err := ingesteml.Parse(old.MIME)
	if err != nil {
		return nil, "", fmt.Errorf("read letter %s back: %w", old.ID, err)
	}
	letter := eml.Read(m)
	letter.ID, letter.MessageID, letter.Date = id, d.NewID(), d.local()
	letter.Text, letter.HTML = words, wordsAsHTML(words, letter.Pictures)
	raw, err = eml.Marshal(letter)
	return raw, letter.MessageID, err
}

// wordsAsHTML sets a person's words as they typed them, with the pictures of
// the letter below.
func wordsAsHTML(words string, pictures []reply.Picture) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<div style="font-size:16px;white-space:pre-wrap">%s</div>`, html.EscapeString(words))
	for _, p := range pictures {
		fmt.Fprintf(&b, `<p><img src="cid:%s" alt="%s"></p>`, html.EscapeString(p.ContentID), html.EscapeString(p.Alt))
	}
	return b.String()
}
