package form

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fairtape/parse"
)

// Code is what the code on a page says.
type Code struct {
	Version int
	Slip    bool
	Page    int // from 1
	Paper   Paper
	Unit    parse.Unit
	Spacing parse.Length // of the stations of a form
	Rows    int          // stations of a form
	Job     int          // 0 when not known
	Places  []parse.Cell // of a slip
}

// Errors of a code that cannot be used.
var (
	ErrNotOurs = errors.New("not the code of a form of ours")
	ErrVersion = errors.New("a form of another version")
)

// The text of a code has only characters of the QR code's alphanumeric set
// (ISO/IEC 18004, 7.3.4), which makes it small:
//
//	FT1/F2/LI/15/14            version 1, form, page 2, Letter, inches, 15 rows, job 14
//	FT1/F2/LI/31*6/14          stations every 6 in
//	FT1/S1/MC/210P+240H+LO/14  slip, A4, centimetres, places, job 14
const (
	codePrefix    = "FT"
	codeSeparator = "/"
	placesBetween = "+"
	rowsEvery     = "*"
)

var paperLetters = map[Paper]string{Letter: "L", A4: "M"}

var unitLetters = map[parse.Unit]string{parse.Inch: "I", parse.Centimetre: "C"}

// shortNames name a measure in a code. Those of stations follow the distance.
var shortNames = map[parse.Measure]string{
	parse.HullGirth: "H", parse.FullGirth: "F", parse.MeasurePair: "P",
	parse.LengthOverall: "LO", parse.BowHeight: "BH", parse.SternHeight: "SH", parse.CarryPoint: "CP",
	parse.GreatestAt: "GA", parse.GreatestHullGirth: "GH", parse.GreatestFullGirth: "GF", parse.GreatestPair: "GP", parse.GreatestOpening: "GO",
	parse.TransomHullGirth: "TH", parse.TransomFullGirth: "TF", parse.TransomPair: "TP",
}

// String is the text of the code.
func (c Code) String() string {
	kind, middle := "F", strconv.Itoa(c.Rows)
	if c.Spacing != Spacing(c.Unit) {
		middle += rowsEvery + plain(c.Spacing.In(c.Unit))
	}
	if c.Slip {
		var places []string
		for _, p := range c.Places {
			name := shortNames[p.Measure]
			if isStation(p.Measure) {
				name = plain(p.At.In(c.Unit)) + name
			}
			places = append(places, name)
		}
		kind, middle = "S", strings.Join(places, placesBetween)
	}
	return strings.Join([]string{
		codePrefix + strconv.Itoa(c.Version), kind + strconv.Itoa(c.Page),
		paperLetters[c.Paper] + unitLetters[c.Unit], middle, strconv.Itoa(c.Job),
	}, codeSeparator)
}

// ParseCode reads the text of a code. Errors are ErrNotOurs, for any text that
// String does not write, and ErrVersion.
func ParseCode(text string) (Code, error) {
	parts := strings.Split(text, codeSeparator)
	version, ours := strings.CutPrefix(parts[0], codePrefix)
	if !ours || len(parts) != 5 || len(parts[1]) != 2 || len(parts[2]) != 2 {
		return Code{}, fmt.Errorf("%w: %q", ErrNotOurs, text)
	}
	c := Code{
		Slip:  parts[1][0] == 'S',
		Page:  number(parts[1][1:]),
		Paper: keyOf(paperLetters, parts[2][:1]),
		Unit:  keyOf(unitLetters, parts[2][1:]),
		Job:   number(parts[4]),
	}
	if c.Version = number(version); c.Version > 0 && c.Version != Version {
		return Code{}, fmt.Errorf("%w: %d", ErrVersion, c.Version)
	}
	if c.Slip {
		c.Places = parsePlaces(parts[3], c.Unit)
	} else {
		rows, every, other := strings.Cut(parts[3], rowsEvery)
		c.Rows, c.Spacing = number(rows), Spacing(c.Unit)
		if x, err := strconv.ParseFloat(every, 64); other && err == nil {
			c.Spacing = parse.Measured(x, c.Unit)
		}
	}
	if _, err := c.Layout(); err != nil || c.Version != Version || c.Job < 0 || c.String() != text {
		return Code{}, fmt.Errorf("%w: %q", ErrNotOurs, text)
	}
	return c, nil
}

// Layout is the geometry of the paper that the code stands on.
func (c Code) Layout() (Layout, error) {
	var l Layout
	var err error
	if c.Slip {
		l, err = NewSlip(SlipSpec{c.Paper, c.Unit, c.Job, c.Places})
	} else {
		l, err = New(Spec{c.Paper, c.Unit, c.Spacing, c.Rows, c.Job})
	}
	if err == nil && (c.Page < 1 || c.Page > len(l.Pages)) {
		err = fmt.Errorf("%w: there is no page %d", ErrNotOurs, c.Page)
	}
	return l, err
}

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// number reads a plain number; -1 for what is none, which no code holds.
func number(text string) int {
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil {
		return -1
	}
	return int(n)
}

func keyOf[K ~string](letters map[K]string, letter string) K {
	for k, l := range letters {
		if l == letter {
			return k
		}
	}
	return ""
}

func parsePlaces(text string, unit parse.Unit) []parse.Cell {
	var places []parse.Cell
	for _, word := range strings.Split(text, placesBetween) {
		digits := strings.TrimRight(word, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
		cell := parse.Cell{Measure: keyOf(shortNames, word[len(digits):])}
		if at, err := strconv.ParseFloat(digits, 64); err == nil {
			cell.At = parse.Measured(at, unit)
		}
		places = append(places, cell)
	}
	return places
}
