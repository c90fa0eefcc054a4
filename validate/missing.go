package validate

import (
	"math"

	"fairtape/parse"
)

// MissingNumber is the rule that a survey is whole.
const MissingNumber Rule = "missing"

// missing lists what the customer is asked to supply, one finding per thing; a
// run of blank stations is one thing.
func missing(s parse.Survey) []Finding {
	var out []Finding
	add := func(m parse.Measure, r parse.Reading) {
		if r.Absent() {
			out = append(out, Finding{Kind: Missing, Rule: MissingNumber, Cell: parse.Cell{Measure: m},
				Message: names[m] + " is missing"})
		}
	}
	add(parse.LengthOverall, s.LengthOverall)
	add(parse.BowHeight, s.BowHeight)
	add(parse.SternHeight, s.SternHeight)
	add(parse.CarryPoint, s.CarryPoint)
	if s.Greatest.HullGirth.Absent() && s.Greatest.FullGirth.Absent() {
		out = append(out, Finding{Kind: Missing, Rule: MissingNumber, Cell: parse.Cell{Measure: parse.GreatestPair},
			Message: names[parse.GreatestPair] + " is missing"})
	}
	return append(out, missingRows(s)...)
}

// lastStation is how near the stern the last station may be left out, inches.
// Common practice, no source.
const lastStation = 4

func missingRows(s parse.Survey) []Finding {
	if !s.LengthOverall.Certain() {
		return nil
	}
	pitch := spacing(s)
	want := int(math.Ceil(s.LengthOverall.Value.In(parse.Inch)/pitch.In(parse.Inch)-1e-9)) - 1
	if want < 1 || want > 200 {
		return nil
	}
	have := map[int]parse.Pair{}
	for _, st := range s.Stations {
		k := float64(st.At / pitch)
		if math.Abs(k-math.Round(k)) < 0.01 {
			have[int(math.Round(k))] = st.Pair
		}
	}
	var out []Finding
	var run []parse.Length
	flush := func() {
		if len(run) > 0 {
			m := "the station at " + distance(run[0], s.Unit) + " is missing"
			if len(run) > 1 {
				m = "the stations from " + distance(run[0], s.Unit) + " to " + distance(run[len(run)-1], s.Unit) + " are missing"
			}
			out = append(out, Finding{Kind: Missing, Rule: MissingNumber, Rows: run, Message: m})
		}
		run = nil
	}
	for k := 1; k <= want; k++ {
		p, ok := have[k]
		at := parse.Length(k) * pitch
		near := s.LengthOverall.Value-at <= parse.Inches(lastStation)
		switch {
		case (!ok || p.HullGirth.Absent() && p.FullGirth.Absent()) && !near:
			run = append(run, at)
			continue
		case ok && p.HullGirth.Absent() != p.FullGirth.Absent():
			m := parse.HullGirth
			if p.FullGirth.Absent() {
				m = parse.FullGirth
			}
			c := parse.Cell{At: at, Measure: m}
			out = append(out, Finding{Kind: Missing, Rule: MissingNumber, Cell: c, Message: place(c, s.Unit) + " is missing"})
		}
		flush()
	}
	flush()
	return out
}

// spacing returns the distance between stations: the customer's if it can be
// told, else a foot or 30 cm.
func spacing(s parse.Survey) parse.Length {
	usual := parse.Inches(12)
	if s.Unit == parse.Centimetre {
		usual = parse.Centimetres(30)
	}
	return usual
}
