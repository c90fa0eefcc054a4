package table

import (
	"math"
	"regexp"
	"slices"

	"fairtape/parse"
)

// What any table of stations keeps to, whatever slips its writer made. One that
// does not has columns that were taken for others, and none of it is sure.
const (
	// leastApart is how near, in mm, stations lie only by a slip: 2 in.
	leastApart = 2 * 25.4
	// slipsMost is how many steps of a table may be slips.
	slipsMost = 1
	// stepKinds is how many different steps people use in one table: a usual
	// one, and a finer one towards the ends.
	stepKinds = 2
	// The middle one of a boat's girths, in mm: over 10 in, under 150 in. Common
	// practice, no source; half girths and small models included.
	leastMiddle, mostMiddle = 10 * 25.4, 150 * 25.4
	// mostApart is how many times one girth is the other at most. Half a hull
	// girth beside a full one is under four times as small.
	mostApart = 4.5
)

// implausible says why the rows of a table cannot be what they were taken for.
func (b *builder) implausible(bl block, at []parse.Length) parse.Fault {
	switch {
	case bl.shifted:
		return parse.Fault{Code: parse.CodeStationUnclear, Message: "There are more girths than stations here, and which belongs to which is not clear."}
	case unsteady(bl, at):
		return parse.Fault{Code: parse.CodeStationUnclear, Message: "These distances do not rise as those of stations do; the columns may hold something else."}
	case b.noGirths(bl):
		return parse.Fault{Code: parse.CodeColumnsUnclear, Message: "The numbers of this table can hardly be girths of a boat."}
	}
	return parse.Fault{}
}

// unsteady reports distances without a usual step.
func unsteady(bl block, at []parse.Length) bool {
	var places []parse.Length
	for i, r := range bl.rows {
		if r.name.Special == "" {
			places = append(places, at[i])
		}
	}
	slices.Sort(places)
	places = slices.CompactFunc(places, func(a, b parse.Length) bool { return math.Abs(float64(b-a)) < 1 })
	counts := map[int]int{} // by steps in whole mm
	near, most := 0, 0
	for i := 1; i < len(places); i++ {
		step := places[i] - places[i-1]
		kind := int(math.Round(float64(step)))
		counts[kind]++
		most = max(most, counts[kind])
		if step < leastApart {
			near++
		}
	}
	return near > slipsMost || near > 0 && 2*near >= len(places)-1 ||
		len(places) >= fewRows && len(counts) > stepKinds && 2*most < len(places)-1
}

// noGirths reports numbers out of all proportion: too large or too small for
// any boat, or to each other in most rows.
func (b *builder) noGirths(bl block) bool {
	var all []parse.Length
	pairs, apart := 0, 0
	for _, r := range bl.rows {
		hull, okHull := b.lengthOf(r.hull)
		full, okFull := b.lengthOf(r.full)
		if okHull {
			all = append(all, hull)
		}
		if okFull {
			all = append(all, full)
		}
		if okHull && okFull {
			if pairs++; full > mostApart*hull || hull > mostApart*full {
				apart++
			}
		}
	}
	if len(all) == 0 {
		return false
	}
	if inFeet(bl) {
		return true
	}
	slices.Sort(all)
	middle := all[len(all)/2]
	return middle < leastMiddle || middle > mostMiddle || 2*apart > pairs
}

// inFeet reports girths in whole feet, as the names of stations are, where few
// have inches too: nobody reads a girth to the foot.
func inFeet(bl block) bool {
	whole, mixed := 0, 0
	for _, r := range bl.rows {
		for _, e := range slices.Concat(r.hull, r.full) {
			switch {
			case e.amount.Scale == parse.ScaleFoot && e.amount.Number == math.Trunc(e.amount.Number):
				whole++
			case feetAndInches.MatchString(parse.Fold(e.Text)):
				mixed++
			}
		}
	}
	return whole > mixed
}

var feetAndInches = regexp.MustCompile(`\d ?(?:ft|feet|foot|'|pi|pieds?)\.?[ -]*\d`)

// lengthOf is the first of several tries, when it is a length.
func (b *builder) lengthOf(tries []entry) (parse.Length, bool) {
	if len(tries) == 0 || tries[0].fault.Some() {
		return 0, false
	}
	l, ok := tries[0].amount.Length(b.unit.scaleFor(tries[0]))
	if f := tries[0].factor; f != 0 {
		l = parse.Length(float64(l) * f)
	}
	return l, ok
}
