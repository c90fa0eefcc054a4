package crashes

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/rehearsal"
)

func TestReport(t *testing.T) {
	c := &Command{}
	var out strings.Builder
	if err := c.report(&out, []result{{number: 4, kills: 3, wrong: []string{"a letter went out 2 times"}, trace: "log"}, {kills: 2, asked: 1}}); !errors.Is(err, ErrShort) {
		t.Errorf("a letter twice ends with %v", err)
	}
	for _, want := range []string{"conversation 4: a letter went out 2 times", "2 conversations of 12 steps, 5 kills: 1 ended as if", "asked 1 times", "1 things wrong"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not said in\n%s", want, out.String())
		}
	}
	if err := c.report(&out, []result{{kills: 3}}); err != nil {
		t.Error(err)
	}
}

// An outcome counts as the undisturbed one only when all of it is the same; the
// words of letters are compared unless one had to be written anew.
func TestDiffers(t *testing.T) {
	want := rehearsal.Outcome{State: ledger.Ready, Rounds: 1, Letters: "four", Numbers: map[string]float64{"bow_height": 28}, Went: 4}
	p := player{want: want}
	tests := []struct {
		name    string
		change  func(*rehearsal.Outcome)
		differs bool
	}{
		{"another state", func(o *rehearsal.Outcome) { o.State = ledger.WaitingUs }, true},
		{"another number", func(o *rehearsal.Outcome) { o.Numbers = map[string]float64{"bow_height": 29} }, true},
		{"a letter fewer", func(o *rehearsal.Outcome) { o.Went = 3 }, true},
		{"other words", func(o *rehearsal.Outcome) { o.Letters = "five" }, true},
		{"written anew", func(o *rehearsal.Outcome) { o.Letters = "" }, false},
		{"the same", func(*rehearsal.Outcome) {}, false},
	}
	for _, tt := range tests {
		o := want
		tt.change(&o)
		if got := p.differs(o); (got != "") != tt.differs {
			t.Errorf("%s: %q", tt.name, got)
		}
	}
}

func TestMoments(t *testing.T) {
	seen := map[int]bool{}
	for _, k := range moments(1000, rand.New(rand.NewPCG(1, 2))) {
		seen[k.step] = true
		if k.step < 0 || k.step >= steps || k.after < 0 || k.after >= span {
			t.Fatalf("%+v", k)
		}
	}
	if len(seen) != steps {
		t.Errorf("kills fall into %d of %d steps", len(seen), steps)
	}
}

// A kill that was to come after the conversation does not.
func TestKiller(t *testing.T) {
	strikes := make(chan bool, 9)
	k := killer{restart: func() error { strikes <- true; return nil }, kills: []kill{{0, 0}, {0, time.Millisecond}, {1, time.Hour}, {7, 0}}}
	k.began(0)
	<-strikes
	<-strikes
	k.began(1)
	if n := k.end(); n != 2 || len(strikes) != 0 {
		t.Errorf("killed %d times", n)
	}
	k.strike()
	if len(strikes) != 0 {
		t.Error("killed after the end")
	}
}

// A service that has ended by itself cannot be killed, and is wrong.
func TestKillerFindsNothing(t *testing.T) {
	k := killer{restart: func() error { return fmt.Errorf("%w: exit status 4", rehearsal.ErrEnded) }}
	k.strike()
	if n := k.end(); n != 0 || !errors.Is(k.failed, rehearsal.ErrEnded) {
		t.Errorf("killed %d times, %v", n, k.failed)
	}
}
