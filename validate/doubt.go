package validate

import (
	"slices"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// ReadingDoubt is the code of a reading that another candidate of the reader's
// fits the boat better than. A person of the shop looks at the page.
const ReadingDoubt parse.Code = "reading-doubt"

// Settle takes for certain what a reader of handwriting was unsure of where the
// rest of the boat leaves no doubt, and drops the problem that said so. What it
// settles has no alternatives any more, so that the boat is weighed once.
func Settle(s parse.Survey, problems []parse.Problem) (parse.Survey, []parse.Problem) {
	unsure := map[parse.Source]bool{}
	for _, p := range problems {
		if p.Code == parse.CodeDoubtful {
			unsure[p.Source] = true
		}
	}
	if len(unsure) == 0 {
		return s, problems
	}
	var weighed []parse.Reading
	by := slip.Settle(s)
	by.Each(func(r *parse.Reading) { weighed = append(weighed, *r) })
	settled := map[parse.Source]bool{}
	s.Stations = slices.Clone(s.Stations)
	s.Each(func(r *parse.Reading) {
		now := weighed[0]
		weighed = weighed[1:]
		if unsure[r.Source] && !r.Certain() && now.Certain() {
			now.Alternatives = nil
			*r, settled[r.Source] = now, true
		}
	})
	return s, slices.DeleteFunc(slices.Clone(problems), func(p parse.Problem) bool {
		return p.Code == parse.CodeDoubtful && settled[p.Source]
	})
}

// doubt holds readings that came with alternatives against the rest of the
// boat. Where the curve takes a reading's certainty, the reading goes to a
// person of the shop; nothing becomes certain here that was not.
func doubt(s parse.Survey) (parse.Survey, []parse.Problem) {
	if !anyAlternatives(s) {
		return s, nil
	}
	settled := slip.Settle(s)
	var problems []parse.Problem
	weaken := func(r *parse.Reading, by parse.Reading, c parse.Cell) {
		if !r.Certain() || len(r.Alternatives) == 0 || by.Certain() && by.Value == r.Value {
			return
		}
		may := " may not be " + number(r.Value, s.Unit)
		if by.Value != r.Value {
			may = " may read " + number(by.Value, s.Unit) + " or " + number(r.Value, s.Unit)
		}
		problems = append(problems, parse.Problem{Code: ReadingDoubt, Source: r.Source,
			Message: place(c, s.Unit) + may + ": the rest of the boat speaks against what was read first"})
		*r = by
		if r.Certain() { // the boat's choice, not the reader's
			r.Confidence = sharedDoubt
		}
	}
	out := s
	out.Stations = append([]parse.Station(nil), s.Stations...)
	for i := range out.Stations {
		st, by := &out.Stations[i], settled.Stations[i]
		weaken(&st.HullGirth, by.HullGirth, parse.Cell{At: st.At, Measure: parse.HullGirth})
		weaken(&st.FullGirth, by.FullGirth, parse.Cell{At: st.At, Measure: parse.FullGirth})
	}
	weaken(&out.Greatest.HullGirth, settled.Greatest.HullGirth, parse.Cell{Measure: parse.GreatestHullGirth})
	weaken(&out.Greatest.FullGirth, settled.Greatest.FullGirth, parse.Cell{Measure: parse.GreatestFullGirth})
	weaken(&out.Greatest.Opening, settled.Greatest.Opening, parse.Cell{Measure: parse.GreatestOpening})
	weaken(&out.Transom.HullGirth, settled.Transom.HullGirth, parse.Cell{Measure: parse.TransomHullGirth})
	weaken(&out.Transom.FullGirth, settled.Transom.FullGirth, parse.Cell{Measure: parse.TransomFullGirth})
	return out, problems
}

// sharedDoubt is the confidence of a value that reader and boat disagree about:
// under the one from which it is taken without asking.
const sharedDoubt = 0.5

func anyAlternatives(s parse.Survey) bool {
	for _, p := range pairs(s) {
		if len(p.HullGirth.Alternatives) > 0 || len(p.FullGirth.Alternatives) > 0 {
			return true
		}
	}
	return len(s.Greatest.Opening.Alternatives) > 0
}
