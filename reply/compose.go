package reply

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
)

// ErrNoLetter says that a plan leads to no letter: the shop telephones, or
// there is nothing to say.
var ErrNoLetter = errors.New("no letter is to be written")

// Compose writes the letter that the plan asks for. The text and the HTML part
// are set from the same blocks, so that they say the same. Errors: ErrNoLetter
// when the plan's action is not Write; any other comes from a text of the
// shop's own.
func (t *Texts) Compose(plan Plan, job Job) (Draft, error) {
	if plan.Action != Write {
		return Draft{}, ErrNoLetter
	}
	w := newWriter(t, plan, job)
	w.letter()
	if w.err != nil {
		return Draft{}, fmt.Errorf("composing letter %s: %w", job.ID, w.err)
	}
	draft := Draft{
		ID:         job.ID,
		MessageID:  job.MessageID,
		From:       job.Shop.From,
		To:         job.Customer,
		Subject:    w.subject(),
		InReplyTo:  job.Answers.ID,
		References: references(job),
		Language:   w.lang.code,
		Date:       job.Now,
		Files:      w.files,
	}
	if job.Request.Answer == "" {
		draft.Question = Text(job.Request.Question)
	}
	if w.picture != nil {
		draft.Pictures = []Picture{*w.picture}
	}
	page := struct {
		Language, Subject string
		Blocks            []block
	}{w.lang.code, draft.Subject, w.blocks}
	var text, html bytes.Buffer
	if err := t.text.Execute(&text, page); err != nil {
		return Draft{}, fmt.Errorf("composing letter %s: %w", job.ID, err)
	}
	if err := t.html.Execute(&html, page); err != nil {
		return Draft{}, fmt.Errorf("composing letter %s: %w", job.ID, err)
	}
	// Spaces that held words together have done so; mail programs that show
	// plain text know no other space.
	draft.Text = strings.TrimSpace(strings.ReplaceAll(text.String(), nbsp, " ")) + "\n"
	draft.HTML = html.String()
	return draft, nil
}

var answered = regexp.MustCompile(`(?i)^(re|aw|sv|ré|rép)\s?:`)

// subject is the customer's own, so that mail programs keep the thread.
func (w *writer) subject() string {
	const most = 150 // characters; more is no subject that a person typed
	subject := cut(Line(w.job.Answers.Subject), most)
	switch {
	case subject == "":
		return w.say("subject")
	case answered.MatchString(subject):
		return subject
	}
	return "Re: " + subject
}

// references is the thread so far with the answered message at its end
// (RFC 5322 section 3.6.4).
func references(job Job) []string {
	refs := job.Answers.References
	if len(refs) == 0 && len(job.Answers.InReplyTo) == 1 {
		refs = job.Answers.InReplyTo
	}
	if job.Answers.ID == "" {
		return refs
	}
	return append(refs[:len(refs):len(refs)], job.Answers.ID)
}
