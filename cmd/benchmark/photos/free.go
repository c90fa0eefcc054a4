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
			counts := make([]tally, c.Free)
			unread := make([]int, c.Free)
			err := figures.Each(c.Free, c.Side, func(i int) error {
				var failed error
				counts[i], unread[i], failed = w.freeTable(reader, kind == "written", grade, i)
				return failed
			})
			if err != nil {
				return err
			}
			var all tally
			left := 0
			for i, t := range counts {
				all.add(t)
				left += unread[i]
			}
			all.print(out, fmt.Sprintf("%s, %s", kind, grade), fmt.Sprintf("%d of %d left to a person", left, c.Free))
		}
	}
	return nil
}

// freeTable photographs and reads one table. Numbers at stations that nobody
// wrote count as silent.
func (w *world) freeTable(reader *photo.Reader, written bool, grade phototest.Grade, i int) (count tally, unread int, err error) {
	rng := rand.New(rand.NewPCG(w.seed+2e6, uint64(i)))
	boat := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
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
		return count, 0, err
	}
	sheet.Grain(rng)
	data, err := sheet.Photograph(phototest.NewCamera(grade, rng), rng).JPEG()
	if err != nil {
		return count, 0, err
	}
	pictures, _, err := photo.Decode(data)
	if err != nil {
		return count, 0, err
	}
	doc := reader.Read("table.jpg", pictures[0])
	if len(doc.Surveys) == 0 {
		return tally{sent: len(truth)}, 1, nil
	}
	known := 0
	for _, v := range truth {
		r := numberIn(doc.Surveys[0], v.Cell)
		count.count(r, v.Length)
		if r.Certain() {
			known++
		}
	}
	doc.Surveys[0].Each(func(r *parse.Reading) {
		if r.Certain() {
			known--
		}
	})
	count.silent += max(-known, 0)
	return count, 0, nil
}
