package pdf

import (
	"fmt"
	"strconv"
	"strings"

	"fairtape/parse"
)

// entry is one number on a form of ours, by its parts.
type entry struct {
	parts map[string]*field // "" for a number in one piece
	page  *page
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
		if !o.second().holds(f) {
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
