// Package cover measures how covers are cut: panels laid flat and sewn back
// against boats with exact answers, girths between the stations, cloth used on
// the roll beside the layout of boxes, and the time a cut sheet takes.
package cover

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"

	"fairtape/parse"
	"fairtape/reply/cover"
	"fairtape/validate"
	"fairtape/validate/known"
)

// ErrShort says that a figure falls short of its target.
var ErrShort = errors.New("a figure falls short of its target")

// Command is the subcommand. Nobody tunes on the default seed.
type Command struct {
	Seed   uint64 `default:"1889" help:"Seed of the boats; 1 to 99 are for tuning."`
	Count  int    `default:"200" help:"Simulated boats."`
	Strict bool   `help:"End with status 1 when a target is missed."`
}

// The targets.
const (
	relative      = 1e-9 // error of a perimeter
	sewnInches    = 0.25
	girthRMS      = 0.25 // inches
	girthMost     = 0.6
	lessCloth     = 0.12 // in the median
	millisecondsA = 1000.0
)

// Run prints the figures, each beside its target.
func (c *Command) Run(out io.Writer) error {
	if c.Count < 1 {
		return fmt.Errorf("--count %d: at least 1", c.Count)
	}
	p := &printer{out: out}
	perimeters(p)
	sewnBack(p)
	boats := c.boats()
	between(p, boats)
	for _, construction := range []cover.Construction{cover.Sides, cover.HullAndTop} {
		if err := roll(p, boats, construction); err != nil {
			return err
		}
	}
	if err := duration(p, boats); err != nil {
		return err
	}
	p.printf("\n%d targets met, %d short\n", p.met, p.short)
	if p.err == nil && c.Strict && p.short > 0 {
		return ErrShort
	}
	return p.err
}

// boat is a simulated boat, and what a careful person measures of it.
type boat struct {
	known  known.Boat
	exact  validate.Report // readings without error but their rounding
	report validate.Report // a home-made tape
}

func (c *Command) boats() []boat {
	rng := rand.New(rand.NewPCG(c.Seed, 1))
	costs := validate.Costs{Ask: 1, Miss: 30}
	all := make([]boat, c.Count)
	for i := range all {
		b := known.Simulate(rng, known.Ordinary)
		all[i] = boat{
			known:  b,
			exact:  validate.Check(b.Exact(parse.Inch), nil, costs),
			report: validate.Check(b.Measure(rng, known.HomeTape(parse.Inch)), nil, costs),
		}
	}
	return all
}

// printer writes figures beside their targets and counts those met.
type printer struct {
	out        io.Writer
	met, short int
	err        error
}

func (p *printer) printf(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.out, format, args...)
	}
}

// atMost writes a figure that must not be greater than its target.
func (p *printer) atMost(name string, figure, target float64, unit string) {
	p.verdict(name, figure, target, figure <= target, "at most", unit)
}

// atLeast writes a figure that must not be less than its target.
func (p *printer) atLeast(name string, figure, target float64, unit string) {
	p.verdict(name, figure, target, figure >= target, "at least", unit)
}

func (p *printer) verdict(name string, figure, target float64, ok bool, bound, unit string) {
	word := "met"
	if ok {
		p.met++
	} else {
		p.short++
		word = "SHORT"
	}
	p.printf("%-72s %10.3g %-3s %s %-6.3g %s\n", name, figure, unit, bound, target, word)
}

// figure writes one that has no target.
func (p *printer) figure(name string, figure float64, unit string) {
	p.printf("%-72s %10.3g %s\n", name, figure, unit)
}
