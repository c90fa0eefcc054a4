// Package crashes kills the service at random moments of a whole conversation
// and looks whether anything was lost or done twice, and whether the job ends
// as it does when nobody kills the service.
package crashes

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"sync"
	"time"

	"fairtape/cmd/internal/rehearsal"
	"fairtape/ingest/mailbox/mailboxtest"
)

// ErrShort: something was lost, or done twice.
var ErrShort = errors.New("something was lost or done twice")

// Command is the benchmark's command line.
type Command struct {
	Runs     int           `default:"20" help:"How many conversations."`
	Kills    int           `default:"3" help:"How often the service is killed in each."`
	Side     int           `default:"8" help:"How many conversations at a time: most of one is waiting."`
	Seed     uint64        `default:"1" help:"Of the moments of the kills."`
	From     int           `default:"0" help:"Number of the first conversation, to repeat one." placeholder:"N"`
	Survey   string        `default:"testdata/conversation" help:"Folder of the customer's survey." type:"path"`
	Program  string        `help:"The program; built when it is not given." type:"path" placeholder:"FILE"`
	Late     time.Duration `help:"The mail server puts a letter into Drafts up to so long after it has come, also when the service is gone by then."`
	WithSent bool          `help:"The mail server files copies of what it sends, as some providers do."`
	Trace    bool          `help:"Print what the service said and posted in conversations that went wrong."`
}

// Run plays the conversations and prints what came of them.
func (c *Command) Run(ctx context.Context, out io.Writer) error {
	survey, err := rehearsal.Survey(c.Survey)
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "crashes")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir) //nolint:errcheck // a temporary folder
	if c.Program == "" {
		if c.Program, err = rehearsal.Build(ctx, dir, out); err != nil {
			return err
		}
	}
	p := player{Command: c, dir: dir, survey: survey}
	undisturbed := p.play(ctx, "undisturbed", nil)
	if len(undisturbed.wrong) > 0 {
		return fmt.Errorf("a conversation in which nobody kills the service: %v", undisturbed.wrong)
	}
	p.want = undisturbed.outcome
	return c.report(out, p.playAll(ctx))
}

// report prints the sum of the results.
func (c *Command) report(out io.Writer, results []result) error {
	var kills, asked, good, wrong int
	for _, r := range results {
		kills += r.kills
		asked += r.asked
		if len(r.wrong) == 0 {
			good++
		}
		wrong += len(r.wrong)
		for _, w := range r.wrong {
			fmt.Fprintf(out, "conversation %d: %s\n", r.number, w) //nolint:errcheck // the last write tells
		}
		if c.Trace && len(r.wrong) > 0 {
			fmt.Fprintln(out, r.trace) //nolint:errcheck // the last write tells
		}
	}
	if _, err := fmt.Fprintf(out, "%d conversations of 12 steps, %d kills: %d ended as if nobody had killed the service; a person was asked %d times whether a letter left; %d things wrong\n",
		len(results), kills, good, asked, wrong); err != nil {
		return err
	}
	if wrong > 0 {
		return ErrShort
	}
	return nil
}

// result is what came of one conversation.
type result struct {
	number       int
	kills, asked int
	wrong        []string
	trace        string
	outcome      rehearsal.Outcome
}

// player plays conversations in folders of their own below dir.
type player struct {
	*Command
	dir    string
	survey []byte
	want   rehearsal.Outcome // of each; not known when Letters is ""
}

func (p *player) playAll(ctx context.Context) []result {
	results := make([]result, p.Runs)
	next := make(chan int)
	var side sync.WaitGroup
	for range p.Side {
		side.Go(func() {
			for n := range next {
				number := p.From + n
				results[n] = p.play(ctx, fmt.Sprint(number), moments(p.Kills, rand.New(rand.NewPCG(p.Seed, uint64(number)))))
				results[n].number = number
			}
		})
	}
	for n := range p.Runs {
		next <- n
	}
	close(next)
	side.Wait()
	return results
}

// kill is the moment of a kill: a while after a step of the conversation began.
type kill struct {
	step  int
	after time.Duration
}

const (
	steps = 12
	// span is how long a step takes, about.
	span = 2 * time.Second
)

func moments(n int, random *rand.Rand) []kill {
	kills := make([]kill, n)
	for i := range kills {
		kills[i] = kill{random.IntN(steps), time.Duration(random.Float64() * float64(span))}
	}
	return kills
}

// play plays one conversation and looks what came of it.
func (p *player) play(ctx context.Context, name string, kills []kill) (r result) {
	fail := func(err error) result {
		r.wrong = append(r.wrong, err.Error())
		return r
	}
	dir := filepath.Join(p.dir, name)
	if err := os.Mkdir(dir, 0o700); err != nil {
		return fail(err)
	}
	defer os.RemoveAll(dir) //nolint:errcheck // a temporary folder
	box, err := mailboxtest.Start(mailboxtest.Options{Late: p.late})
	if err != nil {
		return fail(err)
	}
	f, err := rehearsal.New(dir, p.Program, box, box.Addr)
	if err != nil {
		return fail(err)
	}
	defer f.Close() //nolint:errcheck // the run is over
	log, err := os.Create(filepath.Join(dir, "log"))
	if err != nil {
		return fail(err)
	}
	defer log.Close() //nolint:errcheck // it is only looked at
	f.Log, f.FilesSent = log, p.WithSent
	if err := f.Start(); err != nil {
		return fail(err)
	}
	k := killer{restart: f.Restart, kills: kills}
	err = f.Play(ctx, f.Conversation(p.survey), k.began)
	r.kills, r.asked = k.end(), f.Asked()
	if err = errors.Join(err, k.failed); err != nil {
		r.wrong = append(r.wrong, err.Error())
	} else if r.outcome, err = f.Outcome(ctx); err != nil {
		return fail(err)
	} else if differs := p.differs(r.outcome); differs != "" {
		r.wrong = append(r.wrong, differs)
	}
	wrong, err := f.Check(ctx)
	if err != nil {
		return fail(err)
	}
	if r.wrong = append(r.wrong, wrong...); len(r.wrong) > 0 {
		said, err := os.ReadFile(log.Name())
		r.trace = fmt.Sprintf("%s\n%s\n%v", said, f.Posts(), err)
	}
	return r
}

// late is how long the mail server takes to store a letter. A copy in Sent that
// comes twice does no harm, and nothing is ever taken out of there.
func (c *Command) late(mailbox string) time.Duration {
	if c.Late == 0 || mailbox != "Drafts" {
		return 0
	}
	return rand.N(c.Late)
}

// differs says in what an outcome is not the undisturbed one, "" for nothing. A
// letter that was written anew quotes less, so it is not compared word by word.
func (p *player) differs(o rehearsal.Outcome) string {
	want := p.want
	if want.Letters == "" {
		return "" // it is the undisturbed one
	}
	if o.Letters == "" {
		want.Letters = ""
	}
	if reflect.DeepEqual(o, want) {
		return ""
	}
	return fmt.Sprintf("it ended as\n%+v\nnot as\n%+v", o, want)
}

// killer kills the service at its moments.
type killer struct {
	restart func() error
	kills   []kill

	mu     sync.Mutex
	timers []*time.Timer
	over   bool
	count  int
	failed error
}

// began starts the clocks of a step's kills.
func (k *killer) began(step int) {
	for _, one := range k.kills {
		if one.step == step {
			k.timers = append(k.timers, time.AfterFunc(one.after, k.strike))
		}
	}
}

func (k *killer) strike() {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.over {
		return
	}
	err := k.restart()
	if !errors.Is(err, rehearsal.ErrEnded) {
		k.count++
	}
	k.failed = errors.Join(k.failed, err)
}

// end stops the killing and returns how often the service was killed: while the
// conversation went on, and not when it had ended by itself.
func (k *killer) end() int {
	for _, t := range k.timers {
		t.Stop()
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	k.over = true
	return k.count
}
