// Package curves measures the judge of girths on simulated boats: how many
// slips it asks about, how many sound numbers it asks for needlessly, whether
// it names the slip and finds the true value, and whether its probabilities
// hold. Three published ways to find odd points in a series are measured on
// the same surveys.
package curves

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// ErrShort says that a figure falls short of its target.
var ErrShort = errors.New("a figure falls short of its target")

// Command is the subcommand.
//
// The default seed makes the boats of the published figures. Nobody tunes on
// it: tuning takes seeds 1 to 99.
type Command struct {
	Seed   uint64 `default:"1889" help:"Seed of the boats; 1 to 99 are for tuning the judge."`
	Count  int    `default:"500" help:"Surveys a class and a slip."`
	Class  string `default:"ordinary" help:"Boats that the slips befall; \"mixed\" for all classes."`
	Family string `default:"built" help:"How boats are drawn: built, or lofted, with other lines and sections, on which nothing was tuned."`
	Metric bool   `help:"Survey in centimetres."`
	Strict bool   `help:"End with status 1 when a target is missed."`
}

// The settings' costs by default: a needless question, a missed slip.
const (
	costAsk  = 1
	costMiss = 30
)

// classMixed stands for boats of all classes.
const classMixed = "mixed"

// Run prints the tables.
func (c *Command) Run(out io.Writer) error {
	if c.Count < 1 {
		return fmt.Errorf("--count %d: at least 1", c.Count)
	}
	if c.Class != classMixed && !slices.Contains(everyClass(), known.Class(c.Class)) {
		return fmt.Errorf("--class %q: one of %q, or mixed", c.Class, everyClass())
	}
	family, ok := families()[c.Family]
	if !ok {
		return fmt.Errorf("--family %q: built or lofted", c.Family)
	}
	unit := parse.Inch
	if c.Metric {
		unit = parse.Centimetre
	}
	b := bench{seed: c.Seed, count: c.Count, family: family, class: known.Class(c.Class), tape: known.HomeTape(unit)}
	b.judges = append([]judge{{name: "fairtape", findings: ours}}, rivals(b)...)
	p := &printer{out: out}
	p.printf("%d surveys a line, seed %d, %s; slips on %s boats, %s\n", b.count, b.seed, unitName(unit), c.Class, c.Family)
	printClean(p, b)
	printSlips(p, b)
	printTwo(p, b)
	printColumns(p, b)
	printKnown(p)
	printCalibration(p, b)
	printTime(p, b)
	if p.err != nil {
		return p.err
	}
	p.printf("\n%d targets met, %d short\n", p.met, p.short)
	if c.Strict && p.short > 0 {
		return ErrShort
	}
	return p.err
}

func unitName(u parse.Unit) string {
	if u == parse.Centimetre {
		return "centimetres"
	}
	return "inches"
}

// families returns the ways in which boats are drawn, by their names as a flag.
func families() map[string]known.Family {
	return map[string]known.Family{"built": known.Simulate, "lofted": known.Loft}
}

// everyClass returns the classes of boats, ordinary ones first.
func everyClass() []known.Class {
	return append([]known.Class{known.Ordinary}, known.OddClasses()...)
}

// judge is a way to say which numbers of a survey are to be asked for again.
type judge struct {
	name     string
	findings func(parse.Survey) []validate.Finding
}

func ours(s parse.Survey) []validate.Finding {
	return validate.Check(s, nil, validate.Costs{Ask: costAsk, Miss: costMiss}).Findings
}
