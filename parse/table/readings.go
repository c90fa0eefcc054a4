package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fairtape/parse"
)

// Two ways of writing one length, each rounded as usual, differ by at most
// half a centimetre; an opening may differ from the girths by 3/4 in, as the
// control at the greatest girth may.
const (
	writtenTwice   = 5
	openingAgrees  = 0.75 * 25.4
	doubted        = 0.5 // confidence of a number whose meaning is in doubt
	addedUp        = 0.8 // confidence of a full girth made of hull girth and opening
	sameWithinFile = 0.01
)

// useOpening compares an opening with the girths of its row, or, where no full
// girth is written, puts forward the sum, for a person to accept.
func (b *builder) useOpening(st *parse.Station, r row) {
	if len(r.opening) == 0 {
		return
	}
	e := r.opening[0]
	opening := b.reading(r.opening, false)
	switch {
	case !opening.Known:
	case st.HullGirth.Known && st.FullGirth.Known:
		if math.Abs(float64(st.FullGirth.Value-st.HullGirth.Value-opening.Value)) > openingAgrees {
			b.problem(parse.CodeDerived, e.item, "The opening is not the difference of the two girths of its row.")
		}
	case st.HullGirth.Known && st.FullGirth.Absent():
		st.FullGirth = parse.Reading{
			Value: st.HullGirth.Value + opening.Value, Known: true, Confidence: addedUp, Source: e.source(b.file),
		}
		if b.sumSaid && st.HullGirth.Certain() && opening.Certain() {
			st.FullGirth.Confidence = parse.Typed
			st.FullGirth.Source.Raw = r.hull[0].Text + " + " + e.Text
			return
		}
		b.problem(parse.CodeOpeningColumn, e.item, "The table gives the opening and no full girth; hull girth and opening are added up.")
	default:
		b.problem(parse.CodeOpeningColumn, e.item, fmt.Sprintf("This is an opening at %s; the girths of its row are not both there.", r.label.Text))
	}
}

// reading makes one reading of all that was written of one number.
func (b *builder) reading(entries []entry, overall bool) parse.Reading {
	var list []parse.Reading
	var from []entry
	entries, clear := b.asMeasured(b.inSight(entries))
	for _, e := range entries {
		if r := b.single(e, overall); !r.Absent() {
			list, from = append(list, r), append(from, e)
		}
	}
	if len(list) == 0 {
		return parse.Reading{}
	}
	for i, r := range list[1:] {
		near := float64(sameWithinFile)
		if b.unit.scaleFor(from[0]).Unit() != b.unit.scaleFor(from[i+1]).Unit() {
			near = writtenTwice
		}
		if !r.Known || !list[0].Known || math.Abs(float64(r.Value-list[0].Value)) > near {
			return b.differing(list)
		}
	}
	if !clear && list[0].Certain() {
		list[0].Confidence = doubted
		b.problem(parse.CodeUnitUnclear, from[0].item, "This stands in two units, and it is not clear which of them was measured.")
	}
	return list[0]
}

// inSight leaves out hidden numbers where one in sight stands for the same.
func (b *builder) inSight(entries []entry) []entry {
	seen := slices.DeleteFunc(slices.Clone(entries), func(e entry) bool { return e.Code == parse.CodeHidden })
	if len(seen) == 0 || len(seen) == len(entries) {
		return entries
	}
	for _, e := range entries {
		if e.Code == parse.CodeHidden {
			b.problem(e.Code, e.item, e.fault.Message)
		}
	}
	return seen
}

// leastHeight is the least height of an end, and distance of a carry point,
// taken without asking where no unit is beside the number, in mm: 4 in. Less
// was meant in feet or metres.
const leastHeight = 4 * 25.4

// What stands beside "Bow" or "Stern" alone is the height of that end, the only
// number asked for there, as long as it can be one: ends of small open boats are
// 6 in to 4 ft high (common practice, no source).
const (
	leastEnd = 6 * 25.4
	mostEnd  = 48 * 25.4
)

func (b *builder) checkSmall(r *parse.Reading, from []entry) {
	if r.Certain() && from[0].scale() == parse.Bare && r.Value < leastHeight {
		r.Confidence = doubted
		b.problem(parse.CodeUnitUnclear, from[0].item, "This is very little; it may be feet or metres.")
	}
}

// greatestReach is how far from the largest station the greatest girth may be
// noted before a bare number is taken to be in another unit, in mm: 3 ft.
const greatestReach = 3 * footLength

const footLength = 12 * 25.4

// checkGreatest doubts a bare distance of the greatest girth that lies nowhere
// near the largest station: it may be in the unit of the stations' names. What
// stands beside "widest point" may be its breadth.
func (b *builder) checkGreatest(at *parse.Reading, stations []parse.Station) {
	if !at.Certain() {
		return
	}
	from := b.found.whole[parse.GreatestAt][0]
	bare := from.amount.Scale == parse.Bare && from.item.Scale == parse.Bare
	var largest parse.Station
	for _, s := range stations {
		if s.FullGirth.Known && s.FullGirth.Value > largest.FullGirth.Value {
			largest = s
		}
	}
	far := math.Abs(float64(at.Value - largest.At))
	breadth := math.Abs(float64(largest.FullGirth.Value-largest.HullGirth.Value-at.Value)) < footLength
	switch {
	case from.spot && (far > footLength || breadth || !largest.HullGirth.Known):
		at.Confidence = doubted
		b.problem(parse.CodeUnplaced, from.item, "This may be how far aft the place lies, or how wide it is.")
	case bare && largest.At > 0 && far > greatestReach:
		at.Confidence = doubted
		b.problem(parse.CodeUnitUnclear, from.item, "This lies far from the largest station; it may be in another unit.")
	}
}

// differing returns a reading without a value for tries that differ.
func (b *builder) differing(list []parse.Reading) parse.Reading {
	out := parse.Reading{Source: list[0].Source}
	var texts []string
	for _, r := range list {
		texts = append(texts, fmt.Sprintf("%q (%s)", r.Source.Raw, r.Source.Place))
		all := r.Alternatives
		if r.Known {
			all = append([]parse.Candidate{{Value: r.Value}}, all...)
		}
		for _, c := range all {
			if !slices.ContainsFunc(out.Alternatives, func(o parse.Candidate) bool { return o.Value == c.Value }) {
				out.Alternatives = append(out.Alternatives, c)
			}
		}
	}
	for i := range out.Alternatives {
		out.Alternatives[i].Probability = 1 / float64(len(out.Alternatives))
	}
	b.found.problems = append(b.found.problems, parse.Problem{
		Code:    parse.CodeSecondTry,
		Source:  out.Source,
		Message: "This is given more than once, with different values: " + strings.Join(texts, ", ") + ".",
	})
	return out
}

// single reads one cell.
func (b *builder) single(e entry, overall bool) parse.Reading {
	r := parse.Reading{Source: e.source(b.file)}
	scale := b.unit.scaleFor(e)
	a, f := e.amount, e.fault
	if overall && !f.Some() {
		a, f = parse.ParseOverall(e.Text, scale)
	}
	if f.Code == parse.CodeThousands && scale == parse.ScaleM && len(f.May) > 0 {
		a, f = f.May[0], parse.Fault{} // 1,07 in a column of metres
	}
	l, ok := a.Length(scale)
	if e.factor != 0 {
		l = parse.Length(float64(l) * e.factor)
	}
	doubt := e.doubt
	if e.end && (l < leastEnd || l > mostEnd) {
		doubt = parse.Fault{Code: parse.CodeUnplaced, Message: "The label names an end of the boat, but the number can be no height of it."}
	}
	if b.unit.unclear && e.scale() == parse.Bare {
		doubt = parse.Fault{Code: parse.CodeUnitUnclear, Message: "No unit is written, and the numbers fit more than one."}
	}
	if b.halfBeside(e.item) {
		doubt = parse.Fault{Code: parse.CodeColumnsUnclear, Message: "A half or a mark stands beside this number, and it is not clear whether it belongs to it."}
	}
	switch {
	case f.Some():
		for _, may := range f.May {
			if v, ok := may.Length(scale); ok {
				r.Alternatives = append(r.Alternatives, parse.Candidate{Value: v, Probability: 1 / float64(len(f.May))})
			}
		}
		b.problem(f.Code, e.item, f.Message)
	case !ok:
		b.problem(parse.CodeUnitUnclear, e.item, "No unit is written.")
	case doubt.Some():
		r.Value, r.Known, r.Confidence = l, true, doubted
		b.problem(doubt.Code, e.item, doubt.Message)
	default:
		r.Value, r.Known, r.Confidence = l, true, parse.Typed
	}
	return r
}
