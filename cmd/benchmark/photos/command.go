// Package photos measures the reader of photographed forms: boats are measured,
// written on the shop's own forms by hands that the number reader never saw,
// photographed, and read.
package photos

import (
	"fmt"
	"io"
	"os"
	"slices"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
)

// Command is the subcommand. Nobody tunes on the default seed: tuning takes
// seeds 1 to 99.
type Command struct {
	Seed      uint64 `default:"1889" help:"Seed of the boats, hands and photos; 1 to 99 are for tuning."`
	Count     int    `default:"20" help:"Photos a grade; one holds some 40 numbers."`
	Grade     string `default:"" help:"Only this grade: flat, ordinary or steep."`
	Digits    string `default:"" help:"Folder of the MNIST files; by default that of the Go module."`
	Rival     int    `default:"120" help:"Numbers a grade that Tesseract reads too, where it is installed."`
	Free      int    `default:"8" help:"Photos of tables on other papers, of each kind and grade."`
	Unusable  int    `default:"4" help:"Photos that cannot do, of each kind."`
	Keep      string `default:"" help:"Folder for photos with silent errors, to look at."`
	Side      int    `default:"0" help:"Photos made and read side by side; 0 for as many as there are processors."`
	MNIST     bool   `name:"mnist" help:"Only count the 10,000 test digits of MNIST, each by itself."`
	ReadPhoto string `default:"" hidden:"" help:"Read one file and say how long it took: how the program measures itself."`
}

// Run prints the tables.
func (c *Command) Run(out io.Writer) error {
	if c.ReadPhoto != "" {
		return readOne(out, c.ReadPhoto)
	}
	if c.Count < 1 {
		return fmt.Errorf("--count %d: at least 1", c.Count)
	}
	grades := phototest.Grades()
	if c.Grade != "" {
		if !slices.Contains(grades, phototest.Grade(c.Grade)) {
			return fmt.Errorf("--grade %q: one of %q", c.Grade, grades)
		}
		grades = []phototest.Grade{phototest.Grade(c.Grade)}
	}
	digits, err := c.digits()
	if err != nil {
		return err
	}
	if c.MNIST {
		return printDigits(out, digits, c.Side)
	}
	reader, err := photo.NewReader()
	if err != nil {
		return err
	}
	cache, err := os.MkdirTemp("", "photos-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(cache)
	w := &world{seed: c.Seed, digits: digits, printer: newPrinter(cache)}
	fmt.Fprintf(out, "%d photos a grade, seed %d; hands: MNIST's test digits and strokes of our own\n\n", c.Count, c.Seed)
	fmt.Fprintf(out, "%-10s %8s %8s %8s %8s  %-28s %s\n", "grade", "numbers", "right", "sent", "silent", "95 % bound of silent", "photos refused")
	for _, grade := range grades {
		all, refused, err := c.measure(reader, w, grade)
		if err != nil {
			return err
		}
		all.plain.print(out, string(grade), fmt.Sprintf("%d of %d; %d numbers crossed out or written over", refused, c.Count, all.plain.troubled))
		all.plain.printLevels(out)
		all.curve.print(out, "  + curve", "")
		all.slips.print(out)
		if err := printRival(out, w, grade, c.Rival); err != nil {
			return err
		}
	}
	if err := c.printFree(out, reader, w); err != nil {
		return err
	}
	if err := c.printUnusable(out, reader, w); err != nil {
		return err
	}
	return printCost(out, w)
}

func (c *Command) digits() (*phototest.Digits, error) {
	const unseen = "t10k" // MNIST's test digits
	if c.Digits != "" {
		return phototest.MNISTFrom(c.Digits, unseen)
	}
	return phototest.MNIST(unseen)
}

// measure reads the photos of one grade.
func (c *Command) measure(reader *photo.Reader, w *world, grade phototest.Grade) (all result, refused int, err error) {
	results := make([]result, c.Count)
	err = figures.Each(c.Count, c.Side, func(i int) error {
		var failed error
		results[i], failed = c.one(reader, w, grade, i)
		return failed
	})
	for _, r := range results {
		all.plain.add(r.plain)
		all.curve.add(r.curve)
		all.slips.add(r.slips)
		if r.refused {
			refused++
		}
	}
	return all, refused, err
}
