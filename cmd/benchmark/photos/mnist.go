package photos

import (
	"fmt"
	"io"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/parse/digits"
	"fairtape/parse/photo/phototest"
)

// printDigits reads each digit by itself and says how many are wrong when the
// best one is taken, however unsure.
func printDigits(out io.Writer, written *phototest.Digits, side int) error {
	reader, err := digits.NewReader()
	if err != nil {
		return err
	}
	type answer struct{ wrong, silent bool }
	type question struct {
		digit  int
		bitmap []byte
	}
	var all []question
	for digit, bitmaps := range written {
		for _, bitmap := range bitmaps {
			all = append(all, question{digit, bitmap})
		}
	}
	answers := make([]answer, len(all))
	err = figures.Each(len(all), side, func(i int) error {
		best, p := reader.Read(phototest.Box(all[i].bitmap)).Best()
		wrong := best != all[i].digit
		answers[i] = answer{wrong, wrong && p >= parse.Sure}
		return nil
	})
	wrong, silent := 0, 0
	for _, a := range answers {
		if a.wrong {
			wrong++
		}
		if a.silent {
			silent++
		}
	}
	fmt.Fprintf(out, "%d test digits of MNIST: %d wrong (%.2f %%; 95 %% bound %.2f %%), %d of them at %.2g or more\n",
		len(all), wrong, 100*float64(wrong)/float64(len(all)), 100*upperBound(wrong, len(all)), silent, parse.Sure)
	return err
}
