// Package crashes kills the service at random moments of a whole conversation
// and looks whether anything was lost or done twice.
package crashes

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"time"

	"fairtape/cmd/internal/rehearsal"
	"fairtape/ingest/mailbox/mailboxtest"
)

// ErrShort: something was lost, or done twice.
var ErrShort = errors.New("something was lost or done twice")

// Command is the benchmark's command line.
type Command struct {
	Runs     int    `default:"20" help:"How many conversations."`
	Kills    int    `default:"4" help:"How often the service is killed in each."`
	Side     int    `default:"2" help:"How many conversations at a time."`
	Seed     uint64 `default:"1" help:"Of the moments of the kills."`
	Survey   string `default:"testdata/conversation" help:"Folder of the customer's survey." type:"path"`
	Program  string `help:"The program; built when it is not given." type:"path" placeholder:"FILE"`
	WithSent bool   `help:"The mail server files copies of what it sends, as some providers do."`
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
		c.Program = filepath.Join(dir, "fairtape")
		build := exec.CommandContext(ctx, "go", "build", "-o", c.Program, "fairtape/cmd/fairtape")
		build.Stderr = out
		if err := build.Run(); err != nil {
			return fmt.Errorf("build the program: %w", err)
		}
	}
	results := c.playAll(ctx, dir, survey)
	total := result{}
	for n, r := range results {
		total.kills += r.kills
		total.asked += r.asked
		total.stuck += r.stuck
		if len(r.wrong) > 0 {
			total.wrong = append(total.wrong, r.wrong...)
			for _, w := range r.wrong {
				fmt.Fprintf(out, "run %d: %s\n", n+1, w) //nolint:errcheck // the last write tells
			}
		}
	}
	if _, err := fmt.Fprintf(out, "%d conversations of 12 steps, %d kills: %d to the end, %d in which a person was asked whether a letter left, %d things wrong\n",
		c.Runs, total.kills, c.Runs-total.asked-total.stuck, total.asked, len(total.wrong)); err != nil {
		return err
	}
	if len(total.wrong) > 0 {
		return ErrShort
	}
	return nil
}

// result is what came of one conversation.
type result struct {
	kills, asked, stuck int
	wrong               []string
}

func (c *Command) playAll(ctx context.Context, dir string, survey []byte) []result {
	results := make([]result, c.Runs)
	next := make(chan int)
	var side sync.WaitGroup
	for range c.Side {
		side.Go(func() {
			for n := range next {
				results[n] = c.one(ctx, filepath.Join(dir, fmt.Sprint(n)), survey, rand.New(rand.NewPCG(c.Seed, uint64(n))))
			}
		})
	}
	for n := range c.Runs {
		next <- n
	}
	close(next)
	side.Wait()
	return results
}

// span is how long a conversation takes when nobody kills the service, about.
const span = 20 * time.Second

func (c *Command) one(ctx context.Context, dir string, survey []byte, random *rand.Rand) (r result) {
	fail := func(err error) result {
		r.stuck = 1
		r.wrong = append(r.wrong, err.Error())
		return r
	}
	if err := os.Mkdir(dir, 0o700); err != nil {
		return fail(err)
	}
	box, err := mailboxtest.Start(mailboxtest.Options{})
	if err != nil {
		return fail(err)
	}
	f, err := rehearsal.New(dir, c.Program, box, box.Addr)
	if err != nil {
		return fail(err)
	}
	defer f.Close() //nolint:errcheck // the run is over
	if err := f.Start(); err != nil {
		return fail(err)
	}
	moments := make([]time.Time, c.Kills)
	for i := range moments {
		moments[i] = time.Now().Add(time.Duration(random.Float64() * float64(span)))
	}
	filed := 0
	meanwhile := func() error {
		for ; c.WithSent && filed < len(f.Server.Letters()); filed++ {
			if _, err := box.Append("Sent", f.Server.Letters()[filed].Raw, time.Now()); err != nil {
				return err
			}
		}
		for i, at := range moments {
			if !at.IsZero() && time.Now().After(at) {
				moments[i] = time.Time{}
				r.kills++
				return f.Restart()
			}
		}
		return nil
	}
	err = f.Play(ctx, f.Conversation(survey), meanwhile)
	switch {
	case errors.Is(err, rehearsal.ErrAsked):
		r.asked++
	case err != nil:
		r.stuck++
		r.wrong = append(r.wrong, err.Error())
	}
	wrong, err := f.Check(ctx)
	if err != nil {
		return fail(err)
	}
	r.wrong = append(r.wrong, wrong...)
	return r
}
