package photos

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"os/exec"
	"strconv"
	"strings"

	"golang.org/x/image/draw"

	"fairtape/parse/form"
	"fairtape/parse/photo/phototest"
)

// printRival lets Tesseract read numbers of the same photos, each cut out where
// it truly stands. Its half inches are taken from the truth: it reads figures.
func printRival(out io.Writer, w *world, grade phototest.Grade, most int) error {
	path, err := exec.LookPath("tesseract")
	if err != nil || most <= 0 {
		return nil
	}
	var t tally
	for i := 0; t.all() < most; i++ {
		s, err := w.shoot(grade, i)
		if err != nil {
			return err
		}
		for _, v := range s.written {
			for _, f := range s.layout.Fields {
				if f.Cell != v.Cell || f.Part != form.Whole || t.all() >= most {
					continue
				}
				text, err := tesseract(path, s.cut(f.Bounds()))
				if err != nil {
					return err
				}
				n, err := strconv.Atoi(text)
				switch {
				case err != nil:
					t.sent++
				case n == int(v.Length.In(s.layout.Unit)+0.01):
					t.right++
				default:
					t.silent++
				}
			}
		}
	}
	t.print(out, "  Tesseract", "")
	return nil
}

// cut straightens a rectangle of the page as the photo truly shows it.
func (s shot) cut(r form.Rect) *image.Gray {
	const perMM = 10
	r = r.Grow(1)
	cut := image.NewGray(image.Rect(0, 0, int(r.Width()*perMM), int(r.Height()*perMM)))
	b := s.photo.Picture.Bounds()
	for y := range cut.Rect.Dy() {
		for x := range cut.Rect.Dx() {
			px, py := s.photo.Place(r.X0+float64(x)/perMM, r.Y0+float64(y)/perMM)
			if p := image.Pt(int(px), int(py)); p.In(b) {
				cut.Set(x, y, s.photo.Picture.At(p.X, p.Y))
			}
		}
	}
	smooth := image.NewGray(cut.Rect)
	draw.CatmullRom.Scale(smooth, smooth.Rect, cut, cut.Rect, draw.Src, nil)
	return smooth
}

// tesseract reads one line of figures.
func tesseract(path string, picture image.Image) (string, error) {
	var in bytes.Buffer
	if err := png.Encode(&in, picture); err != nil {
		return "", err
	}
	cmd := exec.Command(path, "-", "-", "--psm", "7", "--dpi", "254", "-c", "tessedit_char_whitelist=0123456789")
	cmd.Stdin = &in
	text, err := cmd.Output()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return "", fmt.Errorf("run tesseract: %w", err)
	}
	return strings.TrimSpace(string(text)), nil
}
