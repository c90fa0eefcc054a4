package pdf

import (
	"regexp"
	"slices"

	"github.com/klippa-app/go-pdfium/enums"

	"fairtape/parse"
)

// unitWithin is how far behind a number its unit stands at most, in heights of
// its line.
const unitWithin = 2.5

// joinUnits puts the numbers of a form together with the halves that were chosen
// and the units that are printed behind them, and feet with inches, metres with centimetres: "5", "m", "13",
// "cm" are one length.
func (s *sheet) joinUnits(lines [][]cell) [][]cell {
	out := make([][]cell, len(lines))
	for i, line := range lines {
		var joined []cell
		for _, c := range line {
			if n := len(joined); n > 0 && follows(joined[n-1], c) && addsHalf(joined[n-1], c) {
				joined[n-1] = s.joinCells(joined[n-1], c)
				continue
			}
			if n := len(joined); n > 0 && follows(joined[n-1], c) && onlyUnit(c.text) && lengthIn(joined[n-1].text, parse.Bare) {
				joined[n-1] = s.joinCells(joined[n-1], c)
				if n > 1 && follows(joined[n-2], joined[n-1]) && twoParts(joined[n-2].text, joined[n-1].text) {
					joined = append(joined[:n-2], s.joinCells(joined[n-2], joined[n-1]))
				}
				continue
			}
			joined = append(joined, c)
		}
		out[i] = joined
	}
	return out
}

// addsHalf reports a list to choose the part of an inch from, behind the field
// for whole inches.
func addsHalf(whole, part cell) bool {
	if part.field == nil || part.field.kind != enums.FPDF_FORMFIELD_TYPE_COMBOBOX || whole.field == nil || !wholeNumber.MatchString(whole.text) {
		return false
	}
	return part.text == "0" || tickFraction(part.text) != ""
}

var wholeNumber = regexp.MustCompile(`^\d{1,3}$`)

// follows reports two cells with no more than some blanks between.
func follows(a, b cell) bool { return b.box.x0-a.box.x1 <= unitWithin*b.box.height() }

// joinCells makes one cell of two that follow each other; a doubt about either
// is one about both.
func (s *sheet) joinCells(a, b cell) cell {
	s.sharesDoubts(a.place, b.place)
	if b.text != "0" {
		a.text += " " + b.text
	}
	a.box = a.box.join(b.box)
	return a
}

var units = []parse.Scale{parse.ScaleFoot, parse.ScaleInch, parse.ScaleM, parse.ScaleCM, parse.ScaleMM}

// onlyUnit reports the name of a unit and nothing else.
func onlyUnit(text string) bool {
	return !hasDigit(text) && lengthIn("1 "+text, units...)
}

func lengthIn(text string, scales ...parse.Scale) bool {
	a, fault := parse.ParseLength(text)
	return !fault.Some() && slices.Contains(scales, a.Scale)
}

// twoParts reports feet and inches, or metres and centimetres.
func twoParts(a, b string) bool {
	return lengthIn(a, parse.ScaleFoot) && lengthIn(b, parse.ScaleInch) && lengthIn(a+" "+b, parse.ScaleInch) ||
		lengthIn(a, parse.ScaleM) && lengthIn(b, parse.ScaleCM) && lengthIn(a+" "+b, parse.ScaleCM)
}
