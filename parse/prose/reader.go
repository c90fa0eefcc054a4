package prose

import (
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// reader turns the lines of a body into grids of what they say, which are then
// recognised like those of any other file. What the words do not settle is a
// problem, and reaches no grid.
type reader struct {
	file        string
	grids       []table.Grid
	keyed       [][]table.Cell // a label and a number
	pairs       [][]table.Cell // station, hull girth, full girth
	block       [][]table.Cell // rows of numbers that follow each other
	header      []table.Cell   // of the rows that follow
	series      series         // the stations of the list before
	section     role           // the girth that a heading says the lines below give
	reached     float64        // the last place below that heading, as written
	row         *spot          // the place that the numbers of these lines belong to
	problems    []parse.Problem
	chat        []parse.Problem // of numbers that are a survey's only where there is one
	corrections []Correction
	astern      bool // the places are distances from the stern
	unsureEnd   bool // they may be

	// Of a letter that is answered.
	answering     bool        // there is one
	scale         parse.Scale // what it is in, Bare when it does not say
	confirmations []Confirmation
	tape          []string // what was said to be under the tape
}

func (r *reader) read(own []line) {
	r.direction(own)
	own = pasted(countStations(uncount(besideToBelow(spellOut(underLeads(withoutStamps(own)))))))
	var p *paragraph
	from := 0 // the line that it begins with
	for i := 0; i < len(own); {
		if p == nil || i >= from+len(p.lines) {
			p, from = newParagraph(own[i:]), i
		}
		if i < from+len(p.lines) {
			n, ok := r.run(p, i-from)
			if !ok {
				n, ok = r.seriesOf(p, i-from)
			}
			if ok {
				i, p = i+n, nil
				continue
			}
		}
		if n := r.stacked(own[i:]); n > 0 {
			i += n
			continue
		}
		if n := r.cells(own[i:]); n > 0 {
			i += n
			continue
		}
		i += r.lines(own[i:])
	}
	r.endRow()
	r.endBlock()
}

func measuredNumbers(text string) bool {
	if !strings.ContainsAny(text, figureSigns) {
		return false
	}
	for _, it := range scan(text) {
		if it.number {
			return true
		}
	}
	return false
}

func (r *reader) unit(unit, place string) {
	r.keyed = append(r.keyed, []table.Cell{{Text: "units", Place: place}, {Text: unit, Place: place}})
}

var (
	inchesNamed = parse.NewPattern(`\b(?:in|en|are|all) (?:inches|pouces)\b|\((?:in|inches|pouces|po)\)|\binches\b`)
	// otherUnit hints that the unit is named for what it is not: "I know you
	// work in inches, but".
	otherUnit = parse.NewPattern(`\b(?:not|no|don'?t|but|though|usually|normally|instead|convert(?:ed)?|prefer|if|would|could|should|can|sorry|pas|mais|sinon|si|desole)\b`)
	cmNamed   = parse.NewPattern(`\b(?:in|en|are|all) (?:cm|centimet(?:re|er)s?)\b|\(cm\)|\bcentimet(?:re|er)s\b`)
)

// unitNamed is the unit that a sentence without numbers says of all of them.
func unitNamed(s string) string {
	if otherUnit.MatchString(s) {
		return ""
	}
	inch, cm := inchesNamed.MatchString(s), cmNamed.MatchString(s)
	switch {
	case inch && !cm:
		return "in"
	case cm && !inch:
		return "cm"
	}
	return ""
}

// document has the grids recognised.
func (r *reader) document() parse.Document {
	doc := r.recognised()
	doc.Problems = append(doc.Problems, r.problems...)
	if len(doc.Problems)+len(doc.Surveys) > 0 {
		doc.Problems = append(doc.Problems, r.chat...)
	}
	return doc
}

// recognised is what the grids say.
func (r *reader) recognised() parse.Document {
	grids := slices.Clone(r.grids)
	if len(r.pairs) > 0 {
		head := []table.Cell{{Text: "station"}, {Text: "hull girth"}, {Text: "full girth"}}
		grids = append(grids, table.Grid{Rows: append([][]table.Cell{head}, r.pairs...)})
	}
	if len(r.keyed) > 0 {
		grids = append(grids, table.Grid{Rows: r.keyed})
	}
	if unit, place := r.unitOfNumbers(); unit != "" && len(r.grids)+len(r.pairs) == 0 {
		grids = append(grids, table.Grid{Rows: [][]table.Cell{{{Text: "units", Place: place}, {Text: string(unit), Place: place}}}})
	}
	doc := parse.Document{File: r.file}
	if len(grids) > 0 {
		doc = table.Read(r.file, join(r.turned(grids)))
	}
	return r.doubtEnds(doc)
}

// unitOfNumbers is the unit that all numbers with one have, for those without
// beside them: where the length is 15 ft 9 in, a bow of 18 is in inches. It is
// not asked where there are girths, whose size tells.
func (r *reader) unitOfNumbers() (unit parse.Unit, place string) {
	for _, row := range r.keyed {
		if row[0].Text == "units" {
			return "", ""
		}
		a, fault := parse.ParseLength(row[1].Text)
		switch of := a.Scale.Unit(); {
		case fault.Some(), of == parse.UnknownUnit:
		case unit == parse.UnknownUnit:
			unit, place = of, row[1].Place
		case unit != of:
			return "", ""
		}
	}
	return unit, place
}

// join sets the grids below each other, a blank row between: one mail is one
// sheet.
func join(grids []table.Grid) []table.Grid {
	var rows [][]table.Cell
	for i, g := range grids {
		if i > 0 {
			rows = append(rows, nil)
		}
		rows = append(rows, g.Rows...)
	}
	return []table.Grid{{Rows: rows}}
}

func (r *reader) problem(code parse.Code, place, raw, message string) {
	r.problems = append(r.problems, parse.Problem{
		Code: code, Source: parse.Source{File: r.file, Place: place, Raw: raw}, Message: message,
	})
}
