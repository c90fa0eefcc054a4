package table

import (
	"fmt"
	"math"
	"slices"

	"fairtape/parse"
)

// Read says what the grids of one file hold. Numbers that belong to no
// measure, or cannot be understood, are problems with their place; a file
// without a survey has no Surveys.
func Read(file string, grids []Grid) parse.Document {
	doc := parse.Document{File: file, Remarks: remarks(file, grids)}
	var sheets []*sheet
	grids, examples := ofExamples(spelledOut(codesNamed(withoutMarks(withParts(partsOf(grids))))))
	for _, g := range examples {
		doc.Problems = append(doc.Problems, exampleProblem(file, g))
	}
	titles := sheetTitles(grids)
	for i, g := range grids {
		s := newSheet(file, headedOnce(splitPairs(joinHalves(withoutChapters(withoutOutline(withoutRunning(unwrapped(stackedLines(g)))))))))
		s.girth = titles[i]
		s.found.whole = map[parse.Measure][]entry{}
		s.found.texts = map[meta]string{}
		s.readCelled()
		s.readCards()
		s.readCrossed()
		s.readLong()
		s.readBlocks()
		if len(s.found.blocks) == 0 {
			s.readBare()
		}
		if s.listsBoats() {
			sheets = append(sheets, s)
			continue
		}
		s.readBoat()
		s.readWords()
		s.hearUnits()
		s.clearRemarks()
		s.hearDoubts()
		sheets = append(sheets, s)
	}
	unit := unitOf(sheets)
	if unit.measured = measuredUnit(sheets); unit.measured != parse.UnknownUnit && unit.scale.Unit() != unit.measured {
		unit.scale = parse.ScaleOf(unit.measured)
	}
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
	numbers := 0
	for _, s := range doc.Surveys {
		numbers += s.Readings()
	}
	if numbers == 0 { // a name alone is no survey
		doc.Surveys = nil
	}
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
	for _, m := range parse.OnceMeasures() {
		if m == parse.LengthOverall && b.twoLengths() {
			for _, e := range f.whole[m] {
				extra = append(extra, parse.Survey{Unit: main.Unit, Stern: parse.Pointed, LengthOverall: b.reading([]entry{e}, true)})
			}
			continue
		}
		r := main.Once(m)
		*r = b.reading(f.whole[m], m == parse.LengthOverall)
		if m == parse.BowHeight || m == parse.SternHeight || m == parse.CarryPoint {
			b.checkSmall(r, f.whole[m])
		}
	}
	tables := b.tables()
	if len(tables) > 0 {
		b.checkGreatest(&main.Greatest.At, slices.Concat(tables...))
	}
	if len(tables) > 0 {
		main.Stations = tables[0]
		b.nameTransom(&main)
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
	for _, bl := range b.counting(blocks) {
		stations := b.stations(bl)
		placed := false
		for i, t := range tables {
			if !overlap(t, stations) {
				tables[i] = append(t, stations...)
			} else if t, ok := complete(t, stations); ok {
				tables[i] = t
			} else {
				continue
			}
			placed = true
			break
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

// stillFull is the share of the largest girth above which a last row is not
// near the stern: on any boat the girths fall by more than that towards it.
const stillFull = 0.9

// half reports rows that end where the boat is still about as full as anywhere.
func half(rows []row) bool {
	last, most := 0.0, 0.0
	for _, r := range rows {
		for _, e := range append(slices.Clone(r.full), r.hull...) {
			if e.numeric && !e.fault.Some() {
				last = e.amount.Number
				most = max(most, last)
				break
			}
		}
	}
	return last > 0 && last >= stillFull*most
}

// turnRound turns distances from the stern into ones from the bow. It reports
// whether the length overall allows it.
func turnRound(at []parse.Length, names []parse.Name, overall parse.Length) bool {
	for i, n := range names {
		if n.Special == "" && at[i] >= overall {
			return false
		}
	}
	for i, n := range names {
		if n.Special == "" {
			at[i] = overall - at[i]
		}
	}
	return true
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
	hint.Half = half(bl.rows)
	if hint.Spacing != 0 && hint.Scale == parse.Bare && parse.Counted(names) {
		for i := range names {
			names[i].Ordinal = names[i].Special == ""
		}
	}
	at, unclear := parse.Stations(names, hint)
	if bl.astern && !turnRound(at, names, b.overall) {
		unclear = parse.Fault{Code: parse.CodeStationUnclear, Message: "The heading says that the distances are from the stern, and the length overall is not known."}
	}
	if f := b.implausible(bl, at); f.Some() {
		unclear = f
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
