package desk

import (
	"fmt"
	"strings"

	"fairtape/parse"
)

// longest is what no boat of this trade exceeds: a place beyond it is a slip of
// the keyboard (common practice, no source).
const longest = 40 * 12 * 25.4 // mm, 40 ft

// Value is a number that a person of the shop gives, as typed: by telephone, or
// because they can read what the program could not.
type Value struct {
	Place   string // "7 ft"; "" for a measure that the boat has once
	Measure string // "hull_girth", "hull girth", "hull"
	Value   string // "47 1/2"; "" where only a place is named
}

// String is the value as a decision carries it.
func (v Value) String() string {
	return strings.Trim(v.Place+"; "+v.Measure+"; "+v.Value, "; ")
}

// valueOf reads what String wrote.
func valueOf(words string) Value {
	parts := strings.Split(words, "; ")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	if len(parts) > 0 {
		if _, _, boat := measureNamed(parts[0]); boat {
			parts = append([]string{""}, parts...)
		}
	}
	parts = append(parts, "", "", "")
	return Value{parts[0], parts[1], parts[2]}
}

// measureNames are the words for measures, the longer ones first.
var measureNames = []struct {
	words   string
	measure parse.Measure
	boat    bool // the boat has it once
}{
	{"greatest hull girth", parse.GreatestHullGirth, true},
	{"greatest full girth", parse.GreatestFullGirth, true},
	{"greatest opening", parse.GreatestOpening, true},
	{"greatest at", parse.GreatestAt, true},
	{"transom hull girth", parse.TransomHullGirth, true},
	{"transom full girth", parse.TransomFullGirth, true},
	{"greatest hull", parse.GreatestHullGirth, true},
	{"greatest full", parse.GreatestFullGirth, true},
	{"transom hull", parse.TransomHullGirth, true},
	{"transom full", parse.TransomFullGirth, true},
	{"length overall", parse.LengthOverall, true},
	{"bow height", parse.BowHeight, true},
	{"stern height", parse.SternHeight, true},
	{"carry point", parse.CarryPoint, true},
	{"hull girth", parse.HullGirth, false},
	{"full girth", parse.FullGirth, false},
	{"opening there", parse.GreatestOpening, true},
	{"length", parse.LengthOverall, true},
	{"hull", parse.HullGirth, false},
	{"full", parse.FullGirth, false},
}

// measureNamed returns the measure that stands at the beginning of words, and
// what follows it.
func measureNamed(words string) (m parse.Measure, rest string, boat bool) {
	plain := strings.NewReplacer("_", " ", ".", " ").Replace(strings.ToLower(words))
	for _, n := range measureNames {
		if after, ok := strings.CutPrefix(plain, n.words); ok && (after == "" || after[0] == ' ' || after[0] == ';') {
			return n.measure, strings.TrimLeft(words[len(n.words):], " "), n.boat
		}
	}
	return "", words, false
}

// splitValue reads "7 ft hull girth 47 1/2" or "bow height 18".
func splitValue(words string) (Value, bool) {
	for i := range words {
		if i > 0 && words[i-1] != ' ' {
			continue
		}
		if m, rest, _ := measureNamed(words[i:]); m != "" {
			return Value{strings.TrimSpace(words[:i]), string(m), strings.TrimSpace(rest)}, true
		}
	}
	return Value{}, false
}

// In returns the number that a value is about, and its length in the unit of
// the survey where none is written. The error is worded for the person who
// typed it.
func (v Value) In(survey parse.Survey) (cell parse.Cell, length parse.Length, err error) {
	if cell, err = v.cell(survey); err != nil {
		return cell, 0, err
	}
	amount, fault := parse.ParseLength(v.Value)
	if fault.Some() {
		return cell, 0, fmt.Errorf("%q is no length: %s", v.Value, fault.Message)
	}
	length, ok := amount.Length(parse.ScaleOf(survey.Unit))
	if !ok && survey.Unit == "" {
		return cell, 0, fmt.Errorf("nobody knows yet in which unit the boat was measured: write it with the number, as in \"%s in\"", v.Value)
	}
	if !ok || length <= 0 || length > longest {
		return cell, 0, fmt.Errorf("%q cannot be a measure of a boat", v.Value)
	}
	return cell, length, nil
}

// Check says whether it is clear which number of a survey is meant, and what its
// value is where one is given.
func (v Value) Check(survey parse.Survey) error {
	if v.Value == "" {
		_, err := v.cell(survey)
		return err
	}
	_, _, err := v.In(survey)
	return err
}

func (v Value) cell(survey parse.Survey) (parse.Cell, error) {
	place := strings.ToLower(strings.TrimSpace(v.Place))
	named := v.Measure
	if place == "greatest" || place == "transom" {
		named, place = place+" "+named, ""
	}
	m, rest, boat := measureNamed(named)
	switch {
	case m == "" || rest != "":
		return parse.Cell{}, fmt.Errorf("%q is no measure; there are hull_girth, full_girth, length_overall, bow_height, stern_height, carry_point, and greatest or transom with a girth", v.Measure)
	case boat && place != "" && place != "-" && place != "boat":
		return parse.Cell{}, fmt.Errorf("a boat has one %s: leave the place out, or write -", strings.ReplaceAll(string(m), "_", " "))
	case boat:
		return parse.Cell{Measure: m}, nil
	}
	if place == "" || place == "-" {
		return parse.Cell{}, fmt.Errorf("say where the %s was measured, as in \"7 ft\"", strings.ReplaceAll(string(m), "_", " "))
	}
	at, err := stationAt(v.Place, survey)
	return parse.Cell{At: at, Measure: m}, err
}

// stationAt reads the place of a station. A bare number is taken for feet or
// for inches by the stations that the survey has.
func stationAt(place string, survey parse.Survey) (parse.Length, error) {
	name, fault := parse.ParseStation(place)
	if fault.Some() || name.Ordinal || name.Special != "" {
		return 0, fmt.Errorf("%q is no station; write its distance from the bow, as in 7 ft or 210 cm", place)
	}
	scales := []parse.Scale{parse.ScaleCM}
	if survey.Unit != parse.Centimetre {
		scales = []parse.Scale{parse.ScaleFoot, parse.ScaleInch}
	}
	var first parse.Length
	for _, scale := range scales {
		at, ok := name.Amount.Length(scale)
		if !ok {
			continue
		}
		for _, st := range survey.Stations {
			if d := st.At - at; d > -samePlace && d < samePlace {
				return st.At, nil
			}
		}
		if first == 0 {
			first = at
		}
	}
	end := parse.Length(longest)
	if survey.LengthOverall.Certain() {
		end = survey.LengthOverall.Value
	}
	if first <= 0 || first >= end {
		return 0, fmt.Errorf("the boat has no place %q between bow and stern", place)
	}
	return first, nil
}

// numberName names a number in words, "7 ft hull girth".
func numberName(c parse.Cell, unit parse.Unit) string {
	words := strings.NewReplacer("_", " ", ".", " ").Replace(string(c.Measure))
	if !atStation(c.Measure) {
		return words
	}
	return c.At.Along(unit) + " " + words
}

// written is a length in the unit of its survey.
func written(l parse.Length, unit parse.Unit) string {
	if unit == parse.Centimetre {
		return fmt.Sprintf("%g cm", l.In(parse.Centimetre))
	}
	return fmt.Sprintf("%g in", l.In(parse.Inch))
}
