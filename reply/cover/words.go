package cover

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fairtape/parse"
)

const (
	millimetresPerInch = 25.4
	eighths            = 8
)

// Number writes inches for the cutter: to the eighth of an inch, or to the
// millimetre where the survey is metric.
func Number(in float64, unit parse.Unit) string {
	if unit == parse.Centimetre {
		return strconv.FormatFloat(math.Round(in*millimetresPerInch), 'f', -1, 64)
	}
	n := int(math.Round(math.Abs(in) * eighths))
	whole, over, under := n/eighths, n%eighths, eighths
	for over > 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	text := strconv.Itoa(whole)
	switch {
	case over > 0 && whole == 0:
		text = fmt.Sprintf("%d/%d", over, under)
	case over > 0:
		text = fmt.Sprintf("%d %d/%d", whole, over, under)
	}
	if in < 0 && n > 0 {
		text = "-" + text
	}
	return text
}

// UnitName returns what Number counts in.
func UnitName(unit parse.Unit) string {
	if unit == parse.Centimetre {
		return "mm"
	}
	return "in"
}

// Number writes inches in the sheet's unit.
func (s *CutSheet) Number(in float64) string { return Number(in, s.Unit) }

// Say is Number with its unit.
func (s *CutSheet) Say(in float64) string { return s.Number(in) + " " + UnitName(s.Unit) }

// Station names a station as the customer's form does.
func (s *CutSheet) Station(at float64) string {
	if s.Unit == parse.Centimetre {
		return strconv.FormatFloat(math.Round(at*millimetresPerInch/10), 'f', -1, 64) + " cm"
	}
	if feet := at / 12; math.Abs(feet-math.Round(feet)) < 1e-6 {
		return strconv.FormatFloat(math.Round(feet), 'f', -1, 64) + " ft"
	}
	return s.Say(at)
}

// Running writes a length of cloth to buy: in yards and inches, or in metres.
func (s *CutSheet) Running(in float64) string {
	if s.Unit == parse.Centimetre {
		return strconv.FormatFloat(math.Ceil(in*millimetresPerInch/100)/10, 'f', 1, 64) + " m"
	}
	in = math.Ceil(in)
	return fmt.Sprintf("%.0f in (%.2f yd)", in, math.Ceil(in/36*100)/100)
}

// GirthWords says what the girth reduction does, by the greatest girth.
func (s *CutSheet) GirthWords() string {
	full := s.Hull.Full(s.Hull.greatest())
	return "Girth: " + s.reduction(s.Order.Cloth.GirthReduction, full)
}

// LengthWords says what the length reduction does, by the top line.
func (s *CutSheet) LengthWords() string {
	spans := s.Hull.topLine().spans()
	by := s.Order.Cloth.LengthReduction
	reduced := sum(s.Hull.reduceSpans(spans, by))
	return "Length along the top: " + s.reduced(by, sum(spans), reduced)
}

func (s *CutSheet) reduction(by, from float64) string { return s.reduced(by, from, from*(1-by)) }

// reduced says it in words: a bare sign is read both ways.
func (s *CutSheet) reduced(by, from, to float64) string {
	switch {
	case by > 0:
		return fmt.Sprintf("%s SMALLER than measured: %s to %s %s", percent(by), s.Number(from), s.Number(to), UnitName(s.Unit))
	case by < 0:
		return fmt.Sprintf("%s LARGER than measured: %s to %s %s", percent(-by), s.Number(from), s.Number(to), UnitName(s.Unit))
	}
	return "as measured: " + s.Say(from)
}

// Cautions returns what every sheet says.
func Cautions() []string {
	return []string{
		"A cover is no flotation and no substitute for tie-downs.",
		"Tie lines to the boat, never to the cover.",
		"No person, animal, hot motor or fuel under it.",
		"Not for driving unless made for it.",
		"Air it when wet, take snow off.",
	}
}

func percent(f float64) string { return strconv.FormatFloat(math.Round(f*1e4)/100, 'f', -1, 64) + " %" }

func (r *Refusal) sort() {
	slices.SortFunc(r.Reasons, func(a, b Reason) int { return strings.Compare(a.Key+a.Why, b.Key+b.Why) })
}
