package curves

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/mat"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// arch returns stations at every foot of a 16 ft boat and a girth along them.
func arch() (x, y []float64) {
	for at := 12.0; at < 192; at += 12 {
		x = append(x, at)
		y = append(y, 43-18*math.Pow((at-96)/96, 2))
	}
	return x, y
}

// A spike of 10 in is the oddest point for every rival; without it nothing on a
// parabola is odd for those that fit one.
func TestRivalsSeeASpike(t *testing.T) {
	for name, score := range map[string]func(x, y []float64) []float64{"hampel": hampel, "loess": loess, "spline": spline} {
		x, y := arch()
		if calm := slices.Max(score(x, y)); name != "hampel" && calm > 1 {
			t.Errorf("%s: a parabola scores %v", name, calm)
		}
		y[6] += 10
		scores := score(x, y)
		if oddest := slices.Index(scores, slices.Max(scores)); oddest != 6 {
			t.Errorf("%s: point %d is the oddest, want 6: %.1f", name, oddest, scores)
		}
	}
}

// By hand: the window about the fourth point is 1 1 2 9 2 3 3, its median 2, its
// median absolute deviation 1.
func TestHampel(t *testing.T) {
	got := hampel(nil, []float64{1, 1, 2, 9, 2, 3, 3})
	if want := 7 / 1.4826; math.Abs(got[3]-want) > 1e-12 {
		t.Errorf("score %v, want %v", got[3], want)
	}
}

// A local parabola fits a parabola exactly.
func TestLoessKeepsParabolas(t *testing.T) {
	x, y := arch()
	for i, odd := range loess(x, y) {
		if odd > 1e-9 {
			t.Errorf("point %d scores %v", i, odd)
		}
	}
}

// The penalty is the integral of the squared second derivative of the natural
// cubic spline, here that of gonum's interp.
func TestPenalty(t *testing.T) {
	x, y := []float64{0, 1, 2.5, 3, 4.5, 6}, []float64{1, 3, 2, 5, 4, 4.5}
	unit := (x[5] - x[0]) / 5
	scaled := make([]float64, len(x))
	for i := range x {
		scaled[i] = x[i] / unit
	}
	var natural interp.NaturalCubic
	if err := natural.Fit(scaled, y); err != nil {
		t.Fatal(err)
	}
	const steps = 4000
	sum, width := 0.0, (scaled[5]-scaled[0])/steps
	for i := range steps {
		a := scaled[0] + float64(i)*width
		bend := (natural.PredictDerivative(a+width) - natural.PredictDerivative(a)) / width
		sum += bend * bend * width
	}
	v := mat.NewVecDense(len(y), y)
	if got := mat.Inner(v, penalty(x), v); math.Abs(got-sum) > 1e-3*sum {
		t.Errorf("penalty %v, want %v", got, sum)
	}
}

// With next to no smoothing, leaving a point out gives the natural cubic spline
// through the others, here gonum's.
func TestLeaveOneOut(t *testing.T) {
	x, y := arch()
	y[3], y[8] = y[3]+2, y[8]-1
	residual, leverage := smooth(x, y, 1e-7)
	for i := 1; i < len(x)-1; i++ {
		var natural interp.NaturalCubic
		if err := natural.Fit(slices.Concat(x[:i], x[i+1:]), slices.Concat(y[:i], y[i+1:])); err != nil {
			t.Fatal(err)
		}
		want := y[i] - natural.Predict(x[i])
		if got := residual[i] / (1 - leverage[i]); math.Abs(got-want) > 1e-3 {
			t.Errorf("point %d: left out it lies %v off, want %v", i, got, want)
		}
	}
}

// The greatest pair and the transom lie among the stations, each by its name.
func TestSeriesOf(t *testing.T) {
	survey := known.Wigley().Exact(parse.Inch)
	inch := func(x float64) parse.Reading {
		return parse.Reading{Value: parse.Inches(x), Known: true, Confidence: 1}
	}
	survey.Greatest = parse.Greatest{At: inch(102), Pair: parse.Pair{HullGirth: inch(43), FullGirth: inch(76)}}
	survey.Transom = parse.Pair{HullGirth: inch(24), FullGirth: inch(24.5)}
	for k, s := range seriesOf(survey) {
		if len(s.x) != 17 || !slices.IsSorted(s.x) {
			t.Fatalf("series at %v", s.x)
		}
		greatest := []parse.Measure{parse.GreatestHullGirth, parse.GreatestFullGirth}[k]
		transom := []parse.Measure{parse.TransomHullGirth, parse.TransomFullGirth}[k]
		if s.x[8] != 102 || s.cells[8].Measure != greatest || s.cells[16].Measure != transom {
			t.Errorf("cells %v", s.cells)
		}
	}
	survey.Greatest.At = inch(96.5) // at a station: adds nothing
	if s := seriesOf(survey)[0]; len(s.x) != 16 {
		t.Errorf("series at %v", s.x)
	}
}

// Odd points go one by one, so that neighbours of a gross one are left alone.
func TestRivalAsksForTheSpikeAlone(t *testing.T) {
	survey := known.Wigley().Exact(parse.Inch)
	survey.Stations[6].HullGirth.Value += parse.Inches(10)
	got := rival{"spline", spline}.findings(survey, 5)
	if len(got) != 1 || got[0].Cell != feet(7, parse.HullGirth) || got[0].Kind != validate.Recheck {
		t.Errorf("findings %+v", got)
	}
}
