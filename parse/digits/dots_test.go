package digits

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Products of eight rows at a time are those of gonum, of any length.
func TestDots(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for _, reach := range []int{1, 7, 8, 9, 16, 23, 216, 1368} {
		weights, rows := make([]float32, reach), make([]float32, together*reach)
		for i := range weights {
			weights[i] = rng.Float32() - 0.5
		}
		for i := range rows {
			rows[i] = rng.Float32() - 0.5
		}
		var got, want [together]float32
		dots(&got, weights, rows)
		plainDots(&want, weights, rows)
		for i := range want {
			if math.Abs(float64(got[i]-want[i])) > 1e-4 {
				t.Errorf("%d numbers, row %d: %v, want %v", reach, i, got[i], want[i])
			}
		}
	}
}
