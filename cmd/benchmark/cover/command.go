// Package cover measures how covers are cut: panels laid flat and sewn back
// against boats with exact answers, girths between the stations, cloth used on
// the roll beside the layout of boxes, and the time a cut sheet takes.
package cover

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"

	"fairtape/cmd/benchmark/figures"
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
	p := &figures.Printer{Out: out, Name: 72, Figure: 10}
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
	p.Printf("\n%d targets met, %d short\n", p.Met, p.Short)
	if p.Err == nil && c.Strict && p.Short > 0 {
		return ErrShort
	}
	return p.Err
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
