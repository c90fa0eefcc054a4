package photo

import (
	"fmt"

	"fairtape/parse"
)

// sameTry is how far apart two tries of one number may come out and still say
// the same: half an inch (common practice, no source).
const sameTry = parse.Length(12.7 + 0.01)

// settled are the cells with the tries of each number made one, as they are
// everywhere: the lower of two that agree; tries that differ give no value.
func settled(cells []Cell, unit parse.Unit) (out []Cell, problems []parse.Problem) {
	at := map[parse.Cell]int{}
	for _, c := range cells {
		i, seen := at[c.Cell]
		if !seen {
			at[c.Cell] = len(out)
			out = append(out, c)
			continue
		}
		reading, agree := bothTries(out[i].Reading, c.Reading)
		if !agree {
			problems = append(problems, parse.Problem{Code: parse.CodeSecondTry, Source: reading.Source,
				Message: fmt.Sprintf("The tries differ by more than half an inch: %v and %v.", out[i].Reading.Value.In(unit), c.Reading.Value.In(unit))})
		}
		out[i].Reading, out[i].Bounds = reading, out[i].Bounds.Union(c.Bounds)
	}
	return out, problems
}

func bothTries(a, b parse.Reading) (r parse.Reading, agree bool) {
	r = a
	if b.Known && (!a.Known || b.Value < a.Value) {
		r = b
	}
	r.Source = a.Source
	r.Source.Raw = a.Source.Raw + " / " + b.Source.Raw
	r.Confidence = min(a.Confidence, b.Confidence)
	if a.Certain() && b.Certain() && max(a.Value-b.Value, b.Value-a.Value) > sameTry {
		r.Known, r.Value, r.Confidence = false, 0, 0
		r.Alternatives = []parse.Candidate{{Value: a.Value, Probability: 0.5}, {Value: b.Value, Probability: 0.5}}
		return r, false
	}
	return r, true
}
