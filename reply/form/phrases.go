package form

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"fairtape/parse"
	"fairtape/parse/form"
)

// phrasebook holds the words of the papers in one language. Where the unit
// matters, a phrase has one wording for inches and one for centimetres.
type phrasebook struct {
	language string

	guideTitle, numbersTitle, slipTitle, job string
	customer, telephone, boat, underCover    string

	before, tapeReads, tools, cautions string
	steps                              [4]step
	done, post                         string

	string, squared string // in the drawings

	open, decked, pointed, square     string
	names                             map[parse.Measure]string
	onTransom, greatestAt             string
	feet, inches, half                string
	pen, oneFigure, nearest, likeThis string
	hullColumn, fullColumn            string // in the table of stations and under the drawings
	first, second                     string

	slipIntro, slipApart, slipUnder, slipNothing, slipSomething, slipCautions string

	tracing tracing

	// On the sheet for those who type.
	unitName, deckedQuestion, yes, no, sternQuestion, station string
	sheetNames                                                map[parse.Measure]string

	unit                   parse.Unit
	tapeOnLetter, tapeOnA4 string
}

// tracing holds the words of the sheet for tracing the ends.
type tracing struct {
	title              string
	steps              [3]step
	card, pencil, flat string // in the drawing
	bow, stern, up     string // on the labels
	photo              string // how a photo is taken of it
	measure, print     string // on the sheet itself
}

// step is one part of the form: its heading, and how it is done.
type step struct{ heading, how string }

// phrases returns the words for a language tag such as "fr-CA"; English for any
// that is not known. The spacing is that of the stations on a form.
func phrases(language string, unit parse.Unit, spacing parse.Length) phrasebook {
	primary, _, _ := strings.Cut(strings.ReplaceAll(strings.ToLower(language), "_", "-"), "-")
	if primary == "fr" {
		return french(unit, every(spacing, unit, "chaque pied", "tous les ", "po"))
	}
	return english(unit, every(spacing, unit, "every foot", "every ", "in"))
}

// every says how far apart stations are: "every foot", "every 30 cm".
func every(spacing parse.Length, unit parse.Unit, foot, before, inches string) string {
	switch {
	case unit == parse.Centimetre:
		return before + plain(spacing.In(unit)) + nbsp + "cm"
	case spacing == form.Spacing(unit):
		return foot
	}
	return before + halves(spacing.In(unit)) + nbsp + inches
}

// documentTitle is what a viewer shows above the window.
func (w phrasebook) documentTitle(l form.Layout) string {
	title := w.guideTitle
	if l.Slip {
		title = w.slipTitle
	}
	if l.Job > 0 {
		title += ", " + w.jobNumber(l.Job)
	}
	return title
}

func (w phrasebook) jobNumber(job int) string { return fmt.Sprintf(w.job, job) }

// tapeOn is what a good tape reads along the long edge of a paper.
func (w phrasebook) tapeOn(paper form.Paper) string {
	if paper == form.A4 {
		return w.tapeOnA4
	}
	return w.tapeOnLetter
}

// place is the name of a station: "7 ft", "210 cm"; "90 in" where it is no
// whole foot.
func (w phrasebook) place(at parse.Length) string {
	if w.unit == parse.Centimetre {
		return plain(at.In(parse.Centimetre)) + nbsp + "cm"
	}
	inches := at.In(parse.Inch)
	if feet := inches / 12; feet == math.Trunc(feet) {
		return plain(feet) + nbsp + w.feet
	}
	return halves(inches) + nbsp + w.inches
}

// nbsp holds a number and its unit together.
const nbsp = "\u00a0"

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// halves writes inches to the half as people do.
func halves(x float64) string {
	whole := int(x)
	if x-float64(whole) != 0.5 {
		return plain(x)
	}
	if whole == 0 {
		return "½"
	}
	return strconv.Itoa(whole) + "½"
}

// in chooses by unit.
func in(unit parse.Unit, inches, centimetres string) string {
	if unit == parse.Centimetre {
		return centimetres
	}
	return inches
}

// tip is what a field is called by programs that read a page aloud.
func (p *painter) tip(f form.Field) string {
	w := p.words
	switch f.Name {
	case form.NameCustomer:
		return w.customer
	case form.NameTelephone:
		return w.telephone
	case form.NameBoat:
		return w.boat
	case form.NameUnderCover:
		return w.underCover
	case form.NameTapeChecked:
		return fmt.Sprintf(w.tapeReads, w.tapeOn(p.layout.Paper))
	case form.NameOpen:
		return w.open
	case form.NameDecked:
		return w.decked
	case form.NamePointed:
		return w.pointed
	case form.NameSquare:
		return w.square
	}
	words := []string{w.names[f.Cell.Measure]}
	switch m := f.Cell.Measure; m {
	case parse.HullGirth, parse.FullGirth:
		words = []string{w.place(f.Cell.At), words[0]}
	case parse.GreatestHullGirth, parse.TransomHullGirth:
		words = append(words, w.names[parse.HullGirth])
	case parse.GreatestFullGirth, parse.TransomFullGirth:
		words = append(words, w.names[parse.FullGirth])
	}
	switch f.Part {
	case form.Feet:
		words = append(words, w.feet)
	case form.Inches:
		words = append(words, w.inches)
	case form.Half:
		words = append(words, w.half)
	case form.Whole:
		words = append(words, in(w.unit, w.inches, "cm"))
	}
	return strings.Join(words, ", ")
}

// girthColumn is the name of a girth over its column, "" for other measures.
func (w phrasebook) girthColumn(m parse.Measure) string {
	switch m {
	case parse.HullGirth, parse.GreatestHullGirth, parse.TransomHullGirth:
		return w.hullColumn
	case parse.FullGirth, parse.GreatestFullGirth, parse.TransomFullGirth:
		return w.fullColumn
	}
	return ""
}

// unstarred is a text without the signs of bold words.
func unstarred(text string) string { return strings.ReplaceAll(text, "*", "") }

// clipped is as much of a text, in whole sentences, as a spreadsheet shows
// beside a cell: 255 characters (ECMA-376, part 1, 18.3.1.32).
func clipped(text string) string {
	const most = 255
	for utf8.RuneCountInString(text) > most {
		end := strings.LastIndex(strings.TrimSuffix(text, "."), ". ")
		if end < 0 {
			return ""
		}
		text = text[:end+1]
	}
	return text
}
