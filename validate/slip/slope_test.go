package slip

import (
	"math"
	"testing"

	"fairtape/validate/fair"
)

// TestSlopes holds the slopes of girths a foot apart. The last row's is bounded
// by twice the slope inside of it.
func TestSlopes(t *testing.T) {
	for _, test := range []struct {
		name        string
		hulls, want []float64 // inches, inches per foot
	}{
		{"one row", []float64{30}, []float64{0}},
		{"two rows", []float64{30, 36}, []float64{0, 0}},
		{"level", []float64{30, 30, 30}, []float64{0, 0, 0}},
		{"even", []float64{30, 36, 42, 48}, []float64{6, 6, 6, 6}},
		{"rising ever less", []float64{20, 32, 38, 40}, []float64{12, 6, 2, 2}},
		{"the ends far steeper", []float64{10, 38, 40, 12}, []float64{4, 2, 0, 0}},
		{"a wrong number makes no place steep", []float64{30, 36, 142, 48, 54}, []float64{6, 6, 0, 0, 0}},
	} {
		t.Run(test.name, func(t *testing.T) {
			var data []fair.Datum
			for i, h := range test.hulls {
				data = append(data, fair.Datum{X: 12 * float64(i+1), Hull: 1, Value: h})
			}
			// What is known of an end is no row.
			data = append(data, fair.Datum{X: 0, Hull: 1, Value: 90, Fixed: true})
			for i, got := range slopes(data)[:len(test.want)] {
				if math.Abs(got*12-test.want[i]) > 1e-9 {
					t.Errorf("row %d: %v in per foot, want %v", i+1, got*12, test.want[i])
				}
			}
		})
	}
}

// TestSlopesPassOverTheGreatest holds that a place beside a station makes
// neither steep.
func TestSlopesPassOverTheGreatest(t *testing.T) {
	data := []fair.Datum{{X: 12, Hull: 1, Value: 30}, {X: 24, Hull: 1, Value: 36}, {X: 25, Hull: 1, Value: 38}, {X: 36, Hull: 1, Value: 42}}
	if got := slopes(data)[1] * 12; math.Abs(got-6) > 1e-9 {
		t.Errorf("%v in per foot, want 6", got)
	}
}
