package curves

import (
	"fmt"
	"io"
	"slices"
	"time"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// printer writes figures beside their targets, counts those met, and keeps the
// first error of its writer.
type printer struct {
	out        io.Writer
	err        error
	met, short int
}

func (p *printer) printf(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.out, format, args...)
	}
}

// verdict counts a figure and says whether it is good enough.
func (p *printer) verdict(good bool) string {
	if good {
		p.met++
		return "ok"
	}
	p.short++
	return "short"
}

// percent returns a share beside its lower limit, as in "97.2/95 ok".
func (p *printer) percent(share, target float64) string {
	if target == 0 {
		return fmt.Sprintf("%.1f", 100*share)
	}
	return fmt.Sprintf("%.1f/%.0f %s", 100*share, 100*target, p.verdict(share >= target))
}

// few returns a number per survey beside its upper limit.
func (p *printer) few(x, most float64) string {
	return fmt.Sprintf("%.3f/%.2f %s", x, most, p.verdict(x <= most))
}

// printClean writes what is asked for on boats in which nothing is wrong.
func printClean(p *printer, b bench) {
	p.printf("\nNothing wrong: sound numbers asked for, per survey\n%-22s %-18s", "boats", "fairtape / at most")
	for _, j := range b.judges[1:] {
		p.printf(" %14s", j.name)
	}
	p.printf("\n")
	printClasses(p, b, everyClass())
	b.family = known.WorkBoat
	printClasses(p, b, known.WorkBoats())
}

// printClasses writes a line for each of the classes.
func printClasses(p *printer, b bench, classes []known.Class) {
	for _, class := range classes {
		trials := b.clean(class)
		most := cleanOdd
		if class == known.Ordinary {
			most = cleanOrdinary
		}
		for i, j := range b.judges {
			t := j.count(trials)
			asked := t.share(t.needless)
			if i == 0 {
				p.printf("%-22s %-18s", class, p.few(asked, most))
				continue
			}
			p.printf(" %14.3f", asked)
		}
		p.printf("\n")
	}
}

// printSlips writes how surveys with one slip are judged: ours beside the
// targets, then the rivals on the same surveys.
func printSlips(p *printer, b bench) {
	p.printf("\nOne slip: asked for %%, beside what could be asked for with the true girths known; sound numbers\n" +
		"asked for, per survey; slip named %%, beside what could be named with the true girths known and how often\n" +
		"each slip happens; true value within 1 in of the suggested %%\n")
	p.printf("%-27s %-15s %7s  %-15s %-15s %7s  %-15s\n", "slip", "asked/least", "ceiling", "needless/most", "named/least", "ceiling", "value/least")
	rows := append(known.SingleSlips(), known.RowRepeated, known.RowSkipped, known.FromStern, known.HalfLost)
	theirs := make([]string, len(rows))
	for i, slip := range rows {
		trials := b.spoiled(slip)
		if len(trials) == 0 {
			p.printf("%-27s cannot happen on boats so measured\n", slip)
			continue
		}
		ceiling := fmt.Sprintf("%.1f", 100*b.ceiling(trials))
		if slip == known.FromStern {
			ceiling = "-"
		}
		t, target := b.judges[0].count(trials), targetOf(slip, b.tape.Unit)
		names := "-"
		if share, known := b.namedCeiling(trials); known {
			names = fmt.Sprintf("%.1f", 100*share)
		}
		p.printf("%-27s %-15s %7s  %-15s %-15s %7s  %-15s\n", slip,
			p.percent(t.share(t.found), target.found), ceiling, p.few(t.share(t.needless), needlessWithSlip),
			p.percent(t.share(t.named), target.named), names, p.percent(t.share(t.valued), target.valued))
		theirs[i] = fmt.Sprintf("%-27s", slip)
		for _, j := range b.judges[1:] {
			t := j.count(trials)
			theirs[i] += fmt.Sprintf(" %8.1f %6.2f", 100*t.share(t.found), t.share(t.needless))
		}
	}
	p.printf("\nThe same surveys, others: asked for %%, sound numbers asked for\n%-27s", "slip")
	for _, j := range b.judges[1:] {
		p.printf(" %15s", j.name)
	}
	p.printf("\n")
	for _, line := range theirs {
		if line != "" {
			p.printf("%s\n", line)
		}
	}
}

// printTwo writes how surveys with two slips are judged.
func printTwo(p *printer, b bench) {
	trials := b.spoiled(known.TwoSlips)
	p.printf("\nTwo slips: both asked for %%; ceiling %.1f\n", 100*b.ceiling(trials))
	for i, j := range b.judges {
		t := j.count(trials)
		least := 0.0
		if i == 0 {
			least = bothFound
		}
		p.printf("%-22s %s, needless %.3f per survey\n", j.name, p.percent(t.share(t.found), least), t.share(t.needless))
	}
}

// usualRows is how many stations a survey has on the mean.
const usualRows = 14

// printColumns writes how often the cause of a spoiled column is named.
func printColumns(p *printer, b bench) {
	p.printf("\nA whole column: cause named to the shop %% / at least\n")
	for _, cause := range known.ColumnCauses() {
		t := b.judges[0].count(b.spoiled(cause))
		p.printf("%-27s %-15s the customer is asked about something %.1f\n", cause, p.percent(t.share(t.named), columnNamed), 100*t.share(t.found))
	}
	asOne, byRows := b.openingCeiling(usualRows)
	p.printf("tape begins at 1 in: the opening control alone, its true value known, can tell %.1f %% where a needless\n"+
		"question counts as one number, %.1f %% where it counts as both girths of %d rows, %.1f %% where it is\n"+
		"named as soon as it is likelier than not to be the tape\n", 100*asOne, 100*byRows, usualRows, 100*b.openingLikelier())
}

// printKnown writes how boats with published or exact answers are judged.
func printKnown(p *printer) {
	p.printf("\nBoats with known answers\n")
	printed, errPrinted := known.Canoe1889(known.AsPrinted)
	fixed, errFixed := known.Canoe1889(known.SuspectsFixed)
	if errPrinted != nil || errFixed != nil {
		p.printf("the 1889 table cannot be read: %v %v\n", errPrinted, errFixed)
		p.short++
		return
	}
	untouched := []struct {
		name   string
		survey parse.Survey
	}{
		{"Wigley hull", known.Wigley().Exact(parse.Inch)},
		{"elliptical sections", known.Ellipse().Exact(parse.Inch)},
		{"box sections", known.Box().Exact(parse.Inch)},
		{"V sections", known.V().Exact(parse.Inch)},
		{"cut-down tripping canoe", known.TrippingCanoe()},
		{"1889 canoe, suspects fixed", fixed},
	}
	for _, u := range untouched {
		n := len(askedCells(ours(u.survey)))
		p.printf("%-27s asked for %d of its numbers: %s\n", u.name, n, p.verdict(n == 0))
	}
	const row = 13 * 12 // inches: the half-breadth of the deck is printed 0-04, likely for 0-40
	asked := slices.ContainsFunc(askedCells(ours(printed)), func(c parse.Cell) bool { return c.At == parse.Inches(row) })
	p.printf("%-27s asks for the row at 13 ft: %s\n", "1889 canoe, as printed", p.verdict(asked))
}

// askedCells returns every number asked for.
func askedCells(findings []validate.Finding) []parse.Cell {
	var out []parse.Cell
	for _, f := range findings {
		if f.Kind == validate.Recheck || f.Kind == validate.Confirm {
			out = append(out, cells(f)...)
		}
	}
	return out
}

// printTime writes how long one survey takes, one after the other.
func printTime(p *printer, b bench) {
	trials := b.clean(known.Ordinary)
	spent := make([]time.Duration, len(trials))
	for i, t := range trials {
		start := time.Now()
		ours(t.survey)
		spent[i] = time.Since(start)
	}
	slices.Sort(spent)
	middle := float64(spent[len(spent)/2].Microseconds()) / 1000
	p.printf("\nTime per survey on one core, median: %.2f ms, at most %d: %s\n", middle, millisecondsEach, p.verdict(middle <= millisecondsEach))
}
