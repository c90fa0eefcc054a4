package cover

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"fairtape/cmd/benchmark/figures"
)

func TestRunRefuses(t *testing.T) {
	if err := (&Command{Count: 0}).Run(&bytes.Buffer{}); err == nil {
		t.Error("no boats were measured without complaint")
	}
}

func TestRun(t *testing.T) {
	var out bytes.Buffer
	if err := (&Command{Seed: 7, Count: 4}).Run(&out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"relative error", "sewn back, worst line: half cone", "rms", "less cloth than boxes", "targets met"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in the output", want)
		}
	}
}

func TestVerdict(t *testing.T) {
	var out bytes.Buffer
	p := &figures.Printer{Out: &out, Name: 72, Figure: 10}
	p.AtMost("a", 2, 1, "in")
	p.AtMost("b", 1, 1, "in")
	p.AtLeast("c", 1, 2, "%")
	p.AtLeast("d", 2, 2, "%")
	if p.Met != 2 || p.Short != 2 || strings.Count(out.String(), "SHORT") != 2 {
		t.Errorf("%d met, %d short:\n%s", p.Met, p.Short, out.String())
	}
	if err := (&Command{Count: 1, Seed: 7, Strict: true}).Run(&out); err != nil && !errors.Is(err, ErrShort) {
		t.Error(err)
	}
}
