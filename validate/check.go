package validate

import (
	"cmp"
	"slices"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// Check judges a survey: the rules that hold of any boat, the fair curve, and
// what is missing. Problems are what the readers could not make out; they are
// carried into the report and count for the verdict only through the readings
// they left in doubt.
func Check(survey parse.Survey, problems []parse.Problem, costs Costs) Report {
	r := Report{Survey: survey, Problems: problems}
	judgement, err := slip.Judge(survey)
	if err == nil {
		r.Curve = judgement.Curve
		for _, s := range judgement.Suspicions {
			if f, ok := decide(s, survey.Unit, costs); ok {
				r.Findings = append(r.Findings, f)
			}
		}
	}
	r.Findings = append(r.Findings, missing(survey)...)
	for _, f := range hardRules(survey) {
		if !covered(r.Findings, f) {
			r.Findings = append(r.Findings, f)
		}
	}
	slices.SortStableFunc(r.Findings, worstFirst)
	r.Verdict = verdict(survey, r.Findings)
	return r
}

// worstFirst orders findings by kind, then by probability.
func worstFirst(a, b Finding) int {
	if c := cmp.Compare(rank(a.Kind), rank(b.Kind)); c != 0 {
		return c
	}
	return cmp.Compare(b.Probability, a.Probability)
}

func rank(k Kind) int {
	return slices.Index([]Kind{Recheck, Confirm, Missing, Note}, k)
}

// covered reports a finding about a place that another speaks of already.
func covered(have []Finding, f Finding) bool {
	return slices.ContainsFunc(have, func(g Finding) bool { return g.about(f.Cell) })
}

// about reports whether the finding speaks of a number.
func (f Finding) about(c parse.Cell) bool {
	if slices.Contains(f.Rows, c.At) && (c.Measure == parse.HullGirth || c.Measure == parse.FullGirth || c.Measure == parse.MeasurePair) {
		return true
	}
	if f.Cell.Measure == "" || f.Cell.At != c.At {
		return false
	}
	return overlap(f.Cell.Measure, c.Measure)
}

// overlap reports whether two measures of one place share a number.
func overlap(a, b parse.Measure) bool {
	switch {
	case a == b:
		return true
	case a == parse.MeasurePair:
		return b == parse.HullGirth || b == parse.FullGirth
	case b == parse.MeasurePair:
		return a == parse.HullGirth || a == parse.FullGirth
	case a == parse.GreatestPair:
		return b == parse.GreatestHullGirth || b == parse.GreatestFullGirth
	case b == parse.GreatestPair:
		return a == parse.GreatestHullGirth || a == parse.GreatestFullGirth
	case a == parse.TransomPair:
		return b == parse.TransomHullGirth || b == parse.TransomFullGirth
	case b == parse.TransomPair:
		return a == parse.TransomHullGirth || a == parse.TransomFullGirth
	}
	return false
}

// verdict sums the findings up.
func verdict(s parse.Survey, findings []Finding) Verdict {
	if !anyGirth(s) {
		return Unreadable
	}
	v := Clean
	if doubtful(s) {
		v = Incomplete
	}
	for _, f := range findings {
		switch f.Kind {
		case Recheck, Confirm:
			return NeedRecheck
		case Missing:
			v = Incomplete
		}
	}
	return v
}

func anyGirth(s parse.Survey) bool {
	return slices.ContainsFunc(pairs(s), func(p parse.Pair) bool {
		return p.HullGirth.Known || p.FullGirth.Known
	})
}

// pairs returns every pair of girths of a survey.
func pairs(s parse.Survey) []parse.Pair {
	all := []parse.Pair{s.Greatest.Pair, s.Transom}
	for _, st := range s.Stations {
		all = append(all, st.Pair)
	}
	return all
}

// doubtful reports a reading that a person of the shop has to settle.
func doubtful(s parse.Survey) bool {
	all := []parse.Reading{s.LengthOverall, s.BowHeight, s.SternHeight, s.CarryPoint, s.Greatest.At, s.Greatest.Opening}
	for _, p := range pairs(s) {
		all = append(all, p.HullGirth, p.FullGirth)
	}
	return slices.ContainsFunc(all, parse.Reading.Doubtful)
}
