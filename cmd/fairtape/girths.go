package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/fair"
)

// printGirths draws the girths along the boat, a line a station: o is the hull
// girth, x the full girth, + the fair curve where it runs elsewhere. Places
// that the survey asks about are marked at the end of their line.
func printGirths(w io.Writer, r validate.Report) error {
	scale, ok := scaleOf(r, widthOf(w))
	if !ok {
		return nil
	}
	unit := r.Survey.Unit
	fmt.Fprintf(w, "\n%s\n", emphasis(w, "Girths in "+unitWord(unit)+": o hull, x full, + the fair curve where it is elsewhere")) //nolint:errcheck // the last write tells
	fmt.Fprintln(w, strings.TrimRight(fmt.Sprintf("%*s%s", startColumn, "", scale.marks()), " "))                                 //nolint:errcheck // the last write tells
	var err error
	for _, st := range r.Survey.Stations {
		line := []rune(strings.Repeat(" ", scale.columns+1))
		if r.Curve != nil {
			hull, full := r.Curve.At(st.At.In(parse.Inch))
			scale.put(line, '+', measured(hull, unit))
			scale.put(line, '+', measured(full, unit))
		}
		for _, g := range []struct {
			sign    rune
			reading parse.Reading
		}{{'o', st.HullGirth}, {'x', st.FullGirth}} {
			if g.reading.Known {
				scale.put(line, g.sign, g.reading.Value.In(unit))
			}
		}
		text := fmt.Sprintf("%*s  %s", startColumn-2, st.At.Along(unit), string(line))
		if words := askedAt(r, st.At); words != "" {
			text += styled(w, " < "+words, yellow)
		}
		_, err = fmt.Fprintln(w, strings.TrimRight(text, " "))
	}
	return err
}

func unitWord(u parse.Unit) string {
	if u == parse.Centimetre {
		return "centimetres"
	}
	return "inches"
}

// measured is a point of the curve in the survey's unit.
func measured(e fair.Estimate, unit parse.Unit) float64 { return parse.Inches(e.Mean).In(unit) }

// askedAt says what is asked about a station, "" for nothing.
func askedAt(r validate.Report, at parse.Length) string {
	var words []string
	for _, f := range r.Findings {
		if f.Kind != validate.Recheck && f.Kind != validate.Confirm {
			continue
		}
		switch {
		case f.Cell.Measure == "" && len(f.Rows) > 0 && f.Rows[0] == at:
			words = append(words, "rows from here")
		case f.Cell.Measure == parse.MeasurePair && f.Cell.At == at:
			words = append(words, "both girths")
		case f.Cell.Measure != "" && f.Cell.At == at:
			words = append(words, strings.ReplaceAll(string(f.Cell.Measure), "_", " "))
		}
	}
	return strings.Join(words, ", ")
}

// startColumn is where the scale begins; before it stands the station.
const startColumn = 13

// scale is an axis of girths, in the survey's unit.
type scale struct {
	from, to float64
	step     float64 // between two marks
	columns  int
}

// scaleOf fits the girths into a width, with room for what is asked. It reports
// false when there is no girth to draw.
func scaleOf(r validate.Report, width int) (scale, bool) {
	const asked = 25
	low, high := math.Inf(1), math.Inf(-1)
	take := func(x float64) { low, high = math.Min(low, x), math.Max(high, x) }
	for _, st := range r.Survey.Stations {
		for _, reading := range []parse.Reading{st.HullGirth, st.FullGirth} {
			if reading.Known {
				take(reading.Value.In(r.Survey.Unit))
			}
		}
		if r.Curve != nil {
			hull, full := r.Curve.At(st.At.In(parse.Inch))
			take(measured(hull, r.Survey.Unit))
			take(measured(full, r.Survey.Unit))
		}
	}
	if low > high {
		return scale{}, false
	}
	s := scale{step: 10, columns: max(20, width-startColumn-asked)}
	for (high-low)/s.step > 8 {
		s.step *= 2
	}
	s.from, s.to = s.step*math.Floor(low/s.step), s.step*math.Ceil(high/s.step)
	if s.from == s.to {
		s.to += s.step
	}
	return s, true
}

func (s scale) column(x float64) int {
	return int(math.Round((x - s.from) / (s.to - s.from) * float64(s.columns)))
}

// put sets a sign where nothing of more weight stands beside it: what was
// written hides the curve that runs through it.
func (s scale) put(line []rune, sign rune, x float64) {
	at := s.column(x)
	line[at] = sign
	for _, beside := range []int{at - 1, at + 1} {
		if sign != '+' && beside >= 0 && beside < len(line) && line[beside] == '+' {
			line[beside] = ' '
		}
	}
}

// marks is the axis with its numbers.
func (s scale) marks() string {
	line := []rune(strings.Repeat(" ", s.columns+8))
	for x := s.from; x <= s.to; x += s.step {
		copy(line[s.column(x):], []rune(fmt.Sprintf("%g", x)))
	}
	return string(line)
}
