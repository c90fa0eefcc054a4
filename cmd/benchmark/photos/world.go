package photos

import (
	"context"
	"fmt"
	"math/rand/v2"
	"sync"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/pdf"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
	draw "fairtape/reply/form"
	"fairtape/validate/known"
)

// world makes filled forms and photos of them from a seed.
type world struct {
	seed    uint64
	digits  *phototest.Digits
	printer *printer
}

// trouble is what goes wrong while people write, in shares of all digits;
// common practice, no source.
var trouble = phototest.Trouble{Rewritten: 0.002, Overwritten: 0.002, Notes: 0.01}

// strokesShare is how many of the writers write strokes of our own; the others
// write MNIST's digits.
const strokesShare = 0.3

// shot is one photo with what is written on it.
type shot struct {
	photo   *phototest.Photo
	layout  form.Layout
	page    int
	written []phototest.Written
}

// shoot makes photo i of a grade.
func (w *world) shoot(grade phototest.Grade, i int) (shot, error) {
	rng := rand.New(rand.NewPCG(w.seed, uint64(i)))
	spec := form.Spec{Paper: form.Letter, Unit: parse.Inch}
	if rng.IntN(2) == 0 {
		spec.Paper = form.A4
	}
	if rng.IntN(3) == 0 {
		spec.Unit = parse.Centimetre
	}
	boat := known.Draw(rng, known.Ordinary, known.HomeTape(spec.Unit))
	spec.Rows = max(1, min(form.Rows(boat.Survey.LengthOverall.Value, spec.Unit), form.MostRows))
	spec.Job = 1 + rng.IntN(900)
	const page = 2
	sheet, err := w.printer.sheet(spec, page)
	if err != nil {
		return shot{}, err
	}
	digits := w.digits
	if rng.Float64() < strokesShare {
		digits = nil
	}
	hand := phototest.NewHand(digits, rng)
	written := sheet.Fill(hand, phototest.Values(boat.Survey), trouble, rng)
	sheet.Grain(rng)
	camera := phototest.NewCamera(grade, rng)
	return shot{sheet.Photograph(camera, rng), sheet.Layout, page, written}, nil
}

// taken photographs a sheet as a telephone of a grade does, and opens the file.
func taken(sheet *phototest.Sheet, grade phototest.Grade, rng *rand.Rand) (*photo.Picture, error) {
	data, err := sheet.Photograph(phototest.NewCamera(grade, rng), rng).JPEG()
	if err != nil {
		return nil, err
	}
	pictures, _, err := photo.Decode(data)
	if err != nil {
		return nil, err
	}
	return pictures[0], nil
}

// printer draws forms and keeps what it drew.
type printer struct {
	lock   sync.Mutex
	sheets map[form.Spec]*phototest.Print
	pdf    pdf.Reader
}

// newPrinter keeps the compiled PDF reader in a folder, which makes all starts
// but the first quick.
func newPrinter(cache string) *printer {
	return &printer{sheets: map[form.Spec]*phototest.Print{}, pdf: pdf.Reader{Cache: cache}}
}

// printDPI is the resolution of the print, that of a plain home printer.
const printDPI = 300

// sheet prints a page of the form, without a job so that forms repeat.
func (p *printer) sheet(spec form.Spec, page int) (*phototest.Sheet, error) {
	p.lock.Lock()
	defer p.lock.Unlock()
	spec.Job = 0
	if drawn, ok := p.sheets[spec]; ok {
		return drawn.Sheet(), nil
	}
	file, layout, err := draw.PDF(spec, draw.Words{})
	if err != nil {
		return nil, err
	}
	pages, err := p.pdf.Pages(context.Background(), file, printDPI, []int{page})
	if err != nil {
		return nil, fmt.Errorf("print the form: %w", err)
	}
	if pages[0] == nil {
		return nil, fmt.Errorf("print the form: page %d was not drawn", page)
	}
	drawn := phototest.NewPrint(layout, page, pages[0])
	p.sheets[spec] = drawn
	return drawn.Sheet(), nil
}
