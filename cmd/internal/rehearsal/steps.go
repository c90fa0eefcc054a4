package rehearsal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	ingesteml "fairtape/ingest/eml"
	"fairtape/reply"
	"fairtape/reply/chat/chattest"
)

// Step is one turn of the conversation.
type Step struct {
	Name string
	// Do is what a person does. It is done again when it failed, or when
	// nothing came of it for a while: then they press once more.
	Do func(context.Context) error
	// Done reports that it has had its effect.
	Done func(context.Context) bool
	// once: a mail is written and the calendar moves one time only.
	once bool
}

const (
	patience = 3 * time.Minute        // for one step, on a machine that has other work
	again    = 5 * time.Second        // after which a person tries once more
	glance   = 100 * time.Millisecond // between two looks
)

// Play plays steps. Each is told to began, which may be nil, as it begins.
func (f *Floor) Play(ctx context.Context, steps []Step, began func(step int)) error {
	for n, s := range steps {
		if began != nil {
			began(n)
		}
		err := f.play(ctx, s)
		if err == nil {
			err = f.look(ctx)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", s.Name, err)
		}
	}
	return nil
}

// Asked is how often the shop was asked whether a letter left that had not.
func (f *Floor) Asked() int { return f.more }

// look does what a person does who is asked whether a letter left: they look at
// the mail server. They file a copy of what did leave, and have written anew
// what did not.
func (f *Floor) look(ctx context.Context) error {
	d, err := f.draft(ctx)
	if err != nil || d.State != ledger.DraftUnsure {
		return err
	}
	for _, l := range f.Server.Letters() {
		if m, err := ingesteml.Parse(l.Raw); err != nil || m.ID != d.OutgoingID {
			continue
		}
		return f.play(ctx, Step{
			Name: "a copy is filed", once: true,
			Do: func(context.Context) error {
				_, err := f.Box.Append("Sent", l.Raw, time.Now())
				return err
			},
			Done: func(ctx context.Context) bool {
				now, err := f.draft(ctx)
				return err == nil && now.State == ledger.DraftSent
			},
		})
	}
	f.more++
	version := d.ID.Version + 1 - f.more
	err = f.play(ctx, f.say("the letter is written anew", "reopen", f.waits(version)))
	if err == nil {
		err = f.play(ctx, f.send("the letter is sent after all", version, chattest.Ben))
	}
	if err == nil {
		err = f.look(ctx)
	}
	return err
}

func (f *Floor) play(ctx context.Context, s Step) error {
	end := time.Now().Add(patience)
	var next time.Time
	did := false
	var failure error
	for time.Now().Before(end) {
		if s.Done(ctx) && f.quiet(ctx) {
			return nil
		}
		if time.Now().After(next) && !(did && s.once) {
			if failure = s.Do(ctx); failure == nil {
				did = true
			}
			next = time.Now().Add(again)
			if failure != nil {
				next = time.Now().Add(10 * glance)
			}
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(glance):
		}
	}
	return errors.Join(errors.New("not so in time"), failure)
}

// Addresses of the invented customer and of the shop.
const (
	customer = "ann@tarn.example"
	shop     = "orders@pinfold.example"
)

// Conversation is twelve steps from the first survey until the boat is ready
// to cut. Survey is the file that the customer attaches.
func (f *Floor) Conversation(survey []byte) []Step {
	return []Step{
		f.mail("the customer sends a survey", "survey@tarn.example", surveyMail(survey), f.waits(1)),
		{Name: "a person edits the letter in chat", Do: f.edit, Done: f.waits(2)},
		f.send("the letter is sent", 2, chattest.Ann),
		f.mail("the customer corrects one number in a sentence", "prose@tarn.example", f.proseMail, f.waits(3)),
		f.send("a letter that asks for the rest is sent", 3, chattest.Ben),
		{Name: "five days pass", Do: f.daysPass, Done: f.waits(4), once: true},
		f.send("the reminder is sent", 4, chattest.Ann),
		f.mail("the customer fills the letter's list", "filled@tarn.example", f.filledMail, f.waits(5)),
		f.send("the thanks are sent", 5, chattest.Ben),
		f.word("the bow's tracing comes", "bow tracing in", func(j ledger.Job) bool { return j.Tracings.Bow.In }),
		f.word("the stern's tracing comes", "stern tracing in", func(j ledger.Job) bool { return j.Tracings.Both() }),
		{Name: "the boat is ready to cut", Do: func(context.Context) error { return nil }, Done: f.is(ledger.Ready)},
	}
}

// version reports that a letter is the one of that number, not counting those
// that had to be written once more.
func (f *Floor) version(d ledger.Draft, number int) bool { return d.ID.Version == number+f.more }

func (f *Floor) waits(letter int) func(context.Context) bool {
	return func(ctx context.Context) bool {
		d, err := f.draft(ctx)
		return err == nil && f.version(d, letter) && d.State == ledger.DraftOpen
	}
}

func (f *Floor) is(state ledger.State) func(context.Context) bool {
	return func(ctx context.Context) bool {
		j, err := f.job(ctx)
		return err == nil && j.State == state
	}
}

// mail is a mail of the customer, which is written once.
func (f *Floor) mail(name, id string, write func() (string, error), done func(context.Context) bool) Step {
	return Step{Name: name, once: true, Done: done, Do: func(context.Context) error {
		body, err := write()
		if err != nil {
			return err
		}
		answers := ""
		if last := f.Server.Letters(); len(last) > 0 {
			m, err := ingesteml.Parse(last[len(last)-1].Raw)
			if err != nil {
				return err
			}
			answers = fmt.Sprintf("In-Reply-To: <%s>\r\nReferences: <%s>\r\n", m.ID, m.ID)
		}
		raw := fmt.Sprintf("From: Ann Tarn <%s>\r\nTo: %s\r\nSubject: Our canoe\r\nDate: %s\r\nMessage-ID: <%s>\r\n%sMIME-Version: 1.0\r\n%s",
			customer, shop, time.Now().Format(time.RFC1123Z), id, answers, strings.ReplaceAll(body, "\n", "\r\n"))
		_, err = f.Box.Append("INBOX", []byte(raw), time.Now())
		return err
	}}
}

func surveyMail(survey []byte) func() (string, error) {
	return func() (string, error) {
		return "Content-Type: multipart/mixed; boundary=b\n\n--b\nContent-Type: text/plain; charset=utf-8\n\n" +
			"Hello,\n\nour survey is attached. The boat is a Heron 17.\n\nAnn Tarn\n" +
			"--b\nContent-Type: text/csv\nContent-Disposition: attachment; filename=survey.csv\n\n" + string(survey) + "--b--\n", nil
	}
}

func (f *Floor) proseMail() (string, error) {
	return "Content-Type: text/plain; charset=utf-8\n\nHi,\n\n9 ft hull girth is 70 1/2, you were right to ask. The other one I will do on Sunday.\n\nAnn\n", nil
}

// filledMail quotes the last letter with numbers typed into its blanks.
func (f *Floor) filledMail() (string, error) {
	letters := f.Server.Letters()
	if len(letters) == 0 {
		return "", errors.New("there is no letter to fill")
	}
	m, err := ingesteml.Parse(letters[len(letters)-1].Raw)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString("Content-Type: text/plain; charset=utf-8\n\nDone, see below.\n\nOn Sunday Pinfold Cover Loft <" + shop + "> wrote:\n")
	for line := range strings.Lines(strings.ReplaceAll(m.Text, "\r\n", "\n")) {
		switch {
		case strings.Contains(line, "full girth") && strings.Contains(line, "____"):
			line = strings.Replace(strings.Replace(line, "____", "109", 1), "____", "109 1/2", 1)
		case strings.Contains(line, "under the tape") && strings.Contains(line, "____"):
			line = strings.Replace(line, "____", "nothing", 1)
		}
		b.WriteString("> " + line)
	}
	return b.String(), nil
}

// post is the first post of the job's thread.
func (f *Floor) post() (chattest.Message, error) {
	for _, m := range f.Chat.Messages() {
		if m.ThreadTS == "" || m.ThreadTS == m.TS {
			return m, nil
		}
	}
	return chattest.Message{}, errors.New("there is no post yet")
}

func (f *Floor) edit(ctx context.Context) error {
	if d, err := f.draft(ctx); err != nil || !f.version(d, 1) {
		return err // it is edited, and on its way
	}
	post, err := f.post()
	if err != nil {
		return err
	}
	if _, err := f.Chat.Press(chattest.Ann, post.TS, "edit"); err != nil {
		return err
	}
	modal, err := f.Chat.Modal(chattest.Ann, again)
	if err != nil {
		return err
	}
	typed := map[string]string{}
	for block, text := range modal.Shown() {
		typed[block] = strings.Replace(text, "Thank you", "Thank you, Ann,", 1)
	}
	wrong, err := f.Chat.Submit(modal, typed)
	if len(wrong) > 0 {
		err = errors.Join(err, fmt.Errorf("the modal refuses: %v", wrong))
	}
	return err
}

// send presses Send on the letter that waits.
func (f *Floor) send(name string, letter int, who string) Step {
	return Step{
		Name: name,
		Do: func(context.Context) error {
			post, err := f.post()
			if err != nil {
				return err
			}
			id := reply.DraftID{Job: 1, Version: letter + f.more}.String()
			for _, b := range post.Buttons() {
				if b.ActionID == "send" && b.Value == id {
					_, err := f.Chat.Press(who, post.TS, "send")
					return err
				}
			}
			return fmt.Errorf("the post has no button for letter %s", id)
		},
		Done: func(ctx context.Context) bool {
			d, err := f.draft(ctx)
			return err == nil && f.version(d, letter) && (d.State == ledger.DraftSent || d.State == ledger.DraftUnsure)
		},
	}
}

// word says something in the job's thread that changes the job.
func (f *Floor) word(name, words string, so func(ledger.Job) bool) Step {
	return f.say(name, words, func(ctx context.Context) bool {
		j, err := f.job(ctx)
		return err == nil && so(j)
	})
}

// say says something in the job's thread.
func (f *Floor) say(name, words string, done func(context.Context) bool) Step {
	return Step{
		Name: name, once: true, Done: done,
		Do: func(context.Context) error {
			post, err := f.post()
			if err == nil {
				_, err = f.Chat.Say(chattest.Ben, post.TS, words)
			}
			if errors.Is(err, chattest.ErrNoAck) {
				return nil // it stands in the thread; the service asks for what it missed
			}
			return err
		},
	}
}

// daysPass lets the last letter grow old. The service is started anew, so that
// it looks at the clock at once.
func (f *Floor) daysPass(ctx context.Context) error {
	const days = 6
	if err := f.age(ctx, days); err != nil {
		return err
	}
	return f.Restart()
}

// Survey reads the customer's survey from a folder.
func Survey(folder string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, "survey.csv")) }
