package table

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// A sheet may give its numbers in two units, one measured and the other worked
// out from it. The measured one is the reading: it says so, or is the unit of
// what stands in one unit alone, or of the round numbers, or of the stations.

var (
	measuredSaid = regexp.MustCompile(`\b(?:measured|taken|mesuree?s?|relevee?s?|prise?s?)\b`)
	workedOut    = regexp.MustCompile(`\b(?:worked out|calculated|computed|converted|conversions?|calculee?s?|convertie?s?|equivalents?)\b`)
	clauseEnd    = regexp.MustCompile(`[,.;:()\[\]]`)
)

// hearUnits takes from the words of a sheet which unit was measured: the one that
// they say, or the one beside that which is worked out.
func (s *sheet) hearUnits() {
	for _, row := range s.withComments() {
		for _, it := range row {
			if !it.word() || len(it.folded) > 2*longestLabel || !measuredSaid.MatchString(it.folded) && !workedOut.MatchString(it.folded) {
				continue
			}
			clauses := []string{it.folded}
			if wordsScale(it.folded) == parse.Bare {
				clauses = clauseEnd.Split(it.folded, -1)
			}
			for _, c := range clauses {
				unit := wordsScale(c).Unit()
				switch {
				case unit == parse.UnknownUnit:
				case workedOut.MatchString(c):
					s.found.measured = append(s.found.measured, otherUnit(unit))
				case measuredSaid.MatchString(c):
					s.found.measured = append(s.found.measured, unit)
				}
			}
		}
	}
}

func otherUnit(u parse.Unit) parse.Unit {
	if u == parse.Inch {
		return parse.Centimetre
	}
	return parse.Inch
}

// twofold is a number in both units, without faults, in inches and centimetres.
type twofold struct{ inches, centimetres float64 }

const perInch = 2.54 // centimetres, exact by definition

// twofolds returns the numbers of the sheets that stand in both units, and in how
// many girths each unit stands alone.
func twofolds(sheets []*sheet) (both []twofold, alone map[parse.Unit]int) {
	alone = map[parse.Unit]int{}
	add := func(lists ...[]entry) {
		for _, list := range lists {
			var t twofold
			for _, e := range list {
				l, ok := e.amount.Length(e.scale())
				switch unit := e.scale().Unit(); {
				case !ok || e.fault.Some():
				case unit == parse.Inch:
					t.inches = l.In(parse.Inch)
				default:
					t.centimetres = l.In(parse.Centimetre)
				}
			}
			switch {
			case t.inches != 0 && t.centimetres != 0:
				if math.Abs(t.centimetres-perInch*t.inches) <= writtenTwice/10.0 { // else two numbers
					both = append(both, t)
				}
			case t.inches != 0:
				alone[parse.Inch]++
			case t.centimetres != 0:
				alone[parse.Centimetre]++
			}
		}
	}
	for _, s := range sheets {
		for _, b := range s.found.blocks {
			for _, r := range b.rows {
				add(r.hull, r.full)
			}
		}
		for _, r := range s.found.singles {
			add(r.hull, r.full)
		}
		for _, list := range s.found.whole {
			add(list)
		}
	}
	return both, alone
}

// measuredUnit is the unit in which numbers were measured that stand in two;
// unknown where nothing tells, and where none does.
func measuredUnit(sheets []*sheet) parse.Unit {
	both, alone := twofolds(sheets)
	if len(both) == 0 {
		return parse.UnknownUnit
	}
	var said []parse.Unit
	for _, s := range sheets {
		said = append(said, s.found.measured...)
	}
	slices.Sort(said)
	said = slices.Compact(said)
	inch, cm := alone[parse.Inch], alone[parse.Centimetre]
	switch {
	case len(said) == 1:
		return said[0]
	case inch > len(both) && cm == 0:
		return parse.Inch
	case cm > len(both) && inch == 0:
		return parse.Centimetre
	}
	if unit := roundUnit(both); unit != parse.UnknownUnit {
		return unit
	}
	return stationScale(sheets).Unit() // people measure by the marks that they laid off
}

// The finest parts that people read from a tape: an eighth of an inch, half a
// centimetre.
const (
	finestInch       = 1.0 / 8
	finestCentimetre = 0.5
)

// surelyRounded is from how many numbers on it is no chance that all of one unit
// round to those of the other. Numbers of a grid of half an inch, made from
// whole centimetres, miss a whole centimetre every fifth time.
const surelyRounded = 20

// roundUnit is the unit whose numbers lie on the parts of a tape where the
// others do not; where both do, the one from which the other follows by rounding.
func roundUnit(both []twofold) parse.Unit {
	var inches, centimetres []float64
	for _, t := range both {
		inches, centimetres = append(inches, t.inches), append(centimetres, t.centimetres)
	}
	inch, cm := grain(inches, 1, 0.5, 0.25, finestInch), grain(centimetres, 1, finestCentimetre)
	switch {
	case inch == 0 && cm == 0:
		return parse.UnknownUnit
	case cm == 0:
		return parse.Inch
	case inch == 0:
		return parse.Centimetre
	}
	fromInch, fromCM := true, true
	for _, t := range both {
		off := math.Abs(t.centimetres - perInch*t.inches)
		fromInch = fromInch && off <= max(cm, 1)/2+sameStep
		fromCM = fromCM && off <= perInch*inch/2+sameStep
	}
	switch {
	case fromInch && !fromCM, fromInch && len(both) >= surelyRounded && perInch*inch > cm:
		return parse.Inch
	case fromCM && !fromInch, fromCM && len(both) >= surelyRounded && cm > perInch*inch:
		return parse.Centimetre
	}
	return parse.UnknownUnit
}

// grain is the first of some parts of which all numbers are whole, 0 for none.
func grain(numbers []float64, parts ...float64) float64 {
	for _, part := range parts {
		if !slices.ContainsFunc(numbers, func(x float64) bool { return math.Abs(math.Remainder(x, part)) > sameStep }) {
			return part
		}
	}
	return 0
}

// asMeasured leaves of a number in two units the one that was measured, where
// both are the same length. ok is false where they are, and nobody can tell
// which it is.
func (b *builder) asMeasured(entries []entry) (measured []entry, ok bool) {
	var worked []entry
	for _, e := range entries {
		if b.unit.scaleFor(e).Unit() == b.unit.measured {
			measured = append(measured, e)
		} else {
			worked = append(worked, e)
		}
	}
	if b.unit.measured == parse.UnknownUnit {
		units := map[parse.Unit]bool{}
		for _, e := range entries {
			units[b.unit.scaleFor(e).Unit()] = true
		}
		return entries, len(units) < 2
	}
	if len(measured) == 0 || slices.ContainsFunc(worked, func(e entry) bool { return !b.same(measured[0], e) }) {
		return entries, true
	}
	return measured, true
}

// same reports two ways of writing one length.
func (b *builder) same(x, y entry) bool {
	l, okL := b.lengthOf([]entry{x})
	m, okM := b.lengthOf([]entry{y})
	return okL && okM && math.Abs(float64(l-m)) <= writtenTwice
}

// inOtherUnit reports a column of the same lengths as another, in the other unit.
func (v view) inOtherUnit(start int, col, other column) bool {
	texts := v.headings(start, other.at)
	if other.role != noRole || len(texts) == 0 || !unitOnly.MatchString(strings.TrimPrefix(texts[0], "in ")) ||
		col.scale.Unit() == parse.UnknownUnit || other.scale.Unit() == parse.UnknownUnit || col.scale.Unit() == other.scale.Unit() {
		return false
	}
	x, y := v.columnNumbers(start, col, col.at, other.at)
	for i := range x {
		a, _ := parse.Amount{Number: x[i]}.Length(col.scale)
		b, _ := parse.Amount{Number: y[i]}.Length(other.scale)
		if math.Abs(float64(a-b)) > writtenTwice {
			return false
		}
	}
	return len(x) >= fewRows
}
