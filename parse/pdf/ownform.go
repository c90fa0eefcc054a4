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
