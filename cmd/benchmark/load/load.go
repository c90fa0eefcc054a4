// Package load puts more mail before the real service than a shop ever gets,
// and measures what that costs: a mailbox full of mail that waits, large
// attachments, many mails within a minute, and the few new ones of a mailbox
// that holds many old ones.
package load

import (
	"context"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fairtape/cmd/benchmark/soak"
	"fairtape/cmd/internal/rehearsal"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply/chat/chattest"
)

// ErrShort: the service needed too much memory, lost the order or a mail, or
// said too much too fast.
var ErrShort = errors.New("a load was too much")

// Command is the benchmark's command line.
type Command struct {
	Waiting int           `default:"2000" help:"Mails that wait at the first start; one in 250 is a survey."`
	Large   int           `default:"5" help:"Mails with an attachment of 10 MB."`
	Burst   int           `default:"50" help:"Surveys that come within a minute."`
	Old     int           `default:"10000" help:"Old mails of the mailbox in which 20 new ones come."`
	Program string        `help:"The program; built when it is not given." type:"path" placeholder:"FILE"`
	Limit   time.Duration `default:"1h" help:"For each load."`
}

// mostMemory is what the service may hold, in bytes, without its children: a
// small machine has 512 MB for all.
const mostMemory = 150 << 20

// Run puts each load on a service of its own and prints what it cost.
func (c *Command) Run(ctx context.Context, out io.Writer) error {
	dir, err := os.MkdirTemp("", "load")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir) //nolint:errcheck // a temporary folder
	if c.Program == "" {
		if c.Program, err = rehearsal.Build(ctx, dir, out); err != nil {
			return err
		}
	}
	mails, err := soak.NewMails()
	if err != nil {
		return err
	}
	wrong := 0
	for i, l := range []load{
		{name: fmt.Sprintf("%d mails wait at the first start", c.Waiting), before: c.Waiting, mail: mixed(mails)},
		{name: fmt.Sprintf("%d mails with an attachment of 10 MB", c.Large), before: c.Large, mail: large},
		{name: fmt.Sprintf("20 new mails in a mailbox of %d", 20), old: 20, after: 20, mail: letter},
		{name: fmt.Sprintf("20 new mails in a mailbox of %d", c.Old), old: c.Old, after: 20, mail: letter},
		{name: fmt.Sprintf("%d surveys within a minute", c.Burst), after: c.Burst, over: time.Minute, mail: surveys(mails)},
	} {
		if l.before+l.after == 0 {
			continue
		}
		l.dir, l.limit = filepath.Join(dir, fmt.Sprint(i)), c.Limit
		faults, err := l.put(ctx, c.Program, out)
		if err != nil {
			return fmt.Errorf("%s: %w", l.name, err)
		}
		for _, f := range faults {
			fmt.Fprintf(out, "  wrong: %s\n", f) //nolint:errcheck // the last write tells
		}
		wrong += len(faults)
	}
	if _, err := fmt.Fprintf(out, "%d things wrong\n", wrong); err != nil {
		return err
	}
	if wrong > 0 {
		return ErrShort
	}
	return nil
}

// load is so much mail.
type load struct {
	name   string
	old    int                // mails that came long ago
	before int                // mails that wait when the service starts
	after  int                // mails that come when it runs
	over   time.Duration      // in which those come; 0 for at once
	mail   func(n int) []byte // the n-th of them, from 0
	dir    string
	limit  time.Duration
}

// put puts the load on a service, and says what is wrong with how that took it.
func (l *load) put(ctx context.Context, program string, out io.Writer) (wrong []string, err error) {
	if err := os.MkdirAll(l.dir, 0o700); err != nil {
		return nil, err
	}
	box, err := mailboxtest.Start(mailboxtest.Options{})
	if err != nil {
		return nil, err
	}
	f, err := rehearsal.New(l.dir, program, box, box.Addr)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	status, err := rehearsal.FreeAddress()
	if err != nil {
		return nil, err
	}
	if err := f.Settle(rehearsal.Ways{IMAP: box.Addr, SMTP: f.Server.Addr, Poll: time.Second, Status: status}); err != nil {
		return nil, err
	}
	for n := range l.old {
		if _, err := box.Append("INBOX", letter(-n-1), time.Now().AddDate(0, -1, 0)); err != nil {
			return nil, err
		}
	}
	for n := range l.before {
		if _, err := box.Append("INBOX", l.mail(n), time.Now()); err != nil {
			return nil, err
		}
	}
	if err := f.Start(); err != nil {
		return nil, err
	}
	w := &watcher{floor: f, status: status}
	if l.before == 0 { // the mailbox has been read once
		if err := w.until(ctx, l.limit, func() bool { return f.Watched(ctx) }); err != nil {
			return nil, err
		}
	}
	start := time.Now()
	for n := range l.after {
		if _, err := box.Append("INBOX", l.mail(n), time.Now()); err != nil {
			return nil, err
		}
		if l.over > 0 {
			w.pause(ctx, l.over/time.Duration(l.after))
		}
	}
	mails := l.before + l.after
	err = w.until(ctx, l.limit, func() bool {
		ended, err := f.Ended(ctx)
		return err == nil && ended >= mails
	})
	read := time.Since(start)
	if err == nil {
		err = w.until(ctx, l.limit, func() bool {
			left, err := f.Unfinished(ctx, mails)
			return err == nil && left == 0
		})
	}
	if err != nil {
		return nil, err
	}
	said := time.Since(start)
	a, err := f.Audit(ctx)
	if err != nil {
		return nil, err
	}
	fastest, posts := pace(f.Chat)
	_, err = fmt.Fprintf(out, "%s: read in %.1f s, all said in %.0f s; %d MB, %d descriptors, %d goroutines at most; %d posts, at most %d within a minute; %s\n",
		l.name, read.Seconds(), said.Seconds(), w.most.Memory>>20, w.most.Descriptors, w.most.Goroutines, posts, fastest, a)
	wrong = a.Wrong
	if w.most.Memory > mostMemory {
		wrong = append(wrong, fmt.Sprintf("the service held %d MB, over %d", w.most.Memory>>20, mostMemory>>20))
	}
	if fastest > mostPosts {
		wrong = append(wrong, fmt.Sprintf("%d posts within a minute, over %d", fastest, mostPosts))
	}
	order, err2 := f.InOrder(ctx)
	if !order {
		wrong = append(wrong, "the mails were not worked off oldest first")
	}
	return wrong, errors.Join(err, err2, f.End())
}

// mostPosts is what the chat takes within a minute: one a second into a
// channel, and a short burst (docs.slack.dev, "Rate limits").
const mostPosts = 66

// pace returns how many posts there were, and the most within a minute.
func pace(chat *chattest.Server) (fastest, posts int) {
	calls := chat.Calls("chat.postMessage")
	begin := 0
	for i, c := range calls {
		for calls[begin].At.Before(c.At.Add(-time.Minute)) {
			begin++
		}
		fastest = max(fastest, i-begin+1)
	}
	return fastest, len(calls)
}

// watcher looks at the service while it works.
type watcher struct {
	floor  *rehearsal.Floor
	status string
	most   rehearsal.Vitals
}

const glance = 200 * time.Millisecond

func (w *watcher) until(ctx context.Context, limit time.Duration, so func() bool) error {
	for end := time.Now().Add(limit); !so(); w.pause(ctx, glance) {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if time.Now().After(end) {
			return errors.New("not done in time")
		}
	}
	return nil
}

// pause waits, and looks what the service holds.
func (w *watcher) pause(ctx context.Context, d time.Duration) {
	if v, err := w.floor.Vitals(w.status); err == nil { // it may not have begun to listen
		w.most.Memory = max(w.most.Memory, v.Memory)
		w.most.Descriptors = max(w.most.Descriptors, v.Descriptors)
		w.most.Goroutines = max(w.most.Goroutines, v.Goroutines)
	}
	select {
	case <-ctx.Done():
	case <-time.After(d):
	}
}

// letter is a mail of a newsletter: the shop's mailbox is full of such.
func letter(n int) []byte {
	return fmt.Appendf(nil, "From: news@chandler.example\r\nTo: orders@pinfold.example\r\nSubject: offer %d\r\nMessage-ID: <offer%d@chandler.example>\r\n"+
		"List-Id: <news.chandler.example>\r\nList-Unsubscribe: <https://chandler.example/off>\r\nPrecedence: bulk\r\n\r\n%s\r\n",
		n, n, strings.Repeat("Rope, cleats and varnish at half the price.\r\n", 20))
}

// surveyMails are the places of the sample week's mails that bring a survey.
var surveyMails = [...]int{0, 1, 2, 3, 5, 6, 7}

// surveys are mails that bring a survey each.
func surveys(mails *soak.Mails) func(n int) []byte {
	return func(n int) []byte {
		week := n / len(surveyMails)
		return mails.Mail(week*mails.Len() + surveyMails[n%len(surveyMails)])
	}
}

// mixed are newsletters with a survey now and then.
func mixed(mails *soak.Mails) func(n int) []byte {
	const each = 250
	survey := surveys(mails)
	return func(n int) []byte {
		if n%each == each-1 {
			return survey(n / each)
		}
		return letter(n)
	}
}

// large is a mail with an attachment of 10 MB: a picture that is none, to the
// last byte.
func large(n int) []byte {
	data := make([]byte, 10<<20)
	random := rand.NewChaCha8([32]byte{byte(n)})
	random.Read(data) //nolint:errcheck // it never fails
	copy(data, "\xFF\xD8\xFF\xE0")
	var b strings.Builder
	fmt.Fprintf(&b, "From: ann%d@tarn.example\r\nTo: orders@pinfold.example\r\nSubject: photo %d\r\nMessage-ID: <large%d@tarn.example>\r\nMIME-Version: 1.0\r\n"+
		"Content-Type: image/jpeg; name=boat.jpg\r\nContent-Transfer-Encoding: base64\r\n\r\n", n, n, n)
	text := base64.StdEncoding.EncodeToString(data)
	for ; len(text) > 76; text = text[76:] {
		b.WriteString(text[:76] + "\r\n")
	}
	b.WriteString(text + "\r\n")
	return []byte(b.String())
}
