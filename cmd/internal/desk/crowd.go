package desk

import (
	"context"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/chat"
)

// How new threads come into the channel when many jobs come at once. What is
// said in threads that stand there already is not held back.
const (
	// threadsAtOnce is a busy day's jobs: they come as fast as the chat takes
	// them.
	threadsAtOnce = 20
	// threadPause lies between two new threads beyond that. A thread takes four
	// posts, and the chat one a second, so it leaves room for everything else.
	threadPause = 5 * time.Second
	// crowdLeast is how many threads have to wait before that is said: fewer are
	// there before anybody has read it.
	crowdLeast = 5
	// crowdWait is how long it is waited for more before it is said.
	crowdWait = 30 * time.Second
	// crowdPause lies between two posts that say so.
	crowdPause = 5 * time.Minute
	// mostNamed is how many of the waiting are named in one post.
	mostNamed = 30
)

// crowd holds back the threads of jobs that come in a crowd. It forgets itself
// when the program ends: then twenty more come at once.
type crowd struct {
	mu    sync.Mutex
	asked map[int]bool // jobs whose threads people want to see now

	// Only the worker uses these.
	rested time.Time // when threadsAtOnce may come at once again
	since  time.Time // since when threads wait; zero when none does
	told   time.Time // when that was said last
}

// ask lets a job's thread come before its turn.
func (c *crowd) ask(job int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.asked == nil {
		c.asked = map[int]bool{}
	}
	c.asked[job] = true
}

// admits reports that a job's thread may be begun now, and counts it.
func (c *crowd) admits(job int, now time.Time) bool {
	c.mu.Lock()
	asked := c.asked[job]
	delete(c.asked, job)
	c.mu.Unlock()
	switch {
	case c.rested.Before(now):
		c.rested = now
	case c.rested.Sub(now) > threadsAtOnce*threadPause: // the clock was set back
		c.rested = now.Add(threadsAtOnce * threadPause)
	}
	if !asked && c.rested.Add(threadPause).Sub(now) > threadsAtOnce*threadPause {
		return false
	}
	c.rested = c.rested.Add(threadPause)
	return true
}

// tellCrowd says in one post which jobs wait for their threads.
func (d *Desk) tellCrowd(ctx context.Context, waiting []int) error {
	now := d.Now()
	switch {
	case len(waiting) == 0:
		d.crowd.since = time.Time{}
		return nil
	case d.crowd.since.IsZero():
		d.crowd.since = now
	}
	if now.Sub(d.crowd.since) < crowdWait || !d.crowd.told.IsZero() && now.Sub(d.crowd.told) < crowdPause {
		return nil
	}
	slices.Sort(waiting)
	said := false
	err := d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		mark, err := tx.Mark(d.Account, ledger.CrowdMark)
		if err != nil {
			return err
		}
		last, _ := strconv.Atoi(mark) // "" before the first crowd
		fresh := slices.DeleteFunc(waiting, func(job int) bool { return job <= last })
		if len(fresh) < crowdLeast {
			return nil
		}
		words, err := d.crowdWords(tx, fresh)
		said = err == nil
		return errors.Join(err, d.planSay(tx, 0, words), tx.SetMark(d.Account, ledger.CrowdMark, strconv.Itoa(fresh[len(fresh)-1])))
	})
	if err == nil && said {
		d.crowd.told = now
		d.nudge()
	}
	return err
}

// crowdWords names jobs whose threads wait.
func (d *Desk) crowdWords(tx *ledger.Tx, waiting []int) (string, error) {
	lines := []string{fmt.Sprintf("%d more jobs came at once. Their threads follow, the oldest first, about %d a minute. To see one now, mention me with its number.",
		len(waiting), time.Minute/threadPause)}
	named := waiting[:min(len(waiting), mostNamed)]
	for _, number := range named {
		job, err := tx.Job(d.Account, number)
		if err != nil {
			return "", err
		}
		lines = append(lines, reply.Line(job.Summary.Headline))
	}
	if rest := waiting[len(named):]; len(rest) > 0 {
		lines = append(lines, fmt.Sprintf("and %d more, up to job %d", len(rest), rest[len(rest)-1]))
	}
	return strings.Join(lines, "\n"), nil
}

var numberAlone = regexp.MustCompile(`(?i)^(?:show\s+)?(?:job\s+)?#?(\d{1,6})[.!?]?$`)

// asksForThread reads a job's number that is said to the bot and nothing else.
func asksForThread(e chat.Event) (job int, ok bool) {
	m := numberAlone.FindStringSubmatch(strings.TrimSpace(e.Text))
	if m == nil || !e.Mention || len(e.Files) > 0 {
		return 0, false
	}
	job, err := strconv.Atoi(m[1])
	return job, err == nil
}

// showThread brings the thread of a job before its turn.
func (d *Desk) showThread(ctx context.Context, people People, e chat.Event, number int) error {
	var job ledger.Job
	err := d.Ledger.View(ctx, func(tx *ledger.Tx) (err error) {
		job, err = tx.Job(d.Account, number)
		return err
	})
	words := fmt.Sprintf("Job %d has its thread already.", number)
	switch {
	case errors.Is(err, ledger.ErrNone):
		words = fmt.Sprintf("There is no job %d.", number)
	case err != nil:
		return err
	case job.Thread == "":
		d.crowd.ask(number)
		d.nudge()
		words = fmt.Sprintf("The thread of job %d comes now.", number)
	}
	return errors.Join(people.Whisper(ctx, e.Thread, e.User.ID, words), d.heard(ctx, e.At))
}
