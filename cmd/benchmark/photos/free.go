package photos

import (
	"fmt"
	"io"
	"math/rand/v2"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
	"fairtape/validate/known"
	"fairtape/validate/slip"
)

// printFree measures tables on papers that are not ours: printed in fonts, and
// written by hands, that the number reader never saw.
func (c *Command) printFree(out io.Writer, reader *photo.Reader, w *world) error {
	if c.Free < 1 {
		return nil
	}
	fmt.Fprintf(out, "\n%d photos of free tables of each kind and grade\n", c.Free)
	for _, kind := range []string{"printed", "written"} {
		for _, grade := range []phototest.Grade{phototest.Flat, phototest.Ordinary} {
			results := make([]result, c.Free)
			err := figures.Each(c.Free, c.Side, func(i int) error {
				var failed error
				results[i], failed = w.freeTable(reader, kind == "written", grade, i)
				return failed
			})
			if err != nil {
				return err
			}
			var all result
			left := 0
			for _, r := range results {
				all.plain.add(r.plain)
				all.curve.add(r.curve)
				if r.refused {
					left++
				}
			}
			all.plain.print(out, fmt.Sprintf("%s, %s", kind, grade), fmt.Sprintf("%d of %d left to a person", left, c.Free))
			all.plain.printLevels(out)
			all.curve.print(out, "  + curve", "")
		}
	}
	return nil
}

// freeTable photographs and reads one table.
func (w *world) freeTable(reader *photo.Reader, written bool, grade phototest.Grade, i int) (r result, err error) {
	rng := rand.New(rand.NewPCG(w.seed+2e6, uint64(i)))
	unit := parse.Inch
	if rng.IntN(4) == 0 {
		unit = parse.Centimetre
	}
	boat := known.Draw(rng, known.Ordinary, known.HomeTape(unit))
	var hand *phototest.Hand
	if written {
		digits := w.digits
		if rng.Float64() < strokesShare {
			digits = nil
		}
		hand = phototest.NewHand(digits, rng)
	}
	sheet, truth, err := phototest.Free(boat.Survey, hand, rng)
	if err != nil {
		return r, err
	}
	sheet.Grain(rng)
	picture, err := taken(sheet, grade, rng)
	if err != nil {
		return r, err
	}
	doc := reader.Read("table.jpg", picture)
	if len(doc.Surveys) == 0 {
		return result{refused: true, plain: tally{sent: len(truth)}, curve: tally{sent: len(truth)}}, nil
	}
	r.plain.countAll(doc.Surveys[0], truth)
	r.curve.countAll(slip.Settle(doc.Surveys[0]), truth)
	return r, nil
}

// countAll counts all numbers of a survey; those at stations that nobody wrote
// are silent errors.
func (t *tally) countAll(s parse.Survey, truth []phototest.Written) {
	extra := 0
	s.Each(func(r *parse.Reading) {
		if r.Certain() {
			extra++
		}
	})
	for _, v := range truth {
		r := numberIn(s, v.Cell)
		t.count(r, v.Length)
		if r.Certain() {
			extra--
		}
	}
	t.silent += max(extra, 0)
}
