package picture

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

// number writes a length in a survey's unit as people there write it: inches
// with fractions down to sixteenths, centimetres with tenths where there are
// any.
func number(l parse.Length, unit parse.Unit) string {
	if unit == parse.Centimetre {
		return strconv.FormatFloat(math.Round(l.In(unit)*10)/10, 'f', -1, 64)
	}
	sixteenths := int(math.Round(l.In(parse.Inch) * 16))
	whole, part := sixteenths/16, sixteenths%16
	if part == 0 {
		return strconv.Itoa(whole)
	}
	below := 16
	for part%2 == 0 {
		part, below = part/2, below/2
	}
	fraction := fmt.Sprintf("%d/%d", part, below)
	if whole == 0 {
		return fraction
	}
	return fmt.Sprintf("%d %s", whole, fraction)
}

// nearest rounds an estimate to what a tape is read to: half inches or whole
// centimetres.
func nearest(l parse.Length, unit parse.Unit) parse.Length {
	if unit == parse.Centimetre {
		return parse.Centimetres(math.Round(l.In(unit)))
	}
	return parse.Inches(math.Round(l.In(parse.Inch)*2) / 2)
}

const perFoot = 12

// place names a station by its distance from the bow: "7 ft", "6 ft 6 in", "210
// cm". Foot is the word for feet in the reader's language.
func place(at parse.Length, unit parse.Unit, language string) string {
	if unit == parse.Centimetre {
		return number(at, unit) + " cm"
	}
	foot, inch := "ft", "in"
	if language == "fr" {
		foot, inch = "pi", "po"
	}
	feet := math.Floor(at.In(parse.Inch)/perFoot + 1e-6)
	rest := parse.Inches(at.In(parse.Inch) - feet*perFoot)
	switch left := number(rest, unit); {
	case left == "0":
		return fmt.Sprintf("%.0f %s", feet, foot)
	case feet == 0:
		return left + " " + inch
	default:
		return fmt.Sprintf("%.0f %s %s %s", feet, foot, left, inch)
	}
}

// slipWords says in few words what probably happened; "" for nothing known.
func slipWords(kind slip.Kind) string {
	switch kind {
	case slip.OffByTen:
		return "a ten off"
	case slip.Transposed:
		return "digits transposed"
	case slip.OffByFoot:
		return "a foot off"
	case slip.Digit:
		return "one digit wrong"
	case slip.MisreadTape:
		return "tape not lying well"
	case slip.SwappedPair:
		return "pair swapped"
	case slip.RowRepeated:
		return "row written twice"
	case slip.RowSkipped:
		return "a station skipped"
	case slip.MetricEdge:
		return "tape's other edge read"
	case slip.DecimalLost:
		return "decimal point lost"
	case slip.FeetInchesJoined:
		return "feet and inches joined"
	case slip.FromStern:
		return "measured from the stern"
	case slip.OpeningForFull:
		return "opening in place of full girth"
	case slip.HalfGirth:
		return "girth to the keel only"
	case slip.TapeOffset:
		return "tape's end missing"
	case slip.TapeLength:
		return "tape's length not added"
	}
	return ""
}

// girthName names a measure of a pair in plain words.
func girthName(m parse.Measure) string {
	switch m {
	case parse.HullGirth, parse.GreatestHullGirth, parse.TransomHullGirth:
		return "hull girth"
	case parse.FullGirth, parse.GreatestFullGirth, parse.TransomFullGirth:
		return "full girth"
	}
	return "girths"
}

// title is the finding in at most ten words.
func title(report validate.Report) string {
	unit := report.Survey.Unit
	odd := oddFindings(report)
	if i := slices.IndexFunc(odd, wholeColumn); i >= 0 {
		odd = odd[i : i+1] // it explains the others, or hides them
	}
	switch {
	case report.Verdict == validate.Unreadable || countGirths(report.Survey) == 0:
		return "No girth was read"
	case len(odd) == 0 && report.Verdict == validate.Incomplete:
		return "Nothing odd, but something is missing"
	case len(odd) == 0:
		return "Nothing odd: the girths run fair"
	case len(odd) > 1:
		return several(odd, unit)
	}
	f := odd[0]
	words := slipWords(f.Slip)
	switch {
	case len(f.Rows) > 0 && f.Slip == slip.RowSkipped:
		return "A station is skipped before " + place(f.Rows[0], unit, "en")
	case len(f.Rows) == 1 && f.Slip == slip.RowRepeated:
		return "Row at " + place(f.Rows[0], unit, "en") + " written twice"
	case len(f.Rows) > 0 || f.Cell.Measure == "":
		if words == "" {
			words = "something odd"
		}
		return "The whole column: " + words + "?"
	}
	what := capital(girthName(f.Cell.Measure))
	if where, ok := cellPlace(f.Cell, report.Survey); ok {
		what += " at " + place(where, unit, "en")
	}
	verb := " looks"
	if strings.HasPrefix(what, "Girths") {
		verb = " look"
	}
	if words == "" || len(strings.Fields(what))+len(strings.Fields(words)) > maxTitleWords {
		return what + verb + " wrong"
	}
	return what + ": " + words + "?"
}

const maxTitleWords = 10

func several(odd []validate.Finding, unit parse.Unit) string {
	var places []string
	seen := make(map[string]bool)
	for _, f := range odd {
		at := f.Cell.At
		if len(f.Rows) > 0 {
			at = f.Rows[0]
		}
		if at == 0 {
			continue
		}
		if name := place(at, unit, "en"); !seen[name] {
			seen[name] = true
			places = append(places, name)
		}
	}
	start := fmt.Sprintf("%d things look odd", len(odd))
	if len(places) == 0 || len(places) > 3 {
		return start
	}
	full := start + ", at " + join(places, "and")
	if len(strings.Fields(full)) > maxTitleWords {
		return start
	}
	return full
}

// join puts a list into words: "a, b and c".
func join(list []string, and string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " " + and + " " + list[last]
}

func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
