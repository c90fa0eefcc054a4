package photos

import (
	"bufio"
	"compress/gzip"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync/atomic"
	"time"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/parse/digits"
	"fairtape/parse/form"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
)

// Boxes is the subcommand that makes what the number reader learns from: boxes
// of photographed forms as it is given them, with what was written in each.
type Boxes struct {
	Digits  string   `required:"" help:"Folder of digits that people wrote, in files named and laid out as those of MNIST."`
	Sets    []string `required:"" help:"The sets of digits there to write with; a set named twice is written with twice as often."`
	Out     string   `required:"" help:"Folder for the boxes, a file a photo: of each box a byte of what it holds (10 nothing, 11 crossed out) and a byte of ink a pixel, all compressed by gzip."`
	Seed    uint64   `default:"1" help:"Seed of the forms, hands and photos."`
	Count   int      `default:"100" help:"Photos."`
	Seconds float64  `default:"0" help:"No photo is begun after so many seconds; 0 for as long as it takes."`
	Side    int      `default:"0" help:"Photos made side by side; 0 for as many as there are processors."`
}

// crossedOut is how many of the digits are crossed out: more than people do, so
// that there is something to learn from.
const crossedOut = 0.03

// Run makes the files.
func (b *Boxes) Run(out io.Writer) error {
	var hands []*phototest.Digits
	for _, set := range b.Sets {
		written, err := phototest.MNISTFrom(b.Digits, set)
		if err != nil {
			return err
		}
		hands = append(hands, written)
	}
	cache, err := os.MkdirTemp("", "photos-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(cache)
	w := &world{seed: b.Seed, printer: newPrinter(cache)}
	var boxes, refused atomic.Int64
	begun := time.Now()
	err = figures.Each(b.Count, b.Side, func(i int) error {
		if b.Seconds > 0 && time.Since(begun).Seconds() > b.Seconds {
			return nil
		}
		file := filepath.Join(b.Out, fmt.Sprintf("%d-%05d.boxes", b.Seed, i))
		n, err := w.writeBoxes(file, hands, i)
		if n == 0 && err == nil {
			refused.Add(1)
		}
		boxes.Add(int64(n))
		return err
	})
	fmt.Fprintf(out, "%d boxes in %.0f s; %d photos refused\n", boxes.Load(), time.Since(begun).Seconds(), refused.Load())
	return err
}

// writeBoxes makes photo i, writes its boxes to a file and says how many; none
// where the photo was refused. The file is there when it is whole.
func (w *world) writeBoxes(file string, hands []*phototest.Digits, i int) (n int, err error) {
	boxes, held, err := w.fullPage(hands, i)
	if err != nil || len(boxes) == 0 {
		return 0, err
	}
	f, err := os.Create(file + ".part")
	if err != nil {
		return 0, err
	}
	defer f.Close()
	buffer := bufio.NewWriter(f)
	z := gzip.NewWriter(buffer)
	for _, b := range boxes {
		if b.Ink == nil {
			continue
		}
		if _, err := z.Write(asBytes(held[phototest.BoxName{Field: b.Field.Name, Index: b.Index}], b.Ink)); err != nil {
			return 0, err
		}
		n++
	}
	if err := z.Close(); err != nil {
		return 0, err
	}
	if err := buffer.Flush(); err != nil {
		return 0, err
	}
	return n, os.Rename(file+".part", file)
}

func asBytes(held int, ink *digits.Box) []byte {
	out := []byte{byte(held)}
	for _, v := range ink {
		out = append(out, byte(math.Round(255*float64(v))))
	}
	return out
}

// fullPage photographs a form with a figure in most of its boxes, and finds these.
// There are none where the photo was refused.
func (w *world) fullPage(hands []*phototest.Digits, i int) ([]photo.DigitBox, map[phototest.BoxName]int, error) {
	rng := rand.New(rand.NewPCG(w.seed, uint64(i)))
	spec := form.Spec{Paper: form.Letter, Unit: parse.Inch, Rows: form.RowsPerPage}
	if rng.IntN(2) == 0 {
		spec.Paper = form.A4
	}
	if rng.IntN(2) == 0 {
		spec.Unit = parse.Centimetre
	}
	const page = 2
	sheet, err := w.printer.sheet(spec, page)
	if err != nil {
		return nil, nil, err
	}
	hand := phototest.NewHand(hands[rng.IntN(len(hands))], rng)
	held := sheet.FillBoxes(hand, crossedOut, rng)
	sheet.Grain(rng)
	grades := phototest.Grades()
	picture, err := taken(sheet, grades[rng.IntN(len(grades))], rng)
	if err != nil {
		return nil, nil, err
	}
	boxes, err := photo.DigitBoxes(picture)
	if err != nil {
		return nil, held, nil // such photos are read by nobody
	}
	return boxes, held, nil
}
