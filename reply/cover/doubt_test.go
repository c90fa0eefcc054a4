package cover

import (
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate/fair"
)

func TestFromCurve(t *testing.T) {
	for name, c := range map[string]struct {
		stations    []float64
		first, last int
	}{
		"none":                        {nil, 0, -1},
		"all within a foot of an end": {[]float64{6, 96}, 2, -1},
		"every foot":                  {[]float64{12, 24, 36, 48, 60, 72, 84, 96}, 0, 6},
		"finer at the ends":           {[]float64{6, 12, 24, 84, 90, 96}, 1, 4},
	} {
		if first, last := FromCurve(c.stations, 101); first != c.first || last != c.last {
			t.Errorf("%s: %d to %d, want %d to %d", name, first, last, c.first, c.last)
		}
	}
}

// flat is a curve that is sure but abaft a place.
type flat struct{ doubtFrom, sd float64 }

func (c flat) At(x float64) (hull, full fair.Estimate) {
	if x > c.doubtFrom {
		return fair.Estimate{Mean: 40, SD: c.sd}, fair.Estimate{Mean: 60, SD: c.sd}
	}
	return fair.Estimate{Mean: 40, SD: 0.1}, fair.Estimate{Mean: 60, SD: 0.1}
}

func (c flat) Span() (from, to float64) { return 0, 100 }

func TestDoubt(t *testing.T) {
	stations := []float64{12, 24, 36, 48, 60, 72, 84, 96}
	sheet := func(c flat, traced [2]*Profile) CutSheet {
		s := CutSheet{Unit: parse.Inch, Order: Order{Profiles: traced}}
		s.Hull.X = []float64{0, 100}
		s.reckon(c, stations)
		return s
	}
	for name, c := range map[string]struct {
		curve  flat
		traced [2]*Profile
		words  string
		note   string // "" for none
	}{
		"sure everywhere": {curve: flat{100, 0}, words: "within 1/4 in; halfway from 1 ft to the bow, which is from tracing, to within 1/4 in; halfway from 7 ft to the stern, which is from tracing, to within 1/4 in"},
		"both ends traced": {curve: flat{100, 0}, traced: [2]*Profile{{}, {}},
			words: "between the stations it knows the full girth to within 1/4 in"},
		"in doubt from 5 ft on": {curve: flat{60, 1.5}, traced: [2]*Profile{{}, {}},
			words: "within 1 in, but see below", note: "Between 5 ft and 7 ft the curve knows the full girth to within 3 in only"},
		"in doubt abaft the last station alone": {curve: flat{84, 3}, traced: [2]*Profile{{}, nil},
			words: "within 1/4 in; halfway from 7 ft to the stern, which is from tracing, to within 6 in"},
	} {
		s := sheet(c.curve, c.traced)
		if got := s.SureWords(); !strings.HasSuffix(got, c.words) {
			t.Errorf("%s: %q", name, got)
		}
		notes := s.doubtNotes()
		if c.note == "" && len(notes) > 0 || c.note != "" && (len(notes) != 1 || !strings.HasPrefix(notes[0], c.note)) {
			t.Errorf("%s: %q", name, notes)
		}
	}
}

// Too few stations to cut from are refused elsewhere; here nothing is said of
// them.
func TestDoubtOfFewStations(t *testing.T) {
	for _, stations := range [][]float64{nil, {6}} {
		s := CutSheet{}
		s.Hull.X = []float64{0, 100}
		if s.reckon(flat{}, stations); len(s.Stretches) > 0 || s.Beyond[0].Within != 0 {
			t.Errorf("%v: %v, %v", stations, s.Stretches, s.Beyond)
		}
	}
}
