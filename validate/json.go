package validate

import (
	"encoding/json"
	"math"

	"fairtape/parse"
	"fairtape/validate/slip"
)

type reportJSON struct {
	Files    []string        `json:"files"`
	Survey   parse.Survey    `json:"survey"`
	Findings []findingJSON   `json:"findings"`
	Problems []parse.Problem `json:"problems"`
	Verdict  Verdict         `json:"verdict"`
}

type findingJSON struct {
	Kind         Kind           `json:"kind"`
	Rule         Rule           `json:"rule"`
	At           *float64       `json:"at"`
	Rows         []float64      `json:"rows"`
	Measure      *parse.Measure `json:"measure"`
	Read         *float64       `json:"read"`
	Expected     *float64       `json:"expected"`
	ExpectedLow  *float64       `json:"expected_low"`
	ExpectedHigh *float64       `json:"expected_high"`
	Slip         *slip.Kind     `json:"slip"`
	Suggest      *float64       `json:"suggest"`
	Probability  float64        `json:"probability"`
	Message      string         `json:"message"`
}

// JSON returns the report of these files as scripts read it: one object whose
// keys are always there, null or [] for what is absent, with every length a
// number in the survey's unit.
func (r Report) JSON(files []string) ([]byte, error) {
	out := reportJSON{
		Files:    append([]string{}, files...),
		Survey:   r.Survey,
		Findings: []findingJSON{},
		Problems: append([]parse.Problem{}, r.Problems...),
		Verdict:  r.Verdict,
	}
	for _, f := range r.Findings {
		out.Findings = append(out.Findings, f.encode(r.Survey.Unit))
	}
	return json.Marshal(out)
}

func (f Finding) encode(unit parse.Unit) findingJSON {
	number := func(l *parse.Length) *float64 {
		if l == nil {
			return nil
		}
		v := l.In(unit)
		return &v
	}
	// What we expect is an estimate: more digits would claim too much.
	estimate := func(l *parse.Length) *float64 {
		v := number(l)
		if v != nil {
			*v = math.Round(*v*100) / 100
		}
		return v
	}
	out := findingJSON{
		Kind: f.Kind, Rule: f.Rule, Rows: []float64{},
		Read: number(f.Read), Expected: estimate(f.Expected), ExpectedLow: estimate(f.Low), ExpectedHigh: estimate(f.High),
		Suggest: number(f.Suggest), Probability: f.Probability, Message: f.Message,
	}
	for _, at := range f.Rows {
		out.Rows = append(out.Rows, at.In(unit))
	}
	if f.Cell.Measure != "" {
		out.Measure = &f.Cell.Measure
	}
	if atStation(f.Cell.Measure) || f.Cell.At != 0 {
		out.At = number(&f.Cell.At)
	}
	if f.Slip != slip.None {
		out.Slip = &f.Slip
	}
	return out
}

// atStation reports a measure that every station has, so that its place has
// to be named.
func atStation(m parse.Measure) bool {
	return m == parse.HullGirth || m == parse.FullGirth || m == parse.MeasurePair
}
