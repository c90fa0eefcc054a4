package pdf

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/klippa-app/go-pdfium/enums"

	"fairtape/parse"
)

// ownName is the name of a field on our own forms: that of the number in the
// JSON, and the part of it where it has several.
var ownName = regexp.MustCompile(`^(length_overall|bow_height|stern_height|carry_point|` +
	`greatest\.(?:at|hull_girth|full_girth|opening)|transom\.(?:hull_girth|full_girth)|` +
	`stations\[\d{1,3}\]\.(?:at|hull_girth|full_girth))(?:\.(feet|inches|whole|half|tenths))?$`)

var ownStation = regexp.MustCompile(`^stations\[(\d+)\]\.(at|hull_girth|full_girth)$`)

// ownLeast is how many fields of our own names make a form ours. One of them at
// least has a part or a row: anybody may call a field "bow_height".
const ownLeast = 3

// entry is one number on a form of ours, by its parts.
type entry struct {
	parts map[string]*field // "" for a number in one piece
	page  *page
}

// own is a form of ours on its way to a survey.
type own struct {
	*sheet
	entries map[string]*entry
	others  map[string]*field
	unit    parse.Unit
	survey  parse.Survey
}

// ownForm reads a form of our own by the names of its fields; nil when the file
// is none.
func (s *sheet) ownForm() *parse.Document {
	o := own{sheet: s, entries: map[string]*entry{}, others: map[string]*field{}}
	matched, unmistakable := 0, false
	for i := range s.pages {
		p := &s.pages[i]
		for j := range p.fields {
			f := &p.fields[j]
			m := ownName.FindStringSubmatch(f.name)
			if m == nil {
				o.others[f.name] = f
				continue
			}
			matched++
			unmistakable = unmistakable || strings.Contains(f.name, ".")
			e := o.entries[m[1]]
			if e == nil {
				e = &entry{parts: map[string]*field{}, page: p}
				o.entries[m[1]] = e
			}
			if e.parts[m[2]] == nil || e.parts[m[2]].value == "" {
				e.parts[m[2]] = f
			}
		}
	}
	if matched < ownLeast || !unmistakable {
		return nil
	}
	o.unit = o.unitWritten()
	o.fill()
	doc := parse.Document{File: s.file}
	if o.written() {
		doc.Surveys = []parse.Survey{o.survey}
	}
	return &doc
}

// unitWritten is the unit of the form: from its field of that name, from the
// parts its numbers have, or from the words printed on it.
func (o *own) unitWritten() parse.Unit {
	if f := o.others["unit"]; f != nil {
		switch parse.Unit(f.value) {
		case parse.Inch, parse.Centimetre:
			return parse.Unit(f.value)
		}
	}
	for _, e := range o.entries {
		switch {
		case e.parts["half"] != nil, e.parts["feet"] != nil, e.parts["inches"] != nil:
			return parse.Inch
		case e.parts["tenths"] != nil:
			return parse.Centimetre
		}
	}
	inch, cm := 0, 0
	for i := range o.pages {
		for _, line := range o.pages[i].lines() {
			for _, c := range line {
				for _, w := range strings.FieldsFunc(parse.Fold(c.text), notLetter) {
					switch w {
					case "in", "inch", "inches", "ft", "feet", "foot", "pouces", "po", "pieds":
						inch++
					case "cm", "centimetre", "centimetres", "centimeters":
						cm++
					}
				}
			}
		}
	}
	switch {
	case inch > 0 && cm == 0:
		return parse.Inch
	case cm > 0 && inch == 0:
		return parse.Centimetre
	}
	return parse.UnknownUnit
}

func notLetter(r rune) bool { return r < 'a' || r > 'z' }

func (o *own) fill() {
	s := &o.survey
	s.Unit, s.Stern = o.unit, parse.Pointed
	s.Customer, s.Boat = o.words("customer"), o.words("boat")
	s.Decked = o.ticked("decked")
	if o.ticked("stern.square") || o.words("stern") == string(parse.Square) {
		s.Stern = parse.Square
	}
	for name, reading := range map[string]*parse.Reading{
		"length_overall": &s.LengthOverall, "bow_height": &s.BowHeight,
		"stern_height": &s.SternHeight, "carry_point": &s.CarryPoint,
		"greatest.at": &s.Greatest.At, "greatest.opening": &s.Greatest.Opening,
		"greatest.hull_girth": &s.Greatest.HullGirth, "greatest.full_girth": &s.Greatest.FullGirth,
		"transom.hull_girth": &s.Transom.HullGirth, "transom.full_girth": &s.Transom.FullGirth,
	} {
		*reading = o.number(name)
	}
	o.stations()
	for name, f := range o.others {
		switch name {
		case "customer", "boat", "telephone", "phone", "email", "address", "date", "version", "unit", "stern":
		default:
			if hasDigit(f.value) {
				o.unplaced(f.place(o.pageOf(f)), f.value)
			}
		}
	}
	slices.SortFunc(o.problems, func(a, b parse.Problem) int {
		return strings.Compare(a.Source.Place, b.Source.Place) // maps come in any order
	})
}

func (o *own) pageOf(f *field) int {
	for i := range o.pages {
		for j := range o.pages[i].fields {
			if &o.pages[i].fields[j] == f {
				return o.pages[i].number
			}
		}
	}
	return 0
}

func (o *own) words(name string) string {
	if f := o.others[name]; f != nil {
		return f.text()
	}
	return ""
}

func (o *own) ticked(name string) bool {
	f := o.others[name]
	return f != nil && f.checked
}

// number reads one number of the form from its parts.
func (o *own) number(name string) parse.Reading {
	e := o.entries[name]
	if e == nil || e.blank() {
		return parse.Reading{}
	}
	place := fmt.Sprintf("page %d, field %s", e.page.number, name)
	raw := e.raw()
	source := parse.Source{File: o.file, Place: place, Raw: raw}
	if e.hidden() {
		o.problem(CodeNotShown, place, raw, "There is a number in the file here that is not seen on the page.")
		return parse.Reading{}
	}
	length, fault := e.length(o.unit)
	if fault.Some() {
		o.problem(fault.Code, place, raw, fault.Message)
		return parse.Reading{}
	}
	for _, f := range e.parts {
		if c := f.cell(e.page.number); c.differs && f.text() != "" {
			o.doubtAt(place, CodeFieldDiffer, "The field shows something else than it holds.")
		}
		if !o.second.holds(f) {
			o.doubtAt(place, CodeReaders, "Two programs read this field of the PDF differently.")
		}
	}
	for other, f := range o.others {
		if f.checked && strings.HasPrefix(other, name) {
			o.doubtAt(place, CodeTick, tickUnclear)
		}
	}
	return parse.Reading{Value: length, Known: true, Confidence: parse.Typed, Source: source}
}

// holds reports whether the second reader finds the same in a field.
func (s second) holds(f *field) bool {
	if s.err != nil {
		return false
	}
	value, ok := s.fields[f.name]
	switch f.kind {
	case enums.FPDF_FORMFIELD_TYPE_CHECKBOX, enums.FPDF_FORMFIELD_TYPE_RADIOBUTTON:
		return f.checked == (ok && value != "" && value != "Off")
	}
	return strings.Join(strings.Fields(value), " ") == f.text()
}

func (e *entry) blank() bool {
	for _, f := range e.parts {
		if f.text() != "" || f.checked {
			return false
		}
	}
	return true
}

func (e *entry) hidden() bool {
	for _, f := range e.parts {
		if f.text() != "" && f.cell(0).hidden {
			return true
		}
	}
	return false
}

var partOrder = []string{"", "feet", "inches", "whole", "half", "tenths"}

func (e *entry) raw() string {
	var words []string
	for _, part := range partOrder {
		f := e.parts[part]
		switch {
		case f == nil:
		case part == "half" && f.checked:
			words = append(words, "1/2")
		case f.text() == "":
		case part == "feet":
			words = append(words, f.text()+" ft")
		case part == "inches":
			words = append(words, f.text()+" in")
		case part == "tenths":
			words = append(words, "."+f.text())
		default:
			words = append(words, f.text())
		}
	}
	return strings.Join(words, " ")
}

// length puts the parts of a number together.
func (e *entry) length(unit parse.Unit) (parse.Length, parse.Fault) {
	if whole := e.parts[""]; whole != nil && whole.text() != "" {
		return e.halved(whole, unit)
	}
	get := func(part string) (float64, bool, bool) {
		f := e.parts[part]
		if f == nil || f.text() == "" {
			return 0, false, true
		}
		n, err := strconv.ParseUint(f.text(), 10, 16)
		return float64(n), true, err == nil
	}
	feet, hasFeet, ok1 := get("feet")
	inches, hasInches, ok2 := get("inches")
	whole, hasWhole, ok3 := get("whole")
	tenths, hasTenths, ok4 := get("tenths")
	half := e.parts["half"] != nil && e.parts["half"].checked
	if !ok1 || !ok2 || !ok3 || !ok4 {
		// A person typed more into a box of figures than figures: 35 1/2.
		if f := e.parts["whole"]; f != nil && !half && !hasTenths && !hasFeet && !hasInches {
			return inUnit(f.text(), unit)
		}
		return 0, notFigures()
	}
	if tenths > 9 || hasFeet && inches >= 12 || hasWhole && (hasFeet || hasInches) || !hasWhole && !hasFeet && !hasInches {
		return 0, notFigures()
	}
	total := whole + tenths/10 + feet*12 + inches
	if half {
		total += 0.5
	}
	if hasFeet || hasInches {
		unit = parse.Inch
	}
	if unit == parse.UnknownUnit {
		return 0, unitUnclear()
	}
	return parse.Measured(total, unit), parse.Fault{}
}

// halved reads a number whose half is a tick of its own. A tick counts only
// beside a whole number.
func (e *entry) halved(whole *field, unit parse.Unit) (parse.Length, parse.Fault) {
	for part, f := range e.parts {
		if part != "" && part != "half" && f.text() != "" {
			return 0, notFigures()
		}
	}
	if half := e.parts["half"]; half == nil || !half.checked {
		return inUnit(whole.text(), unit)
	}
	n, err := strconv.ParseUint(whole.text(), 10, 16)
	if err != nil {
		return 0, notFigures()
	}
	if unit == parse.UnknownUnit {
		return 0, unitUnclear()
	}
	return parse.Measured(float64(n)+0.5, unit), parse.Fault{}
}

func inUnit(text string, unit parse.Unit) (parse.Length, parse.Fault) {
	amount, fault := parse.ParseLength(text)
	if fault.Some() {
		return 0, fault
	}
	length, ok := amount.Length(parse.ScaleOf(unit))
	if !ok {
		return 0, unitUnclear()
	}
	return length, parse.Fault{}
}

func notFigures() parse.Fault {
	return parse.Fault{Code: parse.CodeNotALength, Message: "The boxes of this number do not make one together."}
}

func unitUnclear() parse.Fault {
	return parse.Fault{Code: parse.CodeUnitUnclear, Message: "The form does not say whether this is inches or centimetres."}
}

// stations fills the rows, in the order of the form.
func (o *own) stations() {
	var rows []int
	for name := range o.entries {
		if m := ownStation.FindStringSubmatch(name); m != nil {
			n, err := strconv.Atoi(m[1])
			if err == nil && !slices.Contains(rows, n) {
				rows = append(rows, n)
			}
		}
	}
	slices.Sort(rows)
	for _, n := range rows {
		row := fmt.Sprintf("stations[%d].", n)
		pair := parse.Pair{HullGirth: o.number(row + "hull_girth"), FullGirth: o.number(row + "full_girth")}
		if pair.HullGirth.Absent() && pair.FullGirth.Absent() {
			continue
		}
		at, fault := o.stationAt(row)
		if fault.Some() {
			for _, r := range []parse.Reading{pair.HullGirth, pair.FullGirth} {
				if !r.Absent() {
					o.problem(parse.CodeStationUnclear, r.Source.Place, r.Source.Raw, "It cannot be told at what station this was taken.")
				}
			}
			continue
		}
		o.survey.Stations = append(o.survey.Stations, parse.Station{At: at, Pair: pair})
	}
	slices.SortStableFunc(o.survey.Stations, func(a, b parse.Station) int { return int(a.At - b.At) })
}

// stationAt says where a row was taken: by its own field, else by what is
// printed to the left of the row.
func (o *own) stationAt(row string) (parse.Length, parse.Fault) {
	unclear := parse.Fault{Code: parse.CodeStationUnclear}
	if e := o.entries[row+"at"]; e != nil && !e.blank() {
		if f := e.parts[""]; f != nil {
			return stationLength(f.text(), o.unit)
		}
		return e.length(o.unit)
	}
	for _, measure := range []string{"hull_girth", "full_girth"} {
		e := o.entries[row+measure]
		if e == nil {
			continue
		}
		for _, f := range e.parts {
			if label := e.page.leftOf(f.box); label != "" {
				return stationLength(label, o.unit)
			}
		}
	}
	return 0, unclear
}

// leftOf is the text nearest to the left of a box on its line.
func (p *page) leftOf(b box) string {
	text, best := "", -1.0
	for _, line := range p.lines() {
		for _, c := range line {
			if c.field == nil && c.box.overlap(b) >= sameLine && c.box.x1 <= b.x0+1 && c.box.x1 > best && hasDigit(c.text) {
				text, best = c.text, c.box.x1
			}
		}
	}
	return text
}

// stationLength reads what a row is called. Rows of our forms say their unit;
// a bare number is feet on a form in inches.
func stationLength(label string, unit parse.Unit) (parse.Length, parse.Fault) {
	name, fault := parse.ParseStation(label)
	if fault.Some() {
		return 0, fault
	}
	bare := parse.ScaleCM
	if unit == parse.Inch {
		bare = parse.ScaleFoot
	}
	length, ok := name.Amount.Length(bare)
	if !ok || name.Ordinal || name.Special != "" || length <= 0 {
		return 0, parse.Fault{Code: parse.CodeStationUnclear}
	}
	return length, parse.Fault{}
}

// written reports that the form holds any number at all.
func (o *own) written() bool {
	found := false
	o.survey.Each(func(r *parse.Reading) { found = found || !r.Absent() })
	return found
}

func (f *field) place(page int) string { return fmt.Sprintf("page %d, field %s", page, f.name) }
