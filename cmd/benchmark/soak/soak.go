// Package soak runs the real service for as long as one likes, on servers that
// are reached through proxies which spoil connections, while mails trickle in
// and people press buttons. It shows whether the service holds on to more and
// more, and whether every mail ends in exactly one place.
package soak

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"fairtape/cmd/internal/faultproxy"
	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/rehearsal"
	"fairtape/ingest/mailbox/mailboxtest"
	"fairtape/reply/chat/chattest"
)

// ErrShort: the service grew, or a mail or a letter went astray.
var ErrShort = errors.New("the service grew, or something was lost or done twice")

// Command is the benchmark's command line.
type Command struct {
	Minutes float64       `default:"5" help:"How long mails come in."`
	Every   time.Duration `default:"6s" help:"Between two mails."`
	Seed    uint64        `default:"1" help:"Of the faults."`
	Program string        `help:"The program; built when it is not given." type:"path" placeholder:"FILE"`
	Log     string        `help:"Where the service's log goes." type:"path" placeholder:"FILE"`
}

const (
	poll    = 5 * time.Second
	look    = 5 * time.Second  // between two looks at the service
	press   = 10 * time.Second // between two buttons pressed
	lines   = 15               // printed in all
	calming = 10 * time.Minute // for what is under way when the faults end
)

// Run runs the service and prints what it holds.
func (c *Command) Run(ctx context.Context, out io.Writer) (err error) {
	dir, err := os.MkdirTemp("", "soak")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir) //nolint:errcheck // a temporary folder
	if c.Program == "" {
		if c.Program, err = rehearsal.Build(ctx, dir, out); err != nil {
			return err
		}
	}
	r := &run{Command: c, out: out, random: rand.New(rand.NewPCG(c.Seed, 0)), counts: map[faultproxy.Kind]int{}}
	defer func() { err = errors.Join(err, r.close()) }()
	if err := r.open(dir); err != nil {
		return err
	}
	if err := r.soak(ctx); err != nil {
		return err
	}
	return r.report(ctx)
}

// run is one run of the service.
type run struct {
	*Command
	out     io.Writer
	floor   *rehearsal.Floor
	mails   *Mails
	status  string
	log     *os.File
	proxies []*faultproxy.Proxy
	samples []rehearsal.Vitals
	sent    int // mails that were put into the inbox
	pressed int // times that a person let a letter go

	calm   atomic.Bool // no more faults
	mu     sync.Mutex
	random *rand.Rand
	counts map[faultproxy.Kind]int
}

func (r *run) open(dir string) (err error) {
	if r.mails, err = NewMails(); err != nil {
		return err
	}
	box, err := mailboxtest.Start(mailboxtest.Options{})
	if err != nil {
		return err
	}
	if r.floor, err = rehearsal.New(dir, r.Program, box, box.Addr); err != nil {
		return err
	}
	if r.Log != "" {
		if r.log, err = os.Create(r.Log); err != nil {
			return err
		}
		r.floor.Log = r.log
	}
	var fronts []string
	for _, addr := range []string{box.Addr, r.floor.Server.Addr, r.floor.Chat.Addr()} {
		p, err := faultproxy.Start(addr, r.plan)
		if err != nil {
			return err
		}
		r.proxies = append(r.proxies, p)
		fronts = append(fronts, p.Addr)
	}
	if r.status, err = rehearsal.FreeAddress(); err != nil {
		return err
	}
	r.floor.Chat.Front = fronts[2]
	if err := r.floor.Settle(rehearsal.Ways{IMAP: fronts[0], SMTP: fronts[1], Poll: poll, Status: r.status}); err != nil {
		return err
	}
	return r.floor.Start()
}

func (r *run) close() error {
	var errs []error
	if r.floor != nil {
		errs = append(errs, r.floor.Close())
	}
	for _, p := range r.proxies {
		errs = append(errs, p.Close())
	}
	if r.log != nil {
		errs = append(errs, r.log.Close())
	}
	return errors.Join(errs...)
}

// Connections live a few minutes at most, so that none stays sound for long.
const longest = 5 * time.Minute

// kinds are the faults, by how often each comes: those that cost a minute of
// waiting are rarer.
var kinds = []faultproxy.Kind{
	faultproxy.None, faultproxy.None,
	faultproxy.Close, faultproxy.Close, faultproxy.Close,
	faultproxy.Reset, faultproxy.Reset, faultproxy.Reset,
	faultproxy.Slow,
	faultproxy.Stall,
}

// plan spoils connections after one byte to a hundred thousand, each power of
// ten as often as the next: in the greeting, in a command, in a body.
func (r *run) plan(int) faultproxy.Fault {
	r.mu.Lock()
	defer r.mu.Unlock()
	var f faultproxy.Fault
	if !r.calm.Load() {
		f = faultproxy.Fault{
			Kind: kinds[r.random.IntN(len(kinds))], After: int(math.Pow(10, 5*r.random.Float64())),
			FromClient: r.random.IntN(2) == 0, Life: time.Duration(r.random.Float64() * float64(longest)),
		}
	}
	r.counts[f.Kind]++
	return f
}

// soak lets mails trickle in until the time is over, and then waits for what is
// under way, without faults.
func (r *run) soak(ctx context.Context) error {
	start := time.Now()
	length := time.Duration(r.Minutes * float64(time.Minute))
	mail := time.NewTicker(r.Every)
	defer mail.Stop()
	person := time.NewTicker(press)
	defer person.Stop()
	sample := time.NewTicker(look)
	defer sample.Stop()
	over := time.After(length)
	printed := 0
	fmt.Fprintf(r.out, "%8s %8s %8s %10s %12s %11s\n", "minutes", "mails", "sent", "memory MB", "descriptors", "goroutines") //nolint:errcheck // the last write tells
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-over:
			r.calm.Store(true)
			return r.settle(ctx)
		case <-mail.C:
			if _, err := r.floor.Box.Append("INBOX", r.mails.Mail(r.sent), time.Now()); err != nil {
				return err
			}
			r.sent++
		case <-person.C:
			r.press()
		case <-sample.C:
			v, err := r.floor.Vitals(r.status)
			switch {
			case errors.Is(err, rehearsal.ErrNoVitals):
				return err
			case err != nil: // it may be busy: that is told, and no end of the run
				fmt.Fprintf(r.out, "not looked at: %v\n", err) //nolint:errcheck // the last write tells
				continue
			}
			r.samples = append(r.samples, v)
			if time.Since(start) >= length*time.Duration(printed+1)/lines {
				printed++
				fmt.Fprintf(r.out, "%8.1f %8d %8d %10d %12d %11d\n", time.Since(start).Minutes(), r.sent, len(r.floor.Server.Letters()), v.Memory>>20, v.Descriptors, v.Goroutines) //nolint:errcheck // the last write tells
			}
		}
	}
}

// press has a person press a button of some post that has any. What comes of it
// is seen at the end.
func (r *run) press() {
	var open []chattest.Message
	for _, m := range r.floor.Chat.Messages() {
		if len(m.Buttons()) > 0 {
			open = append(open, m)
		}
	}
	if len(open) == 0 {
		return
	}
	r.mu.Lock()
	m, action := open[r.random.IntN(len(open))], []string{"send", "send", "hold"}[r.random.IntN(3)]
	r.mu.Unlock()
	// Chat may be cut off just now: then the press is lost, as it is in life.
	if _, err := r.floor.Chat.Press(chattest.Ann, m.TS, action); err == nil && action == "send" {
		r.pressed++
	}
}

// fewPressed is how often a person has to let letters go before one that went
// out can be asked for: the last ones may be on their way, others held by then.
const fewPressed = 5

// idle says that people let letters go, and none went out.
func idle(pressed, sent int) []string {
	if pressed < fewPressed || sent > 0 {
		return nil
	}
	return []string{fmt.Sprintf("a person let letters go %d times, and none went out", pressed)}
}

// settle waits until every mail has an end and every act is done or waits for
// its next try.
func (r *run) settle(ctx context.Context) error {
	for end := time.Now().Add(calming); time.Now().Before(end); {
		left, err := r.floor.Unfinished(ctx, r.sent)
		if err == nil && left == 0 {
			return nil
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(time.Second):
		}
	}
	return nil
}

// report prints whether the service stayed as it was and what came of the mails.
func (r *run) report(ctx context.Context) error {
	audit, err := r.floor.Audit(ctx)
	if err != nil {
		return err
	}
	if err := r.floor.End(); err != nil {
		audit.Wrong = append(audit.Wrong, fmt.Sprintf("told to end, the service ended with: %v", err))
	}
	grown := append(growth(r.samples), idle(r.pressed, audit.Letters[ledger.DraftSent])...)
	var faults []string
	for k := faultproxy.Close; k <= faultproxy.Slow; k++ {
		faults = append(faults, fmt.Sprintf("%d %s", r.counts[k], k))
	}
	fmt.Fprintf(r.out, "connections: %d sound, %s\n", r.counts[faultproxy.None], strings.Join(faults, ", ")) //nolint:errcheck // the last write tells
	fmt.Fprintf(r.out, "mails: %d in, %s\n", r.sent, audit)                                                  //nolint:errcheck // as above
	for _, w := range append(audit.Wrong, grown...) {
		fmt.Fprintf(r.out, "wrong: %s\n", w) //nolint:errcheck // as above
	}
	if _, err := fmt.Fprintf(r.out, "%d things wrong\n", len(audit.Wrong)+len(grown)); err != nil {
		return err
	}
	if len(audit.Wrong)+len(grown) > 0 {
		return ErrShort
	}
	return nil
}
