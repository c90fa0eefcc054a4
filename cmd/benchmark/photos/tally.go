package photos

import (
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"

	"fairtape/parse"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
	"fairtape/validate/slip"
)

// tally counts numbers: right is given, right and sure; sent is doubtful or
// left out; silent is given, sure and wrong.
type tally struct {
	right, sent, silent int
	troubled            int // of all: crossed out or written over
	// Of all: what would count as sure, and be wrong, from other confidences.
	from [len(levels)]struct{ sure, wrong int }
}

// levels are other confidences from which a number could be taken as sure.
var levels = [...]float64{0.5, 0.9, 0.95, 0.98, 0.99, 0.995}

func (t *tally) add(o tally) {
	t.right, t.sent, t.silent = t.right+o.right, t.sent+o.sent, t.silent+o.silent
	t.troubled += o.troubled
	for i := range t.from {
		t.from[i].sure += o.from[i].sure
		t.from[i].wrong += o.from[i].wrong
	}
}

func (t tally) all() int { return t.right + t.sent + t.silent }

func (t *tally) count(r parse.Reading, truth parse.Length) {
	for i, least := range levels {
		if r.Known && r.Confidence >= least {
			t.from[i].sure++
			if !near(r.Value, truth) {
				t.from[i].wrong++
			}
		}
	}
	switch {
	case !r.Certain():
		t.sent++
	case near(r.Value, truth):
		t.right++
	default:
		t.silent++
	}
}

func near(a, b parse.Length) bool { return math.Abs(float64(a-b)) < 0.01 }

func (t tally) print(out io.Writer, name, refused string) {
	n := float64(max(t.all(), 1))
	fmt.Fprintf(out, "%-10s %8d %7.2f%% %7.2f%% %7.3f%%  %-28s %s\n", name, t.all(),
		100*float64(t.right)/n, 100*float64(t.sent)/n, 100*float64(t.silent)/n,
		fmt.Sprintf("%.3f%% (%d)", 100*upperBound(t.silent, t.all()), t.silent), refused)
}

// printLevels says what other confidences would have done.
func (t tally) printLevels(out io.Writer) {
	n := float64(max(t.all(), 1))
	fmt.Fprintf(out, "  sent / silently wrong when sure from:")
	for i, least := range levels {
		fmt.Fprintf(out, "  %.3g: %.2f%% / %.3f%%", least, 100*(1-float64(t.from[i].sure)/n), 100*float64(t.from[i].wrong)/n)
	}
	fmt.Fprintln(out)
}

// upperBound is the one-sided 95 % bound of a rate of k in n (Clopper, Pearson
// 1934), found by halving.
func upperBound(k, n int) float64 {
	if n == 0 || k >= n {
		return 1
	}
	low, high := float64(k)/float64(n), 1.0
	for range 60 {
		p := (low + high) / 2
		if cumulative(k, n, p) > 0.05 {
			low = p
		} else {
			high = p
		}
	}
	return high
}

// cumulative is the probability of at most k in n at rate p.
func cumulative(k, n int, p float64) float64 {
	sum := 0.0
	for i := 0; i <= k; i++ {
		a, _ := math.Lgamma(float64(n + 1))
		b, _ := math.Lgamma(float64(i + 1))
		c, _ := math.Lgamma(float64(n - i + 1))
		sum += math.Exp(a - b - c + float64(i)*math.Log(p) + float64(n-i)*math.Log1p(-p))
	}
	return sum
}

// result is what one photo gave.
type result struct {
	plain, curve tally
	slips        altered
	refused      bool
}

// one makes a photo and reads it. All numbers of a refused photo are sent.
func (c *Command) one(reader *photo.Reader, w *world, grade phototest.Grade, i int) (result, error) {
	s, err := w.shoot(grade, i)
	if err != nil {
		return result{}, err
	}
	data, err := s.photo.JPEG()
	if err != nil {
		return result{}, err
	}
	pictures, _, err := photo.Decode(data)
	if err != nil {
		return result{}, err
	}
	var r result
	page, err := reader.Page("photo.jpg", pictures[0])
	if err != nil {
		r.refused = true
		r.plain.sent, r.curve.sent = len(s.written), len(s.written)
		return r, c.keep(data, fmt.Sprintf("refused-%s-%d", grade, i), err.Error())
	}
	note := ""
	survey := page.Survey()
	settled := slip.Settle(survey)
	r.slips = plantSlips(survey, s.written, rand.New(rand.NewPCG(c.Seed, uint64(i))))
	for _, v := range s.written {
		plain, curve := numberIn(survey, v.Cell), numberIn(settled, v.Cell)
		before := r.plain.silent + r.curve.silent
		r.plain.count(plain, v.Length)
		r.curve.count(curve, v.Length)
		if v.Troubled {
			r.plain.troubled++
		}
		if r.plain.silent+r.curve.silent > before || !plain.Certain() {
			note += fmt.Sprintf("%v at %v: wrote %v, read %v (%.3f), with the curve %v (%.3f), %q troubled %v %s %v\n", v.Cell.Measure,
				v.Cell.At.In(parse.Inch), v.Length.In(s.layout.Unit), plain.Value.In(s.layout.Unit), plain.Confidence,
				curve.Value.In(s.layout.Unit), curve.Confidence, plain.Source.Raw, v.Troubled, plain.Source.Place, r.plain.silent+r.curve.silent > before)
		}
	}
	if note == "" {
		return r, nil
	}
	return r, c.keep(data, fmt.Sprintf("%s-%d", grade, i), note)
}

func (c *Command) keep(data []byte, name, note string) error {
	if c.Keep == "" {
		return nil
	}
	if err := os.WriteFile(filepath.Join(c.Keep, name+".jpg"), data, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(c.Keep, name+".txt"), []byte(note), 0o644)
}

// numberIn is a number of a survey.
func numberIn(s parse.Survey, c parse.Cell) parse.Reading {
	for _, st := range s.Stations {
		if girth := st.Girth(c.Measure); girth != nil && near(st.At, c.At) {
			return *girth
		}
	}
	if once := s.Once(c.Measure); once != nil {
		return *once
	}
	return parse.Reading{}
}
