package desk

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply/chat"
)

// crowded is a world in which so many jobs have just come.
func crowded(t *testing.T, jobs int) *world {
	t.Helper()
	w := newWorld(t)
	w.addJobs(jobs)
	return w
}

func (w *world) addJobs(jobs int) {
	w.t.Helper()
	err := w.ledger.Update(w.t.Context(), func(tx *ledger.Tx) error {
		for range jobs {
			job, err := tx.AddJob(ledger.Job{Account: account, State: ledger.WaitingUs, Customer: ann})
			if err != nil {
				return err
			}
			job.Summary = plain(job, "2 to re-check")
			if err := tx.SaveJob(job); err != nil {
				return err
			}
			if err := w.desk().planShow(tx, job.ID); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		w.t.Fatal(err)
	}
}

// Five hundred jobs at once: the channel gets some threads, one post that names
// the others, and then a thread now and again until each job has its one.
func TestCrowd(t *testing.T) {
	const jobs = 500
	w := crowded(t, jobs)
	d := w.desk()
	begun := []int{0} // threads, by second
	for len(w.threads) < jobs {
		w.work(d)
		begun = append(begun, len(w.threads))
		if w.now = w.now.Add(time.Second); len(begun) > 3600 {
			t.Fatalf("after an hour %d of %d threads are begun", len(w.threads), jobs)
		}
	}
	if begun[1] != threadsAtOnce {
		t.Errorf("%d threads are begun at once, want %d", begun[1], threadsAtOnce)
	}
	const most = threadsAtOnce + int(time.Minute/threadPause)
	for second := 60; second < len(begun); second++ {
		if n := begun[second] - begun[second-60]; n > most {
			t.Fatalf("%d threads within a minute, want at most %d", n, most)
		}
	}
	if n := w.saidTimes("more jobs came at once"); n != 1 {
		t.Errorf("said %d times that there are more: %v", n, w.said)
	}
	for _, words := range []string{"Job 27: ", "Job 56: ", "more, up to job 500", "about 12 a minute"} {
		if !w.saidAnything(words) {
			t.Errorf("%q is not said: %v", words, w.said)
		}
	}
}

// A busy day is no crowd, and neither are a few more than fit at once.
func TestNoCrowd(t *testing.T) {
	for _, jobs := range []int{threadsAtOnce, threadsAtOnce + crowdLeast - 1} {
		w := crowded(t, jobs)
		d := w.desk()
		for range 120 {
			w.work(d)
			w.now = w.now.Add(time.Second)
		}
		if len(w.threads) != jobs || len(w.said) != 0 {
			t.Errorf("%d jobs: %d threads, said %v", jobs, len(w.threads), w.said)
		}
	}
}

// Jobs that come while others wait are named in a post of their own, later, and
// those that were named are not named again, also after a restart.
func TestCrowdGoesOn(t *testing.T) {
	w := crowded(t, 100)
	d := w.desk()
	seconds := func(n int) {
		for range n {
			w.work(d)
			w.now = w.now.Add(time.Second)
		}
	}
	seconds(60)
	w.addJobs(50)
	d = w.desk()
	seconds(60)
	if n := w.saidTimes("more jobs came at once"); n != 2 {
		t.Errorf("said %d times: %v", n, w.said)
	}
	if w.saidTimes("Job 99: ") > 1 || !w.saidAnything("50 more jobs came") || !w.saidAnything("Job 101: ") {
		t.Errorf("said %v", w.said)
	}
	seconds(120)
	if n := w.saidTimes("more jobs came at once"); n != 2 {
		t.Errorf("said %d times in the end", n)
	}
}

// A person who asks for a job gets its thread before its turn, and so does one
// whose words are about it.
func TestCrowdIsAskedFor(t *testing.T) {
	w := crowded(t, 100)
	w.work(w.desk())
	d := w.desk()
	d.crowd.rested = w.now.Add(threadsAtOnce * threadPause)
	r := &room{}
	hear := func(id, text string) {
		t.Helper()
		d.Hear(t.Context(), r, nil, by("ann", chat.Event{Kind: chat.Said, Text: text, Mention: true, ID: id}))
		w.work(d)
	}
	hear("a", "90")
	hear("b", "job 91?")
	hear("c", "92 note the tube is green")
	for _, job := range []int{90, 91, 92} {
		if w.job(job).Thread == "" {
			t.Errorf("job %d has no thread", job)
		}
	}
	if len(w.threads) != threadsAtOnce+3 || !r.whispered("ann", "job 90 comes now") || w.saidTimes("noted") != 1 {
		t.Errorf("%d threads, said %v, whispered %v", len(w.threads), w.said, r.whispers)
	}
	hear("d", "90")
	hear("e", "777")
	if !r.whispered("ann", "has its thread already") || !r.whispered("ann", "no job 777") {
		t.Errorf("whispered %v", r.whispers)
	}
	d.Hear(t.Context(), r, nil, by("ann", chat.Event{Kind: chat.Said, Text: "93", ID: "f"}))
	if w.work(d); w.job(93).Thread != "" {
		t.Error("a number that nobody said to the bot is taken for an order")
	}
}

// A clock that is set back holds nothing up.
func TestCrowdClock(t *testing.T) {
	var c crowd
	now := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	for n := range threadsAtOnce {
		if !c.admits(n, now) {
			t.Fatalf("only %d at once", n)
		}
	}
	now = now.AddDate(0, 0, -1)
	if c.admits(0, now) {
		t.Error("a clock set back lets another one through")
	}
	if now = now.Add(threadPause); !c.admits(0, now) {
		t.Error("a clock set back holds up the next one")
	}
	if c.admits(0, now) {
		t.Error("and then another")
	}
}

// A thread that may stand there already is looked for at once.
func TestCrowdUnsure(t *testing.T) {
	var c crowd
	now := time.Now()
	for n := range threadsAtOnce {
		c.admits(n, now)
	}
	q := newQueue()
	q.chat = []ledger.Intent{{Act: ledger.Show, Begins: true, Unsure: true}, {Act: ledger.Show, Begins: true}}
	q.chat[1].Draft.Job = 2
	if i, ok := q.next(now, &c); !ok || !i.Unsure {
		t.Errorf("got %+v, %v", i, ok)
	}
	if i, ok := q.next(now, &c); ok || fmt.Sprint(q.threads) != "[2]" {
		t.Errorf("got %+v, threads %v wait", i, q.threads)
	}
	if strings.Contains(fmt.Sprint(q.stuck), "chat 0") {
		t.Errorf("%v is stuck", q.stuck)
	}
}
