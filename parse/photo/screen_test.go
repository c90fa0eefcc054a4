package photo

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The dots of a screen stand out of the grain, however that was smoothed.
func TestFinePeak(t *testing.T) {
	for _, test := range []struct {
		name    string
		smooth  int     // pixels over which the telephone smooths
		stripes float64 // how light they are
		want    bool
	}{
		{"grain", 1, 0, false}, {"smoothed grain", 4, 0, false}, {"much smoothed", 7, 0, false},
		{"stripes", 1, 10, true}, {"stripes in smoothed grain", 4, 4, true},
	} {
		rng := rand.New(rand.NewPCG(5, 6))
		grain := make([]float64, patchSide*patchSide+8)
		for i := range grain {
			grain[i] = 12 * rng.NormFloat64()
		}
		p := newPlane(patchSide, patchSide)
		for i := range p.pix {
			light := 150 + test.stripes*math.Cos(2*math.Pi*float64(i%patchSide)/3.7)
			for j := range test.smooth {
				light += grain[i+j] / float64(test.smooth)
			}
			p.pix[i] = byte(light)
		}
		if peak := finePeak(p, 0, 0); (peak > screenPeak) != test.want {
			t.Errorf("%s: a peak of %.1f, want one over %v: %v", test.name, peak, screenPeak, test.want)
		}
	}
}
