package digits

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"testing"
)

func TestDecodeDamaged(t *testing.T) {
	long := append(bytes.Clone(weightsFile), 0)
	for name, data := range map[string][]byte{
		"empty":     nil,
		"no mark":   []byte("XXXX12345"),
		"cut":       weightsFile[:len(weightsFile)-1],
		"too long":  long,
		"only mark": []byte("FTD2\xff\x00\x00\x80\x3f"),
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
