package desk

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/prose"
)

// What counts as the same place or the same number.
const (
	samePlace = 12.7 // mm, 1/2 in: stations are no finer than inches apart
	// 1/2 in: two tries within it agree (common practice, as asked for in
	// letters), and room for the roundings of arithmetic.
	sameTry = 12.7 + 1e-3 // mm
)

// wholeTable is the share of a job's stations from which a new table replaces
// the old one as a whole; a smaller one only replaces its own rows.
const wholeTable = 0.7

// revise puts the numbers of a newer survey in the place of older ones. What
// the newer one does not say stays.
func revise(base, newer parse.Survey) parse.Survey {
	if base.Readings() == 0 {
		return newer
	}
	out := base
	out.Stations = slices.Clone(base.Stations)
	take(&out.LengthOverall, newer.LengthOverall)
	take(&out.BowHeight, newer.BowHeight)
	take(&out.SternHeight, newer.SternHeight)
	take(&out.CarryPoint, newer.CarryPoint)
	take(&out.Greatest.At, newer.Greatest.At)
	takePair(&out.Greatest.Pair, newer.Greatest.Pair)
	take(&out.Greatest.Opening, newer.Greatest.Opening)
	takePair(&out.Transom, newer.Transom)
	if newer.Customer != "" {
		out.Customer = newer.Customer
	}
	if newer.Boat != "" {
		out.Boat = newer.Boat
	}
	out.Decked = out.Decked || newer.Decked
	if newer.Stern == parse.Square {
		out.Stern = parse.Square
	}
	if float64(len(newer.Stations)) >= wholeTable*float64(len(base.Stations)) && len(newer.Stations) > 0 {
		out.Stations, out.Unit = slices.Clone(newer.Stations), newer.Unit
		return out
	}
	for _, st := range newer.Stations {
		takePair(pairAt(&out, st.At), st.Pair)
	}
	return out
}

func take(old *parse.Reading, newer parse.Reading) {
	if !newer.Absent() {
		*old = newer
	}
}

func takePair(old *parse.Pair, newer parse.Pair) {
	take(&old.HullGirth, newer.HullGirth)
	take(&old.FullGirth, newer.FullGirth)
}

// pairAt returns the pair at a station, which is added when it is not there.
func pairAt(s *parse.Survey, at parse.Length) *parse.Pair {
	for i := range s.Stations {
		if math.Abs(float64(s.Stations[i].At-at)) < samePlace {
			return &s.Stations[i].Pair
		}
	}
	i, _ := slices.BinarySearchFunc(s.Stations, at, func(st parse.Station, at parse.Length) int { return cmp.Compare(st.At, at) })
	s.Stations = slices.Insert(s.Stations, i, parse.Station{At: at})
	return &s.Stations[i].Pair
}

// correct puts the answers of a mail into a survey, in which the numbers that
// can be placed by the mail alone stand already; before is the survey without
// them. Asked are the numbers that the last letter asked for: they tell which
// one a sentence means that names none. What cannot be placed surely, and a
// number that comes back unchanged, is a problem for a person; a problem that
// an answer settles is gone.
func correct(before, survey parse.Survey, problems []parse.Problem, answers []prose.Correction, asked []parse.Cell) (parse.Survey, []parse.Problem) {
	survey.Stations = slices.Clone(survey.Stations)
	before.Stations = slices.Clone(before.Stations)
	for _, c := range answers {
		cell, ok := meant(c, asked)
		if c.Bare && survey.Unit == parse.Centimetre && atStation(cell.Measure) && !slices.Contains(asked, cell) {
			ok = false // a place without a unit was counted in feet
		}
		problem := func(code parse.Code, message string) {
			problems = append(problems, parse.Problem{Code: code, Source: c.Source, Message: message + ": \"" + c.Sentence + "\""})
		}
		switch {
		case len(c.Values) == 0:
			problem(codeUnchanged, "The customer says that a number stays as it is. Ask what lies under the tape before it is taken for the boat's own")
		case !ok:
			problem(parse.CodeUnplaced, "It is not clear which number is meant")
		default:
			reading, agree := settleTries(inUnit(c, survey.Unit))
			was := *readingAt(&before, cell)
			*readingAt(&survey, cell) = reading
			problems = slices.DeleteFunc(problems, func(p parse.Problem) bool {
				return p.Code == prose.CodeWhichGirth && p.Source.File == c.Source.File && p.Source.Place == c.Source.Place
			})
			switch {
			case !agree:
				problem(parse.CodeSecondTry, "The tries differ by more than half an inch")
			case was.Known && was.Value == reading.Value && slices.Contains(asked, cell):
				problem(codeUnchanged, "The customer measured again and found the same. Ask what lies under the tape before it is taken for the boat's own")
			}
		}
	}
	return survey, problems
}

// Problems of answers, which a person has to settle.
const (
	// codeUnchanged: the customer stands by a number that was asked for again.
	// It is a person's to accept.
	codeUnchanged parse.Code = "unchanged"
	// codeAnswered: a yes-or-no question is answered, and what follows from it
	// for the number is a person's to say.
	codeAnswered parse.Code = "answered"
)

// meant returns the one number that an answer can be about.
func meant(c prose.Correction, asked []parse.Cell) (parse.Cell, bool) {
	switch c.Cell.Measure {
	case parse.HullGirth, parse.FullGirth:
		if c.Placed {
			return c.Cell, true
		}
	case "":
	default:
		return c.Cell, !isPair(c.Cell.Measure)
	}
	var fits []parse.Cell
	for _, a := range asked {
		if c.Cell.Measure != "" && a.Measure != c.Cell.Measure {
			continue
		}
		if c.Placed && (!atStation(a.Measure) || math.Abs(float64(a.At-c.Cell.At)) >= samePlace) {
			continue
		}
		fits = append(fits, a)
	}
	if len(fits) != 1 || isPair(fits[0].Measure) {
		return parse.Cell{}, false
	}
	return fits[0], true
}

// inUnit returns the tries of an answer in the survey's unit: numbers without a
// unit were counted in inches.
func inUnit(c prose.Correction, unit parse.Unit) []parse.Reading {
	if !c.Bare || unit != parse.Centimetre {
		return c.Values
	}
	tries := slices.Clone(c.Values)
	for i := range tries {
		tries[i].Value = parse.Centimetres(tries[i].Value.In(parse.Inch))
	}
	return tries
}

func atStation(m parse.Measure) bool { return m == parse.HullGirth || m == parse.FullGirth }

func isPair(m parse.Measure) bool { return strings.HasSuffix(string(m), string(parse.MeasurePair)) }

// settleTries makes one reading of several tries: the middle one when they
// agree, else none with all of them as alternatives.
func settleTries(tries []parse.Reading) (parse.Reading, bool) {
	sorted := slices.Clone(tries)
	slices.SortFunc(sorted, func(a, b parse.Reading) int { return cmp.Compare(a.Value, b.Value) })
	least, most := sorted[0], sorted[len(sorted)-1]
	if most.Value-least.Value <= sameTry {
		return sorted[(len(sorted)-1)/2], true
	}
	r := parse.Reading{Source: tries[0].Source}
	for _, t := range tries {
		r.Alternatives = append(r.Alternatives, parse.Candidate{Value: t.Value, Probability: 1 / float64(len(tries))})
	}
	return r, false
}

// readingAt returns the place of one number in a survey.
func readingAt(s *parse.Survey, c parse.Cell) *parse.Reading {
	switch c.Measure {
	case parse.HullGirth, parse.FullGirth:
		return pairAt(s, c.At).Girth(c.Measure)
	}
	if r := s.Once(c.Measure); r != nil {
		return r
	}
	return new(parse.Reading) // a measure that no survey has
}

// standing returns those older problems that are still true: their number is
// still in doubt.
func standing(older []parse.Problem, survey parse.Survey) []parse.Problem {
	var doubtful []parse.Source
	survey.Each(func(r *parse.Reading) {
		if r.Doubtful() {
			doubtful = append(doubtful, r.Source)
		}
	})
	var still []parse.Problem
	for _, p := range older {
		if slices.ContainsFunc(doubtful, func(s parse.Source) bool { return s.File == p.Source.File && s.Place == p.Source.Place }) {
			still = append(still, p)
		}
	}
	return still
}
