package desk

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest"
	"fairtape/ingest/eml"
	"fairtape/ingest/mailbox"
	"fairtape/ingest/origin"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/smtp"
	"fairtape/validate"
	"fairtape/validate/known"
)

const (
	account = "orders@mail.example"
	shopBox = "orders@pinfold.example"
	ann     = "ann@tarn.example"
	staff   = "dee@pinfold-home.example"
)

// world is everything outside the desk. It outlives a desk that is killed.
type world struct {
	t      testing.TB
	path   string
	ledger *ledger.Ledger
	texts  *reply.Texts
	now    time.Time
	zone   *time.Location // of the shop
	ids    int

	drafts  []stored
	sent    []stored
	inbox   []stored
	uid     uint32
	threads map[int][]string // what each job's thread shows, the glance first
	said    map[string]string
	server  func(to []string, raw []byte) []smtp.Result
	letters [][]byte // that the mail server took

	surveys  map[string]opener.Mail // what a mail says, by its subject
	down     error                  // of the mail server
	deaf     error                  // of the chat
	distrust string                 // address whose mails fail authentication
	crash    func(string)
	papers   Papers
	reader   Reader  // nil: what was agreed for the subject
	folders  Folders // nil: the world's own
}

// loadTexts checks the texts once for all tests.
var loadTexts = sync.OnceValues(func() (*reply.Texts, error) { return reply.LoadTexts(nil) })

type stored struct {
	at  ingest.Location
	raw []byte
}

func newWorld(t testing.TB) *world {
	t.Helper()
	w := &world{t: t, path: filepath.Join(t.TempDir(), "fairtape.db"), now: time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC), zone: time.UTC,
		threads: map[int][]string{}, said: map[string]string{}, surveys: map[string]opener.Mail{}}
	var err error
	if w.texts, err = loadTexts(); err != nil {
		t.Fatal(err)
	}
	w.server = func(to []string, raw []byte) []smtp.Result { return w.takes(to, raw) }
	w.open()
	t.Cleanup(func() { w.close() })
	return w
}

func (w *world) open() {
	l, err := ledger.Open(w.t.Context(), w.path, func() time.Time { return w.now })
	if err != nil {
		w.t.Fatal(err)
	}
	w.ledger = l
}

func (w *world) close() {
	if err := w.ledger.Close(); err != nil {
		w.t.Error(err)
	}
}

// desk returns a desk in this world, as after a start of the service.
func (w *world) desk() *Desk {
	folders := w.folders
	if folders == nil {
		folders = w
	}
	return New(Config{
		Account: account, Own: []string{shopBox},
		Shop:     reply.Shop{Name: "Pinfold Cover Loft", From: ingest.Address{Name: "Pinfold Cover Loft", Address: shopBox}},
		Language: "en", Timezone: w.zone, AnswerDays: 7, Costs: validate.Costs{Ask: 1, Miss: 30},
		Ledger: w.ledger, Reader: w, Senders: w, Texts: w.texts, Folders: folders, Chat: w, Sender: w,
		Poll: time.Minute, Now: func() time.Time { return w.now },
		NewID: func() string { w.ids++; return fmt.Sprintf("letter-%d@pinfold.example", w.ids) },
		Crash: w.crash, Papers: w.papers, Staff: []string{staff},
		Schedule: Schedule{ReminderDays: 5, Reminders: 2, DigestAt: 8 * time.Hour},
	})
}

// Read says what was agreed for a mail of this subject.
func (w *world) Read(ctx context.Context, msg ingest.Message, name string) (opener.Mail, error) {
	if w.reader != nil {
		return w.reader.Read(ctx, msg, name)
	}
	m, ok := w.surveys[msg.Subject]
	if !ok {
		return opener.Mail{}, nil
	}
	if len(m.Files) > 0 && m.Files[0].File == "poison" {
		panic("a reader lost its head")
	}
	return m, nil
}

// Check distrusts one address.
func (w *world) Check(_ context.Context, msg ingest.Message, _ []byte) (origin.Trust, string) {
	if w.distrust != "" && msg.From.Address == w.distrust {
		return origin.Fail, "The sender's address is not genuine."
	}
	return origin.Unknown, ""
}

func (w *world) place(folder string) ingest.Location {
	w.uid++
	return ingest.Location{Account: account, Mailbox: folder, UIDValidity: 1, UID: w.uid}
}

func (w *world) filed(list []stored) []mailbox.Filed {
	var all []mailbox.Filed
	for _, s := range list {
		m, err := eml.Parse(s.raw)
		if err != nil {
			w.t.Fatal(err)
		}
		f := mailbox.Filed{Location: s.at, MessageID: m.ID, InReplyTo: m.InReplyTo, References: m.References, Subject: m.Subject}
		for _, to := range m.To {
			f.To = append(f.To, strings.ToLower(to.Address))
		}
		if v := m.Header["X-Fairtape-Draft"]; len(v) > 0 {
			f.Draft = v[0]
		}
		all = append(all, f)
	}
	return all
}

func (w *world) FileDraft(_ context.Context, raw []byte, id string) (ingest.Location, error) {
	for i, f := range w.filed(w.drafts) {
		if f.MessageID == id {
			return w.drafts[i].at, nil
		}
	}
	at := w.place("Drafts")
	w.drafts = append(w.drafts, stored{at, raw})
	return at, nil
}

func (w *world) Drafts(context.Context) ([]mailbox.Filed, error) {
	return w.filed(w.drafts), w.down
}

func (w *world) DeleteDraft(_ context.Context, at ingest.Location) error {
	w.drafts = slices.DeleteFunc(w.drafts, func(s stored) bool { return s.at == at })
	return nil
}

func (w *world) FileSent(_ context.Context, raw []byte, id string) (ingest.Location, bool, error) {
	for i, f := range w.filed(w.sent) {
		if f.MessageID == id {
			return w.sent[i].at, true, nil
		}
	}
	at := w.place("Sent")
	w.sent = append(w.sent, stored{at, raw})
	return at, false, nil
}

func (w *world) FindSent(_ context.Context, want mailbox.Wanted) ([]mailbox.Filed, error) {
	return slices.DeleteFunc(w.filed(w.sent), func(f mailbox.Filed) bool { return f.Match(want) == mailbox.NoMatch }), nil
}

func (w *world) Fetch(_ context.Context, at ingest.Location) ([]byte, error) {
	for _, s := range slices.Concat(w.drafts, w.sent, w.inbox) {
		if s.at == at {
			return s.raw, nil
		}
	}
	return nil, mailbox.ErrGone
}

// Show keeps one thread a job: it is an error to begin a second one.
func (w *world) Show(_ context.Context, s reply.Summary, at chat.Thread, unsure bool) (chat.Thread, error) {
	if w.deaf != nil {
		return chat.Thread{}, w.deaf
	}
	_, begun := w.threads[s.Job]
	if at.TS == "" && begun && !unsure {
		w.t.Errorf("job %d: a second thread is begun", s.Job)
	}
	w.threads[s.Job] = []string{chat.Plain(s)}
	return chat.Thread{Channel: "C1", TS: fmt.Sprint("ts-", s.Job)}, nil
}

// Say keeps what was said under its key: the same key twice is an error unless
// it was looked for.
func (w *world) Say(_ context.Context, at chat.Thread, key, text string, unsure bool) (chat.Thread, error) {
	if w.deaf != nil {
		return chat.Thread{}, w.deaf
	}
	if _, ok := w.said[key]; ok && !unsure {
		w.t.Errorf("said twice: %s", text)
	}
	w.said[key] = text
	return at, nil
}

// Hand keeps files as what was said, under their names.
func (w *world) Hand(_ context.Context, _ chat.Thread, file reply.File, unsure bool) error {
	if _, ok := w.said[file.Name]; ok && !unsure {
		w.t.Errorf("%s was handed over twice", file.Name)
	}
	w.said[file.Name] = string(file.Data)
	return nil
}

func (w *world) Download(_ context.Context, file chat.File, _ int) ([]byte, error) {
	return []byte(file.URL), nil
}

func (w *world) Send(_ context.Context, _ string, to []string, raw []byte) []smtp.Result {
	return w.server(to, raw)
}

func (w *world) takes(to []string, raw []byte) (results []smtp.Result) {
	w.letters = append(w.letters, raw)
	for _, a := range to {
		results = append(results, smtp.Result{To: a, Outcome: smtp.Sent, Code: 250})
	}
	return results
}

// survey returns a simulated boat, the same for the same seed.
func survey(seed uint64) parse.Survey {
	return known.Simulate(rand.New(rand.NewPCG(seed, 1)), known.Ordinary).Exact(parse.Inch)
}

// says makes a mail of this subject say this survey.
func (w *world) says(subject string, s parse.Survey) {
	w.surveys[subject] = opener.Mail{Files: []parse.Document{{File: "mail/survey.csv", Surveys: []parse.Survey{s}}}}
}

// mail is a mail that arrives.
type mail struct {
	uid                        uint32
	from, subject, id, answers string
	header                     string
	body                       string
}

func (m mail) delivery() mailbox.Delivery {
	var b bytes.Buffer
	fmt.Fprintf(&b, "From: %s\r\nTo: %s\r\nSubject: %s\r\nMessage-ID: <%s>\r\n", m.from, shopBox, m.subject, m.id)
	if m.answers != "" {
		fmt.Fprintf(&b, "In-Reply-To: <%s>\r\nReferences: <%s>\r\n", m.answers, m.answers)
	}
	fmt.Fprintf(&b, "%s\r\n%s\r\n", m.header, m.body)
	at := ingest.Location{Account: account, Mailbox: "INBOX", UIDValidity: 1, UID: m.uid}
	return mailbox.Delivery{Location: at, Size: int64(b.Len()), Raw: b.Bytes(),
		Cursor: ingest.Cursor{Account: account, Mailbox: "INBOX", UIDValidity: 1, LastUID: m.uid}}
}

// arrive receives mails and works until nothing is left to do.
func (w *world) arrive(mails ...mail) {
	w.t.Helper()
	d := w.desk()
	for _, m := range mails {
		w.inbox = append(w.inbox, stored{m.delivery().Location, m.delivery().Raw})
		if err := d.Receive(w.t.Context(), m.delivery()); err != nil {
			w.t.Fatal(err)
		}
	}
	w.work(d)
}

func (w *world) work(d *Desk) {
	w.t.Helper()
	if err := d.Work(w.t.Context()); err != nil {
		w.t.Fatal(err)
	}
}

func (w *world) decide(c ledger.Choice, id reply.DraftID, who string) {
	w.t.Helper()
	err := w.ledger.Update(w.t.Context(), func(tx *ledger.Tx) error {
		return tx.Decide(ledger.Decision{Account: account, Draft: id, Choice: c, Person: who})
	})
	if err != nil {
		w.t.Fatal(err)
	}
}

func (w *world) job(id int) (j ledger.Job) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) (err error) {
		j, err = tx.Job(account, id)
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return j
}

func (w *world) message(uid uint32) (m ledger.Message) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) (err error) {
		m, err = tx.MessageAt(ingest.Location{Account: account, Mailbox: "INBOX", UIDValidity: 1, UID: uid})
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return m
}

func (w *world) draftState(id reply.DraftID) (s ledger.DraftState) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) error {
		d, err := tx.Draft(account, id)
		s = d.State
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return s
}

// draftIDs lists what lies in Drafts.
func (w *world) draftIDs() []string {
	var ids []string
	for _, f := range w.filed(w.drafts) {
		ids = append(ids, f.Draft)
	}
	return ids
}
