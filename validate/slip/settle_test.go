package slip

import (
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

// photographed makes number k of a survey a doubtful reading of two values.
func photographed(s parse.Survey, k int, value, other float64, confidence float64) parse.Survey {
	s = clone(s)
	s.Stations[k].HullGirth = parse.Reading{Value: parse.Inches(value), Known: true, Confidence: confidence,
		Alternatives: []parse.Candidate{{Value: parse.Inches(other), Probability: 0.99 - confidence}}}
	return s
}

func TestSettleReadsWithTheCurve(t *testing.T) {
	sheet := known.Draw(rand.New(rand.NewPCG(3, 1)), known.Ordinary, known.HomeTape(parse.Inch))
	const k = 5
	truth := sheet.Survey.Stations[k].HullGirth.Value.In(parse.Inch)
	for _, test := range []struct {
		name         string
		value, other float64
		confidence   float64
		want         float64 // 0: a person has to say
	}{
		{"a slip that was surely written is not read away", truth + 10, truth, 0.985, 0},
		{"nor when the other was held for possible", truth + 10, truth, 0.92, 0},
		{"neither fits", truth + 20, truth - 20, 0.6, 0},
		{"the likelier reading is wrong", truth + 5, truth, 0.6, truth},
		{"the likelier reading is right", truth, truth + 5, 0.6, truth},
	} {
		t.Run(test.name, func(t *testing.T) {
			got := Settle(photographed(sheet.Survey, k, test.value, test.other, test.confidence)).Stations[k].HullGirth
			if got.Certain() != (test.want != 0) || got.Certain() && got.Value.In(parse.Inch) != test.want {
				t.Errorf("got %v at %.3f, want %v", got.Value.In(parse.Inch), got.Confidence, test.want)
			}
		})
	}
}

func TestSettleLeavesTypedNumbers(t *testing.T) {
	sheet := known.Draw(rand.New(rand.NewPCG(3, 2)), known.Ordinary, known.HomeTape(parse.Inch))
	got := Settle(sheet.Survey)
	for i, st := range got.Stations {
		if st.HullGirth.Value != sheet.Survey.Stations[i].HullGirth.Value || st.HullGirth.Confidence != parse.Typed {
			t.Errorf("station %d changed to %v", i, st.HullGirth)
		}
	}
}

// Where nobody knows how long the boat is, no number lies beyond the last
// station: what is doubtful there is left to a person.
func TestSettleLeavesTheLastStation(t *testing.T) {
	sheet := known.Draw(rand.New(rand.NewPCG(3, 1)), known.Ordinary, known.HomeTape(parse.Inch))
	last := len(sheet.Survey.Stations) - 1
	truth := sheet.Survey.Stations[last].HullGirth.Value.In(parse.Inch)
	doubtful := photographed(sheet.Survey, last, truth, truth+30, 0.6)
	if got := Settle(doubtful).Stations[last].HullGirth; !got.Certain() {
		t.Errorf("with the length: %.3f sure", got.Confidence)
	}
	doubtful.LengthOverall = parse.Reading{}
	if got := Settle(doubtful).Stations[last].HullGirth; got.Certain() {
		t.Errorf("without the length: %.3f sure", got.Confidence)
	}
}
