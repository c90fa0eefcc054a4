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
	survey, problems = Settle(survey, problems)
	survey, doubts := doubt(survey)
	r := Report{Survey: survey, Problems: append(slices.Clone(problems), doubts...)}
	judgement, err := slip.Judge(survey)
	if err == nil {
		r.Curve = judgement.Curve
		for _, s := range judgement.Suspicions {
			if m := s.Cell.Measure; (m == parse.BowHeight || m == parse.SternHeight) && honestHeight(survey, m, s.Read) {
				continue
			}
			asked := []slip.Suspicion{s}
			if s.Kind == slip.TapeOffset { // the shop is told of the whole survey all the same
				asked = append(asked, atOpening(s, survey))
			}
			for _, a := range asked {
				if f, ok := decide(a, survey.Unit, costs); ok {
					r.Findings = addOne(r.Findings, f)
				}
			}
		}
	}
	r.Findings = merge(r.Findings, hardRules(survey, settled(survey, r.Findings)))
	r.Findings = append(r.Findings, stillMissing(missing(survey), r.Findings)...)
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

// addOne adds a finding, but not a second about one number: of the two the one
// that asks stays. What is wrong with a number beside a cause of whole rows is
// another slip.
func addOne(have []Finding, f Finding) []Finding {
	i := slices.IndexFunc(have, func(g Finding) bool {
		return f.Cell.Measure != "" && len(g.Rows) == 0 && g.about(f.Cell)
	})
	switch {
	case i < 0:
		return append(have, f)
	case have[i].Kind == Note && f.Kind != Note:
		have[i] = f
	}
	return have
}

// merge adds what the hard rules say. A rule that a slip explains is that
// slip's finding, under the rule's name: nobody is asked twice for one number.
func merge(found, rules []Finding) []Finding {
	for _, rule := range rules {
		i := slices.IndexFunc(found, func(f Finding) bool { return f.explains(rule) })
		if i < 0 {
			found = append(found, rule)
			continue
		}
		f := &found[i]
		if rule.Kind != Recheck && rule.Kind != Confirm {
			continue
		}
		if f.Rule == FairCurve {
			f.Rule = rule.Rule
		}
		f.Probability = max(f.Probability, rule.Probability)
		if f.Kind == Note {
			f.Kind = rule.Kind
		}
	}
	return found
}

// settled returns the survey without the numbers that are asked for already,
// and with the rows abaft a skipped station where they belong, so that the rest
// is not held against them.
func settled(s parse.Survey, found []Finding) parse.Survey {
	asked := func(c parse.Cell) bool {
		return slices.ContainsFunc(found, func(f Finding) bool {
			return (f.Kind == Recheck || f.Kind == Confirm) && f.Slip != slip.RowSkipped && f.about(c)
		})
	}
	drop := func(r *parse.Reading, c parse.Cell) {
		if asked(c) {
			*r = parse.Reading{}
		}
	}
	s.Stations = slices.Clone(s.Stations)
	for i := range s.Stations {
		st := &s.Stations[i]
		drop(&st.HullGirth, parse.Cell{At: st.At, Measure: parse.HullGirth})
		drop(&st.FullGirth, parse.Cell{At: st.At, Measure: parse.FullGirth})
	}
	for _, f := range found {
		if f.Slip != slip.RowSkipped || f.Kind == Note {
			continue
		}
		pitch := s.Spacing()
		for i := range s.Stations {
			if slices.Contains(f.Rows, s.Stations[i].At) {
				s.Stations[i].At += pitch
			}
		}
	}
	drop(&s.Greatest.HullGirth, parse.Cell{Measure: parse.GreatestHullGirth})
	drop(&s.Greatest.FullGirth, parse.Cell{Measure: parse.GreatestFullGirth})
	drop(&s.Greatest.Opening, parse.Cell{Measure: parse.GreatestOpening})
	return s
}

// explains reports whether the finding and a rule's speak of one number.
func (f Finding) explains(rule Finding) bool {
	if f.Rule == WholeColumn {
		return f.Kind != Note && (rule.Cell.At > 0 || rule.Rule == OpeningControl || rule.Rule == GreatestPlace ||
			rule.Cell.Measure == parse.GreatestPair || rule.Cell.Measure == parse.TransomPair || rule.Rule == HeightFitsStations)
	}
	if len(rule.Rows) > 0 {
		return slices.Equal(f.Rows, rule.Rows)
	}
	if f.Slip == slip.RowSkipped {
		return false
	}
	return f.about(rule.Cell) || rule.Rule == OpeningControl &&
		(f.about(parse.Cell{Measure: parse.GreatestPair}) || f.about(parse.Cell{Measure: parse.GreatestOpening}))
}

// stillMissing drops the missing rows that a skipped station explains: what
// lacks is the station passed over, not the one nearest the stern.
func stillMissing(missing, found []Finding) []Finding {
	i := slices.IndexFunc(found, func(f Finding) bool {
		return f.Slip == slip.RowSkipped && (f.Kind == Recheck || f.Kind == Confirm)
	})
	if i < 0 {
		return missing
	}
	last := found[i].Rows[len(found[i].Rows)-1]
	return slices.DeleteFunc(missing, func(f Finding) bool { return len(f.Rows) == 1 && f.Rows[0] > last })
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
