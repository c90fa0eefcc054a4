// Package reading measures how typed surveys are read: files as other people
// and other programs make them, beside the numbers that stand in them.
package reading

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"fairtape/cmd/internal/opener"
	"fairtape/parse"
)

// ErrShort says that a figure falls short of its target.
var ErrShort = errors.New("a figure falls short of its target")

// The targets: a number that is given is right, above reading everything.
const (
	mostSilent = 0
	leastRight = 97 // percent of the files wholly right
)

// Command is the subcommand.
type Command struct {
	Folder string `arg:"" optional:"" default:"testdata/read" help:"Files, each with NAME.want.json beside it."`
	Strict bool   `help:"End with status 1 when a target is missed."`
}

// Run prints what falls short, file by file, and the figures.
func (c *Command) Run(ctx context.Context, out io.Writer) error {
	o, err := opener.New("", filepath.Join(os.TempDir(), "fairtape-readers"))
	if err != nil {
		return err
	}
	marks, err := measure(ctx, o, c.Folder)
	if err != nil {
		return err
	}
	sum := total(marks)
	for _, m := range marks {
		if !m.right() {
			fmt.Fprintln(out, m)
		}
	}
	share := 100 * float64(sum.right) / float64(len(marks))
	fmt.Fprintf(out, "%d files in %d layouts, %d numbers: %d files wholly right (%.1f %%, at least %d %%), %d numbers left to a person, %d silently wrong (at most %d)\n",
		len(marks), sum.layouts, sum.numbers, sum.right, share, leastRight, sum.left, sum.silent, mostSilent)
	if c.Strict && (share < leastRight || sum.silent > mostSilent) {
		return ErrShort
	}
	return nil
}

// want is what stands in a file, as its maker knows it. Keys are the measures
// of the JSON; a station's have "@" and its distance behind.
type want struct {
	Unit   parse.Unit
	Values map[string]float64
	Doubt  []string // numbers that nobody can be sure of
}

// sameNumber is how far two equal numbers may lie apart, in the survey's unit:
// no more than conversion costs.
const sameNumber = 1e-6

// mark is how one file was read.
type mark struct {
	file     string
	numbers  int
	left     []string // that stand in the file, but were not given surely
	wrong    []string // given surely, and not what stands in the file
	problems []parse.Problem
}

func (m mark) right() bool { return len(m.left) == 0 && len(m.wrong) == 0 }

func (m mark) String() string {
	line := m.file + ":"
	if len(m.wrong) > 0 {
		line += " WRONG " + strings.Join(m.wrong, ", ") + ";"
	}
	if n := len(m.left); n > 0 {
		line += fmt.Sprintf(" left to a person: %s", strings.Join(m.left[:min(n, 4)], ", "))
		if n > 4 {
			line += fmt.Sprintf(" and %d more", n-4)
		}
	}
	if len(m.problems) > 0 {
		line += fmt.Sprintf(" (%s, %q: %s)", m.problems[0].Code, m.problems[0].Source.Raw, m.problems[0].Message)
	}
	return line
}

// measure reads every file of a folder that has its numbers beside it.
func measure(ctx context.Context, o *opener.Opener, folder string) ([]mark, error) {
	const ending = ".want.json"
	wants, err := filepath.Glob(filepath.Join(folder, "*"+ending))
	if err != nil || len(wants) == 0 {
		return nil, fmt.Errorf("no NAME%s in %s", ending, folder)
	}
	var marks []mark
	for _, path := range wants {
		m, err := measureFile(ctx, o, strings.TrimSuffix(path, ending), path)
		if err != nil {
			return nil, err
		}
		marks = append(marks, m)
	}
	return marks, nil
}

// tries is how often a file is opened that was not read in time: on a machine
// that is busy with other work that says nothing about the readers.
const tries = 3

// measureFile reads one file and holds it against the numbers beside it.
func measureFile(ctx context.Context, o *opener.Opener, file, beside string) (mark, error) {
	var w want
	data, err := os.ReadFile(beside)
	if err != nil {
		return mark{}, err
	}
	if err := json.Unmarshal(data, &w); err != nil {
		return mark{}, fmt.Errorf("%s: %w", beside, err)
	}
	data, err = os.ReadFile(file)
	if err != nil {
		return mark{}, err
	}
	var m mark
	for try := 0; try == 0 || try < tries && m.late(); try++ {
		opened, err := o.File(ctx, filepath.Base(file), data)
		if err != nil {
			return mark{}, err
		}
		survey, problems := parse.Merge(opened.Documents...)
		m = compare(survey, w)
		m.file, m.problems = filepath.Base(file), problems
	}
	return m, nil
}

func (m mark) late() bool {
	return slices.ContainsFunc(m.problems, func(p parse.Problem) bool { return p.Code == opener.CodeTooHeavy })
}

// compare holds a survey against what stands in its file.
func compare(s parse.Survey, w want) mark {
	m := mark{numbers: len(w.Values)}
	given := map[string]float64{}
	repeated := map[string]bool{}
	for key, r := range readings(s) {
		if !r.Certain() {
			continue
		}
		value := r.Value.In(w.Unit)
		if _, twice := given[key]; twice {
			repeated[key] = true
		}
		given[key] = value
	}
	for _, key := range slices.Sorted(maps.Keys(given)) {
		if written, stands := w.Values[key]; !stands || math.Abs(written-given[key]) > sameNumber || repeated[key] {
			m.wrong = append(m.wrong, fmt.Sprintf("%s %g", key, given[key]))
		}
	}
	for _, key := range slices.Sorted(maps.Keys(w.Values)) {
		if _, ok := given[key]; !ok {
			m.left = append(m.left, key)
		}
	}
	return m
}

// readings yields every number of a survey under its key.
func readings(s parse.Survey) func(yield func(string, parse.Reading) bool) {
	return func(yield func(string, parse.Reading) bool) {
		for _, m := range parse.OnceMeasures() {
			if !yield(string(m), *s.Once(m)) {
				return
			}
		}
		for _, st := range s.Stations {
			at := st.At.In(s.Unit)
			if !yield(fmt.Sprintf("%s@%g", parse.HullGirth, at), st.HullGirth) || !yield(fmt.Sprintf("%s@%g", parse.FullGirth, at), st.FullGirth) {
				return
			}
		}
	}
}

// figures sums marks up.
type figures struct {
	layouts, numbers, right, left, silent int
}

// lastNumber is the end of the name of a file of one layout among several.
var lastNumber = regexp.MustCompile(`-[^-]*$`)

func total(marks []mark) figures {
	var f figures
	layouts := map[string]bool{}
	for _, m := range marks {
		layouts[lastNumber.ReplaceAllString(m.file, "")] = true
		f.numbers += m.numbers
		f.left += len(m.left)
		f.silent += len(m.wrong)
		if m.right() {
			f.right++
		}
	}
	f.layouts = len(layouts)
	return f
}
