package photos

import (
	"errors"
	"fmt"
	"image"
	"image/draw"
	"io"
	"math/rand/v2"
	"slices"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
	"fairtape/validate/known"
)

// unusable are ways to take a photo that cannot do, with the reason that should
// be given.
var unusable = []struct {
	name  string
	want  parse.Code
	spoil func(*phototest.Camera, *rand.Rand)
	crop  bool
}{
	{"too dark", photo.CodeDark, func(c *phototest.Camera, rng *rand.Rand) { c.Exposure = 0.004 + 0.012*rng.Float64() }, false},
	{"blurred", photo.CodeBlurred, func(c *phototest.Camera, rng *rand.Rand) { c.Blur = (4 + 3*rng.Float64()) * float64(c.Width) / 1200 }, false},
	{"too small", photo.CodeSmall, func(c *phototest.Camera, rng *rand.Rand) {
		c.Width, c.Height, c.Share = 1200, 1600, 0.3+0.2*rng.Float64()
	}, false},
	{"corner missing", photo.CodeCorner, func(*phototest.Camera, *rand.Rand) {}, true},
	{"a screen", photo.CodeScreen, func(c *phototest.Camera, rng *rand.Rand) { c.Screen, c.Blur = 0.8, 2+rng.Float64() }, false},
}

// printUnusable says how many unusable photos are refused with the right reason.
func (c *Command) printUnusable(out io.Writer, reader *photo.Reader, w *world) error {
	fmt.Fprintf(out, "\nphotos that cannot do: refused with the right reason\n")
	for _, u := range unusable {
		codes := make([]parse.Code, c.Unusable)
		err := figures.Each(c.Unusable, c.Side, func(i int) (err error) {
			codes[i], err = w.refusal(reader, u.spoil, u.crop, i)
			return err
		})
		if err != nil {
			return err
		}
		refused := slices.DeleteFunc(codes, func(code parse.Code) bool { return code == "" })
		others := slices.DeleteFunc(slices.Clone(refused), func(code parse.Code) bool { return code == u.want })
		fmt.Fprintf(out, "  %-16s %d of %d; %d were read all the same", u.name, len(refused)-len(others), len(refused), c.Unusable-len(refused))
		if len(others) > 0 {
			slices.Sort(others)
			fmt.Fprintf(out, ", else %v", slices.Compact(others))
		}
		fmt.Fprintln(out)
	}
	return nil
}

// refusal spoils an ordinary photo and returns why it is refused, "" when it is
// read.
func (w *world) refusal(reader *photo.Reader, spoil func(*phototest.Camera, *rand.Rand), crop bool, i int) (parse.Code, error) {
	rng := rand.New(rand.NewPCG(w.seed+1e6, uint64(i)))
	sheet, err := w.printer.sheet(form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 14}, 2)
	if err != nil {
		return "", err
	}
	boat := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
	sheet.Fill(phototest.NewHand(w.digits, rng), phototest.Values(boat.Survey), trouble, rng)
	camera := phototest.NewCamera(phototest.Ordinary, rng)
	camera.Width, camera.Height = 1536, 2048
	spoil(&camera, rng)
	shot := sheet.Photograph(camera, rng)
	picture := shot.Picture
	if crop {
		// The side next to a mark is cut off with it.
		r := picture.Rect
		x, _ := shot.Place(form.MarkInset+form.MarkSide/2, form.MarkInset+form.MarkSide/2)
		if int(x) < r.Dx()/2 {
			r.Min.X = int(x)
		} else {
			r.Max.X = int(x)
		}
		cut := image.NewRGBA(image.Rect(0, 0, r.Dx(), r.Dy()))
		draw.Draw(cut, cut.Rect, picture, r.Min, draw.Src)
		picture = cut
	}
	_, err = reader.Page("photo.jpg", photo.NewPicture(picture))
	var fault *photo.Fault
	if errors.As(err, &fault) {
		return fault.Code, nil
	}
	return "", err
}
