package table

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// Forms have a narrow column for the half: "whole inches | + 1/2", with a tick,
// a cross or the fraction itself in it.

var (
	halfHead = regexp.MustCompile(`^(?:(?:and|plus|et|\+) ?)?(?:(?:a|un|une) )?(?:half|halves|1/2|demie?s?)(?: ?(?:in|inch|inches|"|po|pouces?))?\??$`)
	halfMark = regexp.MustCompile(`^(?:x|v|y|yes|o|oui|\*|✓|✔|☒|☑|\[x\]|\(x\)|\+? ?(?:1/2|0?[.,]5)(?: ?(?:in|"|po))?)$`)
	noHalf   = regexp.MustCompile(`^(?:[-_.]+|0|n|no|non|☐|\[ ?\])?$`)
)

// joinHalves puts whole numbers and the halves in the column beside them
// together, and leaves the column of halves empty.
func joinHalves(g Grid) Grid {
	for _, turn := range []func(Grid) Grid{func(g Grid) Grid { return g }, turned} {
		g = turn(g)
		for r := range g.Rows {
			for c := 1; c < len(g.Rows[r]); c++ {
				// Beside a number a half is a half, and no heading.
				if halfHead.MatchString(parse.Fold(g.Rows[r][c].Text)) && firstDigit(g.Rows[r][c-1].Text) < 0 && g.Rows[r][c-1].Text != "" {
					g = halvesBelow(g, r, c)
				}
			}
		}
		g = turn(g)
	}
	return g
}

// halvesBelow joins the halves under the heading in row r, column c, down to
// the next heading of words; none when anything there is no half, or stands
// beside no whole number.
func halvesBelow(g Grid, r, c int) Grid {
	var rows, nothing []int
	for i := r + 1; i < len(g.Rows); i++ {
		if len(g.Rows[i]) <= c {
			continue
		}
		whole, half := g.Rows[i][c-1], g.Rows[i][c]
		s := parse.Fold(half.Text)
		a, f := parse.ParseLength(whole.Text)
		switch {
		case halfHead.MatchString(s) && (f.Some() || whole.Text == ""): // the next table's heading
			i = len(g.Rows)
		case noHalf.MatchString(s):
			nothing = append(nothing, i)
		case !halfMark.MatchString(s), f.Some(), whole.Code != "" || half.Code != "", a.Number != math.Trunc(a.Number):
			return g
		default:
			rows = append(rows, i)
		}
	}
	if len(rows) == 0 {
		return g
	}
	g.Rows = slices.Clone(g.Rows)
	for _, i := range nothing {
		g.Rows[i] = slices.Clone(g.Rows[i])
		g.Rows[i][c].Text = ""
	}
	for _, i := range rows {
		row := slices.Clone(g.Rows[i])
		whole, half := &row[c-1], &row[c]
		whole.Raw = strings.TrimSpace(whole.Text + " " + half.Text)
		whole.Text = withHalf(whole.Text)
		half.Text = ""
		g.Rows[i] = row
	}
	row := slices.Clone(g.Rows[r])
	row[c].Text = ""
	g.Rows[r] = row
	return g
}

var closingUnit = regexp.MustCompile(`^(\d+)\.?0*(\D*)$`)

// withHalf adds half a unit to a whole number: "39 in" is "39 1/2 in".
func withHalf(whole string) string {
	if m := closingUnit.FindStringSubmatch(parse.Plain(whole)); m != nil {
		return strings.TrimSpace(m[1] + " 1/2" + m[2])
	}
	return whole + " 1/2"
}

// halfBeside reports a fraction or a mark of a half that stands right of a whole
// number and has not been understood: the number may be too small by it.
func (s *sheet) halfBeside(it *item) bool {
	n := it.amount.Number
	if it.fault.Some() || n != math.Trunc(n) || n == 0 {
		return false
	}
	v := view{s, false}
	beside := v.at(it.row, it.col+1)
	if beside.empty() || beside.used || !halfMark.MatchString(beside.folded) && !(beside.numeric && !beside.fault.Some() && beside.amount.Number > 0 && beside.amount.Number < 1) {
		return false
	}
	for r := it.row - 1; r >= 0; r-- {
		if up := v.at(r, beside.col); up.word() && !halfMark.MatchString(up.folded) {
			return halfSaid.MatchString(up.folded)
		}
	}
	return beside.numeric
}

// halfSaid is a heading that may be one of fractions.
var halfSaid = regexp.MustCompile(`\b(?:half|halves|1/2|demie?s?|fractions?|frac|parts?|quarters?|eighths?|\d/\d)\b`)
