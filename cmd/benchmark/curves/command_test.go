package curves

import (
	"errors"
	"math"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

func TestRunRefuses(t *testing.T) {
	for _, c := range []Command{
		{Seed: 1, Count: 0, Class: "ordinary", Family: "built"},
		{Seed: 1, Count: 1, Class: "submarine", Family: "built"},
		{Seed: 1, Count: 1, Class: "ordinary", Family: "dreamt"},
	} {
		var out strings.Builder
		if err := c.Run(&out); err == nil || errors.Is(err, ErrShort) || out.Len() > 0 {
			t.Errorf("%+v: error %v, output %q", c, err, out.String())
		}
	}
}

// Every class and every slip has a line.
func TestRunPrintsEveryLine(t *testing.T) {
	var out strings.Builder
	if err := (&Command{Seed: 1, Count: 2, Class: "mixed", Family: "built"}).Run(&out); err != nil {
		t.Fatal(err)
	}
	text := "\n" + out.String()
	var want []string
	for _, class := range append(everyClass(), known.WorkBoats()...) {
		want = append(want, string(class))
	}
	for _, slip := range append(known.SingleSlips(), known.ColumnCauses()...) {
		want = append(want, string(slip))
	}
	for _, line := range append(want, "calibration error", "Time per survey", "1889 canoe, as printed") {
		if !strings.Contains(text, "\n"+line) {
			t.Errorf("no line %q", line)
		}
	}
}

// What is drawn for one line does not depend on what was drawn before.
func TestSameSeedSameSurveys(t *testing.T) {
	b := bench{seed: 1, count: 3, family: known.Simulate, class: known.Ordinary, tape: known.HomeTape(parse.Inch)}
	first := b.spoiled(known.Digit)
	b.clean(known.Decked)
	second := b.spoiled(known.Digit)
	for i := range first {
		if first[i].done.Wrong[0] != second[i].done.Wrong[0] {
			t.Errorf("survey %d: %v, then %v", i, first[i].done.Wrong, second[i].done.Wrong)
		}
	}
	if first[0].done.Wrong[0] == first[1].done.Wrong[0] {
		t.Error("two surveys are the same")
	}
	b.seed = 2
	if other := b.spoiled(known.Digit); other[0].done.Wrong[0] == first[0].done.Wrong[0] {
		t.Error("two seeds give the same survey")
	}
}

// With the true girths known, a ten in one cell always stands out and half an
// inch hardly ever does.
func TestCeiling(t *testing.T) {
	b := bench{seed: 1, count: 60, family: known.Simulate, class: known.Ordinary, tape: known.HomeTape(parse.Inch)}
	if got := b.ceiling(b.spoiled(known.Ten)); got != 1 {
		t.Errorf("a ten stands out in %v of surveys", got)
	}
	if got := b.ceiling(b.spoiled(known.HalfLost)); got > 0.3 {
		t.Errorf("half an inch stands out in %v of surveys", got)
	}
	if got, known := b.namedCeiling(b.spoiled(known.Foot)); !known || got < 0.98 {
		t.Errorf("a foot is named in %v of surveys", got)
	}
	if _, known := b.namedCeiling(b.spoiled(known.Swapped)); known {
		t.Error("two wrong numbers are named as one")
	}
	if _, known := b.namedCeiling(b.spoiled(known.Tape2to3)); known {
		t.Error("a slip of the tape is named among those of the pen")
	}
	b.tape.Noise = 5
	if got, _ := b.namedCeiling(b.spoiled(known.Foot)); got > 0.6 {
		t.Errorf("with a tape that errs by 5 in, a foot is named in %v of surveys", got)
	}
	if got := b.ceiling(b.spoiled(known.Tape2to3)); got > 0.3 {
		t.Errorf("with a tape that errs by 5 in, 2 to 3 in stand out in %v of surveys", got)
	}
}

// By hand: tape and rounding have a standard deviation of sqrt(0.18² + 0.08² +
// 0.25/12) = 0.244 in; 1 in is 4.10 of them; 3 % lie over 1.88 of them, and 3 % in 28 over
// 3.07. The normal distribution lies 98.7 % over -2.22 and 84.8 % over -1.03.
func TestOpeningCeiling(t *testing.T) {
	b := bench{tape: known.HomeTape(parse.Inch)}
	asOne, byRows := b.openingCeiling(14)
	if math.Abs(asOne-0.987) > 0.003 || math.Abs(byRows-0.848) > 0.005 {
		t.Errorf("%v and %v, want 0.987 and 0.848", asOne, byRows)
	}
}

func TestPrinterCountsTargets(t *testing.T) {
	p := &printer{out: &strings.Builder{}}
	tests := []struct{ got, want string }{
		{p.percent(0.949, 0.95), "94.9/95 short"},
		{p.percent(0.95, 0.95), "95.0/95 ok"},
		{p.percent(0.5, 0), "50.0"},
		{p.few(0.031, 0.03), "0.031/0.03 short"},
		{p.few(0.03, 0.03), "0.030/0.03 ok"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%q, want %q", tt.got, tt.want)
		}
	}
	if p.met != 2 || p.short != 2 {
		t.Errorf("%d met, %d short; want 2 and 2", p.met, p.short)
	}
}
