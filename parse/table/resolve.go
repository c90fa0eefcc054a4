package table

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"fairtape/parse"
)

// Read says what the grids of one file hold. Numbers that belong to no
// measure, or cannot be understood, are problems with their place; a file
// without a survey has no Surveys.
func Read(file string, grids []Grid) parse.Document {
	doc := parse.Document{File: file}
	var sheets []*sheet
	for _, g := range grids {
		s := newSheet(file, g)
		s.found.whole = map[parse.Measure][]entry{}
		s.found.texts = map[meta]string{}
		s.readBlocks()
		if len(s.found.blocks) == 0 {
			s.readBare()
		}
		s.readBoat()
		s.readWords()
		sheets = append(sheets, s)
	}
	unit := unitOf(sheets)
	overall := overallOf(sheets, unit)
	for _, s := range sheets {
		s.leftOver()
		b := builder{sheet: s, unit: unit, overall: overall}
		doc.Surveys = append(doc.Surveys, b.surveys()...)
		doc.Problems = append(doc.Problems, s.found.problems...)
	}
	if unit.guessed && !unit.unclear && len(doc.Surveys) > 0 {
		doc.Problems = append(doc.Problems, parse.Problem{
			Code:    parse.CodeUnitGuessed,
			Source:  parse.Source{File: file},
			Message: fmt.Sprintf("No unit is written; by the size of the numbers they are %s.", unitName(unit.scale)),
		})
	}
	return oneBoat(doc)
}

func unitName(s parse.Scale) string {
	switch s {
	case parse.ScaleInch:
		return "inches"
	case parse.ScaleMM:
		return "millimetres"
	}
	return "centimetres"
}

// oneBoat makes one survey of those of the grids, or leaves them apart when
// they are of two boats.
func oneBoat(doc parse.Document) parse.Document {
	if len(doc.Surveys) < 2 {
		return doc
	}
	for i, a := range doc.Surveys {
		for _, b := range doc.Surveys[i+1:] {
			if parse.TwoBoats(a, b) {
				doc.Problems = append(doc.Problems, parse.Problem{
					Code:    parse.CodeTwoBoats,
					Source:  parse.Source{File: doc.File},
					Message: "The file has two lengths overall or two full tables: it looks like two boats. Please say which belongs to this job.",
				})
				return doc
			}
		}
	}
	parts := make([]parse.Document, len(doc.Surveys))
	for i, s := range doc.Surveys {
		parts[i] = parse.Document{File: doc.File, Surveys: []parse.Survey{s}}
	}
	merged, problems := parse.Merge(parts...)
	doc.Surveys = []parse.Survey{merged}
	doc.Problems = append(doc.Problems, problems...)
	return doc
}

// overallOf returns the length overall of the file, 0 when there is none, or
// more than one.
func overallOf(sheets []*sheet, unit measured) parse.Length {
	overall := parse.Length(0)
	for _, s := range sheets {
		for _, e := range s.found.whole[parse.LengthOverall] {
			a, f := parse.ParseOverall(e.Text, unit.scaleFor(e))
			l, ok := a.Length(unit.scaleFor(e))
			if f.Some() || !ok {
				continue
			}
			if overall != 0 && overall != l {
				return 0
			}
			overall = l
		}
	}
	return overall
}

func (m measured) scaleFor(e entry) parse.Scale {
	if s := e.scale(); s != parse.Bare {
		return s
	}
	return m.scale
}

// builder makes surveys of what a sheet holds.
type builder struct {
	*sheet
	unit    measured
	overall parse.Length
}

// surveys returns the survey of the sheet; several when its tables are of
// several boats.
func (b *builder) surveys() []parse.Survey {
	f := &b.found
	main := parse.Survey{
		Unit:     b.unit.scale.Unit(),
		Customer: f.texts[metaCustomer],
		Boat:     f.texts[metaBoat],
		Decked:   f.decked,
		Stern:    parse.Pointed,
	}
	if f.square {
		main.Stern = parse.Square
	}
	extra := []parse.Survey{}
	for _, w := range []struct {
		m parse.Measure
		r *parse.Reading
	}{
		{parse.LengthOverall, &main.LengthOverall}, {parse.BowHeight, &main.BowHeight},
		{parse.SternHeight, &main.SternHeight}, {parse.CarryPoint, &main.CarryPoint},
		{parse.GreatestAt, &main.Greatest.At}, {parse.GreatestHullGirth, &main.Greatest.HullGirth},
		{parse.GreatestFullGirth, &main.Greatest.FullGirth}, {parse.GreatestOpening, &main.Greatest.Opening},
		{parse.TransomHullGirth, &main.Transom.HullGirth}, {parse.TransomFullGirth, &main.Transom.FullGirth},
	} {
		if w.m == parse.LengthOverall && b.twoLengths() {
			for _, e := range f.whole[w.m] {
				extra = append(extra, parse.Survey{Unit: main.Unit, Stern: parse.Pointed, LengthOverall: b.reading([]entry{e}, true)})
			}
			continue
		}
		*w.r = b.reading(f.whole[w.m], w.m == parse.LengthOverall)
		if w.m == parse.BowHeight || w.m == parse.SternHeight || w.m == parse.CarryPoint {
			b.checkSmall(w.r, f.whole[w.m])
		}
	}
	tables := b.tables()
	if len(tables) == 1 {
		b.checkGreatest(&main.Greatest.At, tables[0])
	}
	if len(tables) > 0 {
		main.Stations = tables[0]
	}
	for _, t := range tables[min(1, len(tables)):] {
		extra = append(extra, parse.Survey{Unit: main.Unit, Stern: parse.Pointed, Stations: t})
	}
	if main.Readings() == 0 && len(extra) == 0 && len(f.texts) == 0 {
		return nil
	}
	if main.Readings() == 0 && len(extra) > 0 && len(f.texts) == 0 {
		return extra
	}
	return append([]parse.Survey{main}, extra...)
}

// twoLengths reports lengths overall that differ: two boats.
func (b *builder) twoLengths() bool {
	var first parse.Length
	for i, e := range b.found.whole[parse.LengthOverall] {
		a, f := parse.ParseOverall(e.Text, b.unit.scaleFor(e))
		l, ok := a.Length(b.unit.scaleFor(e))
		if f.Some() || !ok {
			return false
		}
		if i == 0 {
			first = l
		} else if math.Abs(float64(l-first)) > writtenTwice {
			return true
		}
	}
	return false
}

// tables makes stations of the tables of the sheet. Tables on other stations
// continue each other; one that repeats stations stands by itself.
func (b *builder) tables() [][]parse.Station {
	blocks := b.found.blocks
	if len(b.found.singles) > 0 {
		blocks = append(slices.Clone(blocks), block{rows: joinSingles(b.found.singles)})
	}
	var tables [][]parse.Station
	for _, bl := range blocks {
		stations := b.stations(bl)
		placed := false
		for i, t := range tables {
			if !overlap(t, stations) {
				tables[i] = append(t, stations...)
				placed = true
				break
			}
		}
		if !placed && len(stations) > 0 {
			tables = append(tables, stations)
		}
	}
	for _, t := range tables {
		slices.SortStableFunc(t, func(a, b parse.Station) int {
			switch {
			case a.At < b.At:
				return -1
			case a.At > b.At:
				return 1
			}
			return 0
		})
	}
	return tables
}

func overlap(a, b []parse.Station) bool {
	return slices.ContainsFunc(a, func(s parse.Station) bool {
		return slices.ContainsFunc(b, func(t parse.Station) bool { return math.Abs(float64(s.At-t.At)) < 1 })
	})
}

// joinSingles makes rows of girths that each have a label of their own.
func joinSingles(singles []row) []row {
	var rows []row
	for _, s := range singles {
		i := slices.IndexFunc(rows, func(r row) bool { return r.name == s.name })
		if i < 0 {
			rows = append(rows, s)
			continue
		}
		rows[i].hull = append(rows[i].hull, s.hull...)
		rows[i].full = append(rows[i].full, s.full...)
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].name.Amount.Number < rows[j].name.Amount.Number })
	return rows
}

func (b *builder) stations(bl block) []parse.Station {
	names := make([]parse.Name, len(bl.rows))
	for i, r := range bl.rows {
		names[i] = r.name
	}
	hint := parse.StationHint{Scale: bl.heading, Unit: b.unit.scale.Unit(), Overall: b.overall}
	if sp := b.found.spacing; sp != nil {
		hint.Spacing, _ = sp.amount.Length(b.unit.scale)
	}
	at, unclear := parse.Stations(names, hint)
	if bl.astern {
		unclear = parse.Fault{Code: parse.CodeStationUnclear, Message: "The heading says that the distances are from the stern."}
	}
	var out []parse.Station
	for i, r := range bl.rows {
		if unclear.Some() {
			for _, list := range [][]entry{r.hull, r.full, r.opening} {
				for k := range list {
					list[k].doubt = unclear
				}
			}
		}
		st := parse.Station{At: at[i]}
		st.HullGirth = b.reading(r.hull, false)
		st.FullGirth = b.reading(r.full, false)
		b.useOpening(&st, r)
		if !st.HullGirth.Absent() || !st.FullGirth.Absent() {
			out = append(out, st)
		}
	}
	return out
}

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
		b.problem(parse.CodeOpeningColumn, e.item, "The table gives the opening and no full girth; hull girth and opening are added up.")
	default:
		b.problem(parse.CodeOpeningColumn, e.item, "This is an opening; the girths of its row are not both there.")
	}
}

// reading makes one reading of all that was written of one number.
func (b *builder) reading(entries []entry, overall bool) parse.Reading {
	var list []parse.Reading
	var from []entry
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
	return list[0]
}

// leastHeight is the least height of an end, and distance of a carry point,
// taken without asking where no unit is beside the number, in mm: 4 in. Less
// was meant in feet or metres.
const leastHeight = 4 * 25.4

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
// near the largest station: it may be in the unit of the stations' names.
func (b *builder) checkGreatest(at *parse.Reading, stations []parse.Station) {
	from := b.found.whole[parse.GreatestAt]
	if !at.Certain() || from[0].amount.Scale != parse.Bare || from[0].item.Scale != parse.Bare {
		return
	}
	var largest parse.Station
	for _, s := range stations {
		if s.FullGirth.Known && s.FullGirth.Value > largest.FullGirth.Value {
			largest = s
		}
	}
	if largest.At > 0 && math.Abs(float64(at.Value-largest.At)) > greatestReach {
		at.Confidence = doubted
		b.problem(parse.CodeUnitUnclear, from[0].item, "This lies far from the largest station; it may be in another unit.")
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
	if b.unit.unclear && e.scale() == parse.Bare {
		doubt = parse.Fault{Code: parse.CodeUnitUnclear, Message: "No unit is written, and the numbers fit more than one."}
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

// leftOver makes problems of the numbers that nothing has used. A sheet that
// holds no part of a survey has one problem for all of them.
func (s *sheet) leftOver() {
	var rest []*item
	for _, row := range append(slices.Clone(s.items), s.listed) {
		for _, it := range row {
			if !it.used && s.reportable(it) {
				rest = append(rest, it)
			}
		}
	}
	if len(rest) == 0 {
		return
	}
	if len(s.found.whole) == 0 && len(s.found.blocks) == 0 && len(s.found.singles) == 0 && len(rest) > 1 {
		s.problem(parse.CodeUnplaced, rest[0], fmt.Sprintf("%s has %d numbers, but nothing there was recognised as a survey.", s.title(), len(rest)))
		return
	}
	for _, it := range s.columns(rest) {
		if it.Code != "" {
			s.problem(it.Code, it, it.fault.Message)
			continue
		}
		s.problem(parse.CodeUnplaced, it, "This number belongs to no measure that is known.")
	}
}

// manyInColumn is from how many numbers of one column on they are one problem.
const manyInColumn = 4

// columns puts the numbers of one column, made from others or of no known
// meaning, together into one, so that they are one problem.
func (s *sheet) columns(rest []*item) []*item {
	count := map[int]int{}
	for _, it := range rest {
		if it.Code == "" && it.numeric {
			count[it.col]++
		}
	}
	joined := map[int]*item{}
	var out []*item
	for _, it := range rest {
		if it.Code != "" || !it.numeric || count[it.col] < manyInColumn {
			out = append(out, it)
			continue
		}
		first := joined[it.col]
		if first == nil {
			copied := *it
			joined[it.col] = &copied
			out = append(out, &copied)
			continue
		}
		first.Text += ", " + it.Text
	}
	return out
}

func (s *sheet) title() string {
	if s.name == "" {
		return "The table"
	}
	return s.name
}

// reportable reports a cell that holds a number which somebody may have
// measured.
func (s *sheet) reportable(it *item) bool {
	switch {
	case it.empty() || it.fault.Code == parse.CodeDitto || it.Code == "" && it.fault.Code == parse.CodeDate:
		return false
	case it.numeric:
		return true
	}
	return numberInWords.MatchString(it.folded) && !instruction.MatchString(it.folded)
}
