// Package history measures what boats whose covers fitted add to the judge of
// girths: causes of a whole survey that are named with them and without, and
// what is said wrongly about sound surveys.
package history

import (
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/history"
	"fairtape/validate/known"
	"fairtape/validate/slip"
)

// ErrShort says that a figure falls short of its target.
var ErrShort = errors.New("a figure falls short of its target")

// Command is the subcommand. Tuning takes seeds 1 to 99.
type Command struct {
	Seed   uint64 `default:"2741" help:"Seed of the boats; 1 to 99 are for tuning."`
	Count  int    `default:"300" help:"Surveys a line."`
	Boats  int    `default:"40" help:"Boats whose covers fitted, beside the one of the same make."`
	Strict bool   `help:"End with status 1 when a target is missed."`
}

// betweenHulls is the standard deviation, in inches, of what two hulls of one
// make differ by all over: gunwales, and how tight a person pulls (from
// memory). It stands in for the error common to one survey.
const betweenHulls = 0.25

// The settings' costs by default.
const (
	costAsk  = 1
	costMiss = 30
)

// line is one line of the table.
type line struct {
	what  string
	spoil func(*rand.Rand, known.Sheet) (parse.Survey, bool)
	curve slip.Kind // what the curve calls it
	told  func(history.Likeness) bool
}

func lines() []line {
	column := func(s known.Slip) func(*rand.Rand, known.Sheet) (parse.Survey, bool) {
		return func(rng *rand.Rand, sheet known.Sheet) (parse.Survey, bool) {
			survey, _, ok := sheet.Spoil(rng, s)
			return survey, ok
		}
	}
	off := func(l history.Likeness) bool { return l.OffHull > 0 && l.OffFull > 0 }
	return []line{
		{"tape begins at 1 in", column(known.AllFromFirstMark), slip.TapeOffset, off},
		{"rows counted from the stern", column(known.FromStern), slip.FromStern, func(l history.Likeness) bool { return l.Rows == history.FromStern }},
		{"rows written a station too far aft", moved(1), slip.RowSkipped, func(l history.Likeness) bool { return l.Rows == history.TowardsStern }},
		{"rows written a station too far forward", moved(-1), slip.RowSkipped, func(l history.Likeness) bool { return l.Rows == history.TowardsBow }},
	}
}

// moved writes every row a station away, as one does who counts from a wrong
// mark. The row that falls off the boat is left out.
func moved(by int) func(*rand.Rand, known.Sheet) (parse.Survey, bool) {
	return func(_ *rand.Rand, sheet known.Sheet) (parse.Survey, bool) {
		survey := sheet.Survey
		survey.Stations = slices.Clone(survey.Stations)
		n := len(survey.Stations)
		if n < 7 {
			return survey, false
		}
		for i := range survey.Stations {
			if from := i - by; from >= 0 && from < n {
				survey.Stations[i].Pair = sheet.Survey.Stations[from].Pair
			}
		}
		if by > 0 {
			survey.Stations = survey.Stations[by:]
		} else {
			survey.Stations = survey.Stations[:n+by]
		}
		return survey, true
	}
}

// Run prints the table.
func (c *Command) Run(out io.Writer) error {
	if c.Count < 1 || c.Boats < 0 {
		return fmt.Errorf("--count %d --boats %d: at least 1 and 0", c.Count, c.Boats)
	}
	if _, err := fmt.Fprintf(out, "%d surveys a line, seed %d, inches; %d boats whose covers fitted, and one of the same make\n\n%-42s %10s %12s\n",
		c.Count, c.Seed, c.Boats, "", "curve", "with history"); err != nil {
		return err
	}
	for _, l := range lines() {
		alone, together := c.named(l)
		if _, err := fmt.Fprintf(out, "%-42s %9.1f%% %11.1f%%\n", l.what+", named", alone, together); err != nil {
			return err
		}
	}
	short := false
	for _, sound := range []struct {
		what   string
		sister bool
		most   float64 // percent
	}{
		{"sound, said to be off or moved as a whole", true, 5},
		{"sound stranger, likened to another boat", false, 5},
	} {
		share := c.wronglySaid(sound.sister)
		short = short || share > sound.most
		if _, err := fmt.Fprintf(out, "%-42s %10s %11.1f%%  (at most %v%%)\n", sound.what, "", share, sound.most); err != nil {
			return err
		}
	}
	if short && c.Strict {
		return ErrShort
	}
	return nil
}

// draw makes a sheet of a new boat, and the boats that the shop has on file:
// strangers, and with sister one survey of another hull of the same make.
func (c *Command) draw(rng *rand.Rand, sister bool) (known.Sheet, []history.Boat) {
	tape := known.HomeTape(parse.Inch)
	var filed []history.Boat
	for i := range c.Boats {
		other := known.Draw(rng, known.Ordinary, tape)
		other.Survey.Boat = "make " + strconv.Itoa(i)
		filed = append(filed, history.Boat{Job: i + 1, Survey: other.Survey})
	}
	sheet := known.Draw(rng, known.Ordinary, tape)
	sheet.Survey.Boat = "Heron"
	if sister {
		tape.Slack = math.Hypot(tape.Slack, betweenHulls)
		earlier := sheet.Boat.Measure(rng, tape)
		earlier.Boat = "Heron"
		filed = append(filed, history.Boat{Job: len(filed) + 1, Survey: earlier})
	}
	return sheet, filed
}

// named returns the percentage of surveys whose cause is named to the shop: by
// the curve alone, and by the curve or the boats on file.
func (c *Command) named(l line) (alone, together float64) {
	rng := rand.New(rand.NewPCG(c.Seed, 1))
	tried := 0
	for tried < c.Count {
		sheet, filed := c.draw(rng, true)
		survey, ok := l.spoil(rng, sheet)
		if !ok {
			continue
		}
		tried++
		findings := validate.Check(survey, nil, validate.Costs{Ask: costAsk, Miss: costMiss}).Findings
		byCurve := slices.ContainsFunc(findings, func(f validate.Finding) bool { return f.Slip == l.curve && len(f.Rows) > 0 })
		like, found := history.Nearest(survey, filed)
		if byCurve {
			alone++
		}
		if byCurve || found && like.Boat.Survey.Boat == "Heron" && l.told(like) {
			together++
		}
	}
	return 100 * alone / float64(tried), 100 * together / float64(tried)
}

// wronglySaid returns the percentage of sound surveys about which the boats on
// file say what is not so.
func (c *Command) wronglySaid(sister bool) float64 {
	rng := rand.New(rand.NewPCG(c.Seed, 2))
	wrong := 0
	for range c.Count {
		sheet, filed := c.draw(rng, sister)
		like, found := history.Nearest(sheet.Survey, filed)
		if found && (!sister || like.Rows != history.InPlace || like.OffHull != 0 || like.OffFull != 0) {
			wrong++
		}
	}
	return 100 * float64(wrong) / float64(c.Count)
}
